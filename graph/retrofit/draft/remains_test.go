package draft

import (
	"testing"

	"dryfit/graph"
)

// What is in an old run and not listed costs the water once, into however many pieces it is cut.
func TestRemainsKeepOneK(t *testing.T) {
	old := &graph.Run{ID: "line", K: 8, Existing: true, Pos: graph.Pos{Line: 1}}
	other := &graph.Run{ID: "other", K: 3, Existing: true}
	d := Of(&graph.Circuit{Runs: []*graph.Run{old, other}})
	d.Remains(old, At("a", "out"), At("tee", "run-in"), []graph.Leg{Leg(graph.Vec{X: 400})})
	d.Remains(old, At("tee-b", "run-out"), At("b", "in"), []graph.Leg{Leg(graph.Vec{X: 300})})
	d.Remains(other, At("b", "out"), At("tee-c", "run-in"), []graph.Leg{Leg(graph.Vec{X: 200})})
	k := map[string]float64{}
	for _, r := range d.Runs {
		if r.RemainsOf != "" {
			k[r.RemainsOf] += r.K
		}
	}
	if k["line"] != 8 || k["other"] != 3 || old.K != 8 {
		t.Errorf("what is left has K %v; the old run %g", k, old.K)
	}
}
