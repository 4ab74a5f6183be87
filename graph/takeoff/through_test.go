package takeoff

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// Where a part has several ways on, the greatest head is followed by the way that carries most:
// reckoned by hand on a manifold of four ports, with the water and against it, the widest way
// neither first nor last.
func TestTheWayThatCarriesMost(t *testing.T) {
	manifold := &graph.Part{ID: "m", Kind: graph.Manifold}
	legs := func(flows ...float64) []hydraulic.LegFlow {
		var out []hydraulic.LegFlow
		for i, q := range flows {
			out = append(out, hydraulic.LegFlow{Port: []string{"p", "a", "b", "c"}[i], Flow: q, Drop: 1000 * q})
		}
		return out
	}
	for _, c := range []struct {
		down  bool
		flows []float64
		drop  float64 // Pa
	}{
		{true, []float64{6, -1, -3, -2}, 9000}, // 6 in, 3 of it out by b: 6,000 - -3,000
		{false, []float64{-6, 1, 3, 2}, 9000},  // 3 in by b, 6 out: 3,000 - -6,000
		{true, []float64{2, 1, -2, -1}, 4000},  // a brings water too, and is no way on
		{false, []float64{-2, -1, 2, 1}, 4000}, // the same against the water
	} {
		w := &walker{pa: 1000}
		port, ok := w.through(&hydraulic.PartFlow{Part: manifold, Legs: legs(c.flows...)}, "p", c.down)
		if !ok || port != "b" {
			t.Errorf("down %v, flows %v: goes on by %q, %v; want b", c.down, c.flows, port, ok)
		}
		if got := w.head[shareOf(manifold.Kind)]; got != c.drop/1000 {
			t.Errorf("down %v, flows %v: %g m, want %g", c.down, c.flows, got, c.drop/1000)
		}
	}
}
