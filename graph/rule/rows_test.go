package rule

import (
	"math"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
)

// TestCracking: what the description says of a check comes first, then the row it names, then
// the default spring; a swing check of which nothing is said opens at once. 1 psi is
// 6894.757 Pa (NIST SP 811).
func TestCracking(t *testing.T) {
	const psi = 6894.757
	for _, c := range []struct {
		name string
		part graph.Part
		want float64
	}{
		{"own, over its row's", graph.Part{Type: "spring-check 1/2 psi", Check: &graph.CheckData{CrackingSet: true, CrackingPa: 9000}}, 9000},
		{"own, of a swing check", graph.Part{Check: &graph.CheckData{Style: "swing", CrackingSet: true, CrackingPa: 300}}, 300},
		{"the row's", graph.Part{Type: "spring-check 1/2 psi"}, 0.5 * psi},
		{"the default spring's, 2 psi in the catalogue", graph.Part{Check: &graph.CheckData{Style: "spring"}}, 2 * psi},
		{"a swing check's", graph.Part{Check: &graph.CheckData{Style: "swing"}}, 0},
	} {
		c.part.ID, c.part.Kind = "check", graph.CheckValve
		circuit := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{&c.part}}
		if got := crackingPa(circuit, &c.part); math.Abs(got-c.want) > 1 {
			t.Errorf("%s: %.1f Pa, want %.1f", c.name, got, c.want)
		}
	}
}

// TestUnitRow: a unit that names no row has the default one, whatever its pipe.
func TestUnitRow(t *testing.T) {
	cat := catalog.Embedded()
	want, ok := cat.Generic("heat-pump")
	if !ok {
		t.Fatal("the catalogue has no heat pump")
	}
	for _, inch := range []float64{1, 1.5, 2} {
		u := &graph.Part{ID: "unit", Kind: graph.HeatPump, Size: catalog.Size{Nominal: inch}}
		if got := row(&graph.Circuit{Catalog: cat, Parts: []*graph.Part{u}}, u); got.Name != want.Name {
			t.Errorf("%g in: row %q, want %q", inch, got.Name, want.Name)
		}
	}
}

// TestNPSHBetweenPoints: straight between the points of the sheet, level beyond its ends.
// Worked by hand.
func TestNPSHBetweenPoints(t *testing.T) {
	points := []graph.CurvePoint{{Flow: 1, Head: graph.Drop{Value: 2}}, {Flow: 3, Head: graph.Drop{Value: 6}}}
	for flow, want := range map[float64]float64{0: 2, 1: 2, 2: 4, 2.5: 5, 3: 6, 9: 6} {
		if got := npshAt(points, flow); math.Abs(got-want) > 1e-12 {
			t.Errorf("npshAt(%g) = %g, want %g", flow, got, want)
		}
	}
}
