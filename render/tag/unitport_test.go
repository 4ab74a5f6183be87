package tag

import (
	"testing"

	"dryfit/graph"
)

// The two ports of a heat pump look alike: what stands at one is named with it, so that two fittings
// are never called the same. Of other parts the name is enough.
func TestPortOfTheUnitIsNamed(t *testing.T) {
	unit, valve := &graph.Part{ID: "unit", Kind: graph.HeatPump}, &graph.Part{ID: "v1", Kind: graph.BallValve}
	n := &Names{parts: map[string]*graph.Part{"unit": unit, "v1": valve}, tags: map[string]string{"unit": "HP1", "v1": "V1"}}
	for words, want := range map[string]string{
		"unit.in": "HP1 heat pump, inlet", "unit.out": "HP1 heat pump, outlet", "transition at unit.out": "transition at HP1 outlet", "unit": "HP1 heat pump",
		"v1.out": "V1 ball valve", "reducing-bush at v1.in": "bush at V1", "piece 5": "piece 5",
	} {
		if got := n.End(words); got != want {
			t.Errorf("%q is called %q, want %q", words, got, want)
		}
		if got := n.Text(words); words != "unit" && words != "piece 5" && got != want { // a plain word of a sentence stays
			t.Errorf("in a sentence %q is called %q, want %q", words, got, want)
		}
	}
}
