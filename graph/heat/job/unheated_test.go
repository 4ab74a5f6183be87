package job

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// An element that is to be disconnected heats until the work that fits the unit is done. In a job without a heat
// pump nothing is to come: it is off as described, so nothing heats and there is no year to tell; one that is
// connected makes the year alone. Source: what the word means under its key.
func TestADisconnectedElementWithoutAUnitIsOff(t *testing.T) {
	for _, c := range []struct{ unit, disconnected, unheated bool }{{true, true, false}, {false, true, true}, {false, false, false}} {
		in := testInput()
		circuit := in.Stage.Circuit
		circuit.OfKind(graph.ElementHeater)[0].Element.Disconnected = c.disconnected
		if !c.unit {
			circuit.Parts = slices.DeleteFunc(circuit.Parts, func(p *graph.Part) bool { return p.Kind == graph.HeatPump })
			in.Stage, in.Unit = settle.Of(circuit), nil
			in.Heating = Heating{Pump: in.Stage.Part("pump"), Speed: "low"}
		}
		got := answer(in)
		if got.Unheated != c.unheated || (got.Year == nil) != c.unheated {
			t.Errorf("unit %v, disconnected %v: unheated %v, a year %v, want %v", c.unit, c.disconnected, got.Unheated, got.Year != nil, c.unheated)
			continue
		}
		if !c.unheated && !(got.Year.Today != nil && got.Year.TodayKWh.Likely > 100) {
			t.Errorf("unit %v, disconnected %v: the element heats today, and its year is %+v", c.unit, c.disconnected, got.Year.TodayKWh)
		}
		if !c.unit && c.disconnected && got.HeatUp != nil && got.HeatUp.Warmed.Element > 0 {
			t.Errorf("off, it makes %.1f kWh while heating up", got.HeatUp.Warmed.Element)
		}
	}
}
