package search

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// Of two places alike but for one thing, the one a fitter would take.
func TestOrderOfPlaces(t *testing.T) {
	place := func(room float64, doubts ...retrofit.Doubt) *trial {
		return &trial{place: retrofit.Place{RoomMM: room, NeededMM: 400, Doubts: doubts}, untried: true}
	}
	long := retrofit.Doubt{What: "check", MM: 95, OverMM: 60}
	for _, c := range []struct {
		name          string
		better, worse *trial
	}{
		{"more room to spare", place(900), place(500)},
		{"less room that is sure", place(420), place(450, long)},
	} {
		if byMerit(c.better, c.worse) >= 0 || byMerit(c.worse, c.better) <= 0 {
			t.Errorf("%s comes second", c.name)
		}
	}
	if _, ok := place(450, long).place.Deciding(); !ok {
		t.Error("50 mm to spare and 60 uncertain decide nothing")
	}
}

// A cracking pressure that is asked for is met by the nearest spring there is.
func TestNearestSpring(t *testing.T) {
	const psi = 6894.757
	data, err := os.ReadFile("../../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read("two-speed.toml", data)
	if c == nil {
		t.Fatal(ds)
	}
	all := c.Catalog.Springs()
	if len(all) < 3 || !slices.IsSortedFunc(all, func(a, b catalog.Row) int { return int(math.Copysign(1, a.CrackingPa-b.CrackingPa)) }) {
		t.Fatalf("%d springs, the weakest first?", len(all))
	}
	s := &search{asked: c}
	c.Retrofit.Spring = ""
	for _, want := range all {
		for _, off := range []float64{-0.05, 0.05} {
			c.Retrofit.SpringPa = want.CrackingPa + off*psi
			if got := s.springs(); len(got) != 1 || got[0].Name != want.Name {
				t.Errorf("asked for %.2f psi: %v, want %s", c.Retrofit.SpringPa/psi, got, want.Name)
			}
		}
	}
}

// A run known only by its length is one to measure where it may hold the work: not where even the
// longest it may be (catalogue: a length nobody measured is up to 34 % more than written) is less
// than that. What it says is then no advice.
func TestShortLengthIsNothingToMeasure(t *testing.T) {
	data, err := os.ReadFile("../../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ length, verdict string }{{"0 mm", "ruled out"}, {"250 mm", "ruled out"}, {"400 mm", "measure first"}, {"900 mm", "measure first"}} {
		text := strings.Replace(string(data), "from = \"filter.out\"\nto = \"element.in\"\nexisting = true\nlegs = [\"right 160 mm\"]",
			"from = \"filter.out\"\nto = \"element.in\"\nexisting = true\nlength = \""+c.length+"\"", 1)
		circuit, ds := description.Read("two-speed.toml", []byte(text))
		if circuit == nil || graph.HasErrors(ds) || text == string(data) {
			t.Fatal(ds)
		}
		circuit.Retrofit.Cut = nil
		before := &stage.Stage{Circuit: circuit.At(graph.Before)}
		before.Lay()
		s := newSearch(circuit, before)
		s.forced(graph.Cut{Run: "heater-line"})
		s.rank()
		seen := false
		for _, v := range s.verdicts() {
			if v.Place.Run != "heater-line" {
				continue
			}
			if seen = true; v.Verdict != c.verdict || (len(v.Mend) > 0) != (c.verdict == "measure first") {
				t.Errorf("%s of pipe, %.0f mm needed: %s, %q", c.length, v.Place.NeededMM, v.Verdict, v.Mend)
			}
		}
		if !seen {
			t.Error("nothing is said of the run")
		}
	}
}
