package job

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	_ "dryfit/graph/lots" // garbage is collected seldom
)

// A changeover feeds the unit or the element: heating up takes as long as with the unit alone,
// the element heats where the air is too cold for the unit, and the two never run together on
// the supply. Every other interlock lets the element help, and counts both currents. Source:
// what the words say; common practice, no source.
func TestAChangeoverHeatsByOneAtATime(t *testing.T) {
	with := func(airC float64, interlock string) *Report {
		in := testInput()
		in.Stage.Circuit.Site.AirC = airC
		e := in.Stage.Circuit.OfKind(graph.ElementHeater)[0].Element
		e.Disconnected, e.Interlock = interlock == "", interlock
		return still(in)
	}
	alone := with(-8, "")
	if got := with(-8, graph.InterlockChangeover); got.HeatUp.Warmed.Hours != alone.HeatUp.Warmed.Hours || got.HeatUp.Warmed.Element != 0 || got.Recovery.Warmed.Element != 0 {
		t.Errorf("changeover: %.2f h, %.2f kWh by the element; the unit alone %.2f h", got.HeatUp.Warmed.Hours, got.HeatUp.Warmed.Element, alone.HeatUp.Warmed.Hours)
	}
	for _, interlock := range []string{graph.InterlockContact, graph.InterlockSetPoint} {
		got := with(-8, interlock)
		// 2 kW of element all the way
		if want := 2 * got.HeatUp.Warmed.Hours; !(got.HeatUp.Warmed.Hours < alone.HeatUp.Warmed.Hours) || !agree.Within(got.HeatUp.Warmed.Element, want, 1e-6*want) {
			t.Errorf("%s: %.2f h, %.2f kWh by the element, want %.2f", interlock, got.HeatUp.Warmed.Hours, got.HeatUp.Warmed.Element, want)
		}
	}
	// the unit stops at -15 °C
	if got := with(-18, graph.InterlockChangeover); !(got.HeatUp.Warmed.Element > 0) {
		t.Error("below the unit's least air the changeover's element does not heat")
	}
	for interlock, together := range map[string]bool{graph.InterlockChangeover: false, graph.InterlockContact: true, graph.InterlockSetPoint: true} {
		both := false
		for _, s := range with(-8, interlock).Supplies {
			for _, row := range s.Together {
				both = both || slices.Contains(row.IDs, "element") && slices.Contains(row.IDs, "unit")
			}
		}
		if both != together {
			t.Errorf("%s: unit and element together on the supply: %v", interlock, both)
		}
	}
}

// An element with a set point of its own, below the tub's, helps the unit up to that set point
// and not after a bath that leaves the water above it. Source: what a thermostat does.
func TestAnElementSetLowerHelpsUpToItsSetPoint(t *testing.T) {
	with := func(set func(e *graph.ElementData)) *Report {
		in := testInput()
		set(in.Stage.Circuit.OfKind(graph.ElementHeater)[0].Element)
		return still(in)
	}
	alone := with(func(e *graph.ElementData) { e.Disconnected = true })
	whole := with(func(e *graph.ElementData) { e.Disconnected, e.Interlock = false, graph.InterlockSetPoint })
	part := with(func(e *graph.ElementData) {
		e.Disconnected, e.Interlock = false, graph.InterlockSetPoint
		e.SetPointC, e.SetPointSet = alone.Recovery.FromC-0.5, true
	})
	if part.Recovery.Warmed.Element != 0 || part.Recovery.Warmed.Hours != alone.Recovery.Warmed.Hours {
		t.Errorf("set below the water: back in %.3f h, without an element in %.3f h", part.Recovery.Warmed.Hours, alone.Recovery.Warmed.Hours)
	}
	if up := part.HeatUp; !(up.Warmed.Element > 0) || !(up.Warmed.Hours > whole.HeatUp.Warmed.Hours) || !(up.Warmed.Hours < alone.HeatUp.Warmed.Hours) {
		t.Errorf("set below the tub: up in %.3f h, all the way with it %.3f h, without it %.3f h", up.Warmed.Hours, whole.HeatUp.Warmed.Hours, alone.HeatUp.Warmed.Hours)
	}
}
