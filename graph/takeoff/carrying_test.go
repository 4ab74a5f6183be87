package takeoff

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/route"
)

// A pipe has as many clips as spans of the spacing, the last one begun: of just two spacings two, a tenth more
// three; a quarter of one is carried by one, less by what it joins.
func TestClipsByTheSpan(t *testing.T) {
	size := catalog.Size{Nominal: 1.5}
	spacing, _, ok := tables.SupportSpacing("pvc-sch40", size, 38)
	if !ok {
		t.Fatal("no spacing for 1-1/2 in")
	}
	for _, c := range []struct{ spans, want float64 }{{0.24, 0}, {0.26, 1}, {1, 1}, {2, 2}, {2.1, 3}} {
		b := &biller{c: &graph.Circuit{}, lay: &route.Layout{}}
		b.addSupports(&graph.Run{ID: "run", Spec: "pvc-sch40", Size: size}, c.spans*spacing, 38)
		clips := 0.0
		for _, l := range b.lines {
			clips += l.Quantity
		}
		if clips != c.want {
			t.Errorf("%g spacings of %g mm: %g clips, want %g", c.spans, spacing, clips, c.want)
		}
	}
}

// New pipe known by its length is bought by the length, with a tenth more, also where a transition at
// its end stands on a nipple, which is cut: 1657 mm and a tenth.
func TestPipeByItsLengthIsBought(t *testing.T) {
	data, err := os.ReadFile("../../testdata/plug-in.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for _, put := range [][2]string{
		{`legs = ["front 357 mm", "right 1300 mm"]`, "spec = \"pvc-pn16\"\nsize = \"50 mm\"\nlength = \"1657 mm\"\nfittings = { elbow-90 = 1 }"},
		{"id = \"isolator-to\"\n", "id = \"isolator-to\"\nspec = \"pvc-sch40\"\nsize = \"1 1/2 in\"\n"},
		{"id = \"union-to\"\n", "id = \"union-to\"\nspec = \"pvc-sch40\"\nsize = \"1 1/2 in\"\n"},
	} {
		if !strings.Contains(text, put[0]) {
			t.Fatalf("the demo has no %q", put[0])
		}
		text = strings.Replace(text, put[0], put[1], 1)
	}
	if got := item(t, bill(t, read(t, "job.toml", text)), true, "pipe", "50 mm", "m"); !near(got.Quantity, 1.657*1.1, 1e-9) {
		t.Errorf("%g m are bought", got.Quantity)
	}
}
