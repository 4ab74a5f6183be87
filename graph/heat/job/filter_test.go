package job

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// A small pump of one speed beside jet pumps is there to run day and night; one that has a speed for
// its jets, or that is the only pump, filters two to eight hours. Both are noted as nobody's word, but of one
// that is said never to stop. Common practice, no source.
func TestHoursThePumpFilters(t *testing.T) {
	one, two := []graph.Speed{{Name: "low", PowerW: 240}}, []graph.Speed{{Name: "low", PowerW: 240}, {Name: "high", PowerW: 1700}}
	said := []graph.Speed{{Name: "low", PowerW: 240, HoursADay: graph.Given(10)}}
	for what, x := range map[string]struct {
		pump      graph.PumpData
		jets      bool
		from, to  float64
		isAssumed bool
	}{
		"one speed beside a jet pump":  {graph.PumpData{Speeds: one}, true, 24, 24, true},
		"one speed, the only pump":     {graph.PumpData{Speeds: one}, false, 2, 8, true},
		"two speeds beside a jet pump": {graph.PumpData{Speeds: two}, true, 2, 8, true},
		"two speeds, never off":        {graph.PumpData{Speeds: two, AlwaysOn: true}, false, 24, 24, false},
		"its hours are said":           {graph.PumpData{Speeds: said}, true, 10, 10, false},
	} {
		in := testInput()
		c := in.Stage.Circuit
		c.Part("pump").Pump = &x.pump
		if x.jets {
			c.Parts = append(c.Parts, &graph.Part{ID: "jet-pump", Kind: graph.Pump, Existing: true, Pump: &graph.PumpData{Speeds: one}})
		}
		in.Stage = settle.Of(c)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		a := NewAccount(in.Input)
		isAssumed := false
		for _, v := range a.assumed {
			isAssumed = isAssumed || strings.HasPrefix(v.What.String(), "hours a day in which")
		}
		if h := a.scene.planned.FilterH; !(h >= x.from && h <= x.to) || isAssumed != x.isAssumed {
			t.Errorf("%s: %g hours, assumed %v; want %g to %g, %v", what, h, isAssumed, x.from, x.to, x.isAssumed)
		}
	}
}
