package job

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// A pump of 400 W that runs in the mode that heats takes its watts as long as the unit's pump does, beside what
// that takes; one that never stops takes them all the year, whether it runs in that mode or not. By hand: 400 W
// over 8760 hours are 3504 kWh, over six hours a day 876, over twelve 1752.
func TestEveryPumpThatRunsIsPaidFor(t *testing.T) {
	pumpKWh := func(a *heat.Account) (kWh float64) {
		for _, m := range a.Months {
			kWh += m.PumpKWh
		}
		return kWh
	}
	for what, c := range map[string]struct {
		runs           string // of the unit's pump
		with, neverOff bool   // of the other
		hours, moreKWh float64
	}{
		"beside one that never stops":           {"always", true, false, 0, 3504},
		"in the hours of the other":             {"hours", true, false, 0, 876},
		"in twelve hours of its own":            {"hours", true, false, 12, 1752},
		"on call, in every hour of the other":   {"", true, false, 0, 876},
		"never off, with it":                    {"hours", true, true, 0, 3504},
		"never off, and in no mode that heats":  {"hours", false, true, 0, 3504},
		"off while heat is made, without hours": {"hours", false, false, 0, 0},
	} {
		year := func(second bool) float64 {
			in := testInput()
			circuit := in.Stage.Circuit
			circuit.Part("pump").Pump.RunsForHeat = c.runs
			if c.runs == "" { // and heat asks for no more than those six hours
				circuit.HeatLoss.UA = graph.Given(1)
				circuit.Use.TimesAWeek = graph.Given(0)
			}
			if second {
				speed := graph.Speed{Name: graph.SpeedOn, PowerW: 400}
				if c.hours > 0 {
					speed.HoursADay = graph.Given(c.hours)
				}
				circuit.Parts = append(circuit.Parts, &graph.Part{ID: "second", Kind: graph.Pump, Existing: true,
					Pump: &graph.PumpData{AlwaysOn: c.neverOff, Speeds: []graph.Speed{speed}}})
			}
			in.Stage = settle.Of(circuit)
			in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
			if second && c.with {
				in.Heating.With = []Running{{Pump: in.Stage.Part("second"), Speed: graph.SpeedOn}}
			}
			return pumpKWh(answer(in).Year.Planned)
		}
		if more := year(true) - year(false); !agree.Within(more, c.moreKWh, 1e-3*c.moreKWh+1e-6) {
			t.Errorf("%s: %.1f kWh more, want %.1f", what, more, c.moreKWh)
		}
	}
}
