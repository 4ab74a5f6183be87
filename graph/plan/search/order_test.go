package search

import (
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"dryfit/graph"
	"dryfit/graph/description"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// searched returns the search of a demo with its places tried in an order, and the circuit.
func searched(t *testing.T, demo string, order func([]retrofit.Place)) (*search, *graph.Circuit) {
	t.Helper()
	file := "../../../testdata/" + demo + ".toml"
	if _, err := os.Stat(file); err != nil {
		file = "../testdata/jobs/" + demo + ".toml"
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read(demo, data)
	if c == nil {
		t.Fatal(ds)
	}
	c.Retrofit.Cut = nil
	before := &stage.Stage{Circuit: c.At(graph.Before)}
	before.Lay()
	s := newSearch(c, before)
	places := retrofit.NewSite(c, before.Layout).Places()
	order(places)
	s.try(places)
	s.rank()
	return s, c
}

// In whatever order the places are tried, each has the same verdict, reasons and summary, and
// the same one is best: nothing found at one place leaks into another; with two pumps and with
// two units as well. The circuit that is searched stays as it is. Checked against nothing but itself: a property.
func TestAnyOrderOfPlaces(t *testing.T) {
	for _, demo := range []string{"two-speed", "circulation", "second-unit", "swim-spa"} {
		first, c := searched(t, demo, func([]retrofit.Place) {})
		written := string(description.Write(c))
		want := first.verdicts()
		if len(want) < 5 {
			t.Fatalf("%s: %d places", demo, len(want))
		}
		for name, order := range map[string]func([]retrofit.Place){
			"backwards": slices.Reverse[[]retrofit.Place],
			"a shuffle": func(p []retrofit.Place) {
				rand.New(rand.NewPCG(1, 2)).Shuffle(len(p), func(i, j int) { p[i], p[j] = p[j], p[i] })
			},
		} {
			s, other := searched(t, demo, order)
			if d := cmp.Diff(want, s.verdicts(), cmpopts.IgnoreUnexported(Verdict{}, Reason{}, retrofit.Place{})); d != "" {
				t.Errorf("%s, %s: other verdicts (-in order +so):\n%s", demo, name, d)
			}
			s.chosen()
			if string(description.Write(other)) != written {
				t.Errorf("%s, %s: the search changed the circuit", demo, name)
			}
		}
	}
}
