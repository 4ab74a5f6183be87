package plan_test

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// The cases of a bad day are what they are called, on a demo with a bypass valve and three
// modes, of which one has a dirty filter and one jets turned down of its own. What must hold
// follows from the circuit.
func TestBadDays(t *testing.T) {
	p := work(t, readFile(t, "../../testdata/large-circulation.toml"), plan.Places|plan.Findings|plan.Flows)
	after := p.After
	if len(after.Isolated) != 3 {
		t.Fatalf("%d modes with the unit shut off, want 3", len(after.Isolated))
	}
	for i := range after.Isolated {
		s := &after.Isolated[i]
		if q := s.Part("unit").Flow; !agree.Within(q, 0, 1e-9) {
			t.Errorf("mode %q: shut off, the unit gets %g m³/s", s.Mode.Name, q)
		}
		if q, pump := s.Part(p.Proposal.Element).Flow, s.Part("circ-pump").Flow; !(q > 0) || !agree.Within(q, pump, 1e-6*pump) {
			t.Errorf("mode %q: the bypass carries %g of the pump's %g m³/s, with the unit shut off", s.Mode.Name, q, pump)
		}
	}
	if len(after.Dirty) != 1 || after.Dirty[0].Mode.Name != "heating" {
		t.Fatalf("%d dirty modes: %v; want heating alone, the others are dirty or turned down as described", len(after.Dirty), after.Dirty)
	}
	for i := range after.Solutions {
		if s := &after.Solutions[i]; s.Mode.Name == "heating" {
			if clean, dirty := s.Part("circ-pump").Flow, after.Dirty[0].Part("circ-pump").Flow; !(dirty < clean) {
				t.Errorf("the pump moves %g m³/s clean and %g dirty", clean, dirty)
			}
		}
	}
}

// Through a cover goes the most that any speed draws, when the other suctions are blocked: in
// the two-speed demo that of the high one.
func TestCoverIsHeldAgainstTheGreatestFlow(t *testing.T) {
	c := readFile(t, "../../testdata/two-speed.toml")
	tub := c.Part("tub")
	for i := range tub.Ports {
		tub.Ports[i].CoverRating = 20.0 / 3600 // invented
	}
	p := work(t, c, plan.Places|plan.Findings|plan.Flows)
	if len(p.After.Alone) == 0 {
		t.Fatal("no cover has a rating")
	}
	for _, a := range p.After.Alone {
		if a.Mode != "high" {
			t.Errorf("%s: held against mode %q", a.Port, a.Mode)
		}
	}
}
