package spread

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// What was read at a pump is not asked for again, and a gauge before it, or one elsewhere, is none after it.
func TestOneReading(t *testing.T) {
	flow, pressure := graph.Reading{Part: "pump", Flow: 0.001}, graph.Reading{Part: "pump", PressureSet: true}
	suction, elsewhere := pressure, graph.Reading{Part: "unit", Flow: 0.001, PressureSet: true}
	suction.Port = graph.In
	const both = "; or its flow in one mode by a meter clamped on, or the pressure after it by one gauge, given as a reading"
	for _, c := range []struct {
		read []graph.Reading
		want quantity.Text
	}{
		{nil, both},
		{[]graph.Reading{elsewhere}, both},
		{[]graph.Reading{suction}, both},
		{[]graph.Reading{flow}, "; or the pressure after it by one gauge, given as a reading"},
		{[]graph.Reading{pressure}, "; or its flow in one mode by a meter clamped on, given as a reading"},
		{[]graph.Reading{flow, pressure}, ""},
	} {
		m := &hydraulic.Model{Layout: &route.Layout{Stage: &settle.Stage{Circuit: &graph.Circuit{Readings: c.read}}}}
		if got := oneReading(m, "pump"); got != c.want {
			t.Errorf("%v: %q, want %q", c.read, got, c.want)
		}
	}
}
