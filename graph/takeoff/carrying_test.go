package takeoff

import (
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
