package job

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
)

// A unit that may heat a part of the day only holds no more than that part of what it gives: with the pump's hour
// of filtering alone, one of 4.4 kW holds 12 W/K at 38 °C down to where its output's twenty-fourth makes up the
// loss, and its year has hours that are short for it. It was held against all of its output. By hand, at 7 °C:
// 5000 W and 4000/22 a kelvin from -7 °C on are 7545 W there, a twenty-fourth is 314 W; 31 K·12 W/K are 372 W; at
// 10 °C 8091 W, 337 W and 336 W.
func TestHoldsByTheHoursItMayRun(t *testing.T) {
	of := func(runs string, hours float64) *Report {
		q := with(func(c *graph.Circuit) {
			pump := *c.Part("pump")
			pump.Pump = &graph.PumpData{RunsForHeat: runs, Speeds: []graph.Speed{{Name: "low", PowerW: 1, HoursADay: graph.Given(hours)}}}
			c.Parts = []*graph.Part{c.Part("unit"), &pump, c.Part("element")}
			c.Site.AirC = 7
			c.Use.Refills = graph.Given(0)
		})
		return still(q)
	}
	short := of("hours", 1)
	if u := short.UnitHolds(); u.Hold || !agree.Within(u.HoldsC, 10, 0.2) || !agree.Within(short.Unit.MayRun, 1.0/24, 1e-9) {
		t.Errorf("an hour a day: it holds %v down to %g °C, may run %.3f of the day", u.Hold, u.HoldsC, short.Unit.MayRun)
	}
	cools := 0
	for _, a := range short.Airs {
		if a.Cools() {
			cools++
		}
	}
	if cools < 10 {
		t.Errorf("it cools in %d of %d airs", cools, len(short.Airs))
	}
	for _, r := range []*Report{of("hours", 4), of("contact", 1)} {
		if u := r.UnitHolds(); !u.Hold {
			t.Errorf("it does not hold where it may run %.2f of the day: %+v", r.Unit.MayRun, u.Sized)
		}
	}
	// Hours of a pump in which alone heat is made lie in the times in which it may be made, as far as these go:
	// a controller that heats from ten at night to six runs its pump then.
	for _, c := range []struct {
		runs          heat.PumpRuns
		filter, until float64
		want          float64 // hours
	}{{heat.PumpHours, 6, 12, 6}, {heat.PumpHours, 8, 8, 8}, {heat.PumpHours, 14, 8, 8}, {heat.PumpHours, 6, 24, 6},
		{heat.PumpHours, 24, 8, 8}, {heat.PumpOnCall, 2, 8, 8}, {heat.PumpAlways, 0, 5, 5}} {
		p := heat.Plant{Runs: c.runs, FilterH: c.filter, Heating: heat.Shares([]heat.Window{{FromH: 0, ToH: c.until}})}
		if got := 24 * p.MayRun(); !agree.Within(got, c.want, 1e-9) {
			t.Errorf("pump by %s, %g h a day, heating for %g h: it may heat %g h, want %g", c.runs, c.filter, c.until, got, c.want)
		}
	}
}
