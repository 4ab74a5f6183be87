package job

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
	"dryfit/graph/settle"
)

// with is the test's job with its circuit changed.
func with(change func(c *graph.Circuit)) question {
	q := testInput()
	c := *q.Stage.Circuit
	use := *c.Use
	c.Use = &use
	change(&c)
	q.Stage = settle.Of(&c)
	q.Unit, q.Heating.Pump = q.Stage.Part("unit"), q.Stage.Part("pump")
	return q
}

// yearOf is the year of a job as described, without ranges.
func yearOf(q question) (today, planned *heat.Account) {
	b := &builder{in: &q.Input, more: q.More}
	_, today, planned = b.run(b.settle())
	return today, planned
}

// The pipes to and from the unit are not there today: what they lose is in the planned year alone, and what
// today's own pipes outside lose in both. They were counted in today's, so that the saving came out too large.
func TestPipesOfTheUnitLoseNothingToday(t *testing.T) {
	pipe := heat.OutsidePipe{LengthM: 6, OutsideM: 0.06, BoreM: 0.05}
	bare, _ := yearOf(testInput())
	q := testInput()
	q.Pipes = []heat.OutsidePipe{pipe}
	today, planned := yearOf(q)
	if !agree.Within(today.KWh, bare.KWh, 1e-9) || today.Terms[heat.TermPipes] != 0 {
		t.Errorf("today takes %.1f kWh with pipes that are not there yet, %.1f without", today.KWh, bare.KWh)
	}
	if !(planned.Terms[heat.TermPipes] > 100) {
		t.Errorf("the planned pipes lose %.1f kWh", planned.Terms[heat.TermPipes])
	}
	q.Today = q.Pipes
	if today, _ := yearOf(q); !(today.Terms[heat.TermPipes] > 100) {
		t.Errorf("pipes that run outside today lose %.1f kWh", today.Terms[heat.TermPipes])
	}
}

// Times of day in which the tub may be heated hold for the unit as for the element today: in five hours of the
// cheap night all heat is bought at its price. They held for today's year alone.
func TestHeatingTimesHoldForTheUnit(t *testing.T) {
	q := with(func(c *graph.Circuit) {
		c.Use.Heating = []graph.Hours{{From: graph.Clock{Minute: 60, Set: true}, To: graph.Clock{Minute: 360, Set: true}}}
		c.Tariff = &graph.Tariff{Price: "100", Standing: "0", Bands: []graph.TariffBand{{From: graph.Clock{Minute: 60, Set: true}, To: graph.Clock{Minute: 360, Set: true}, Price: "0"}}}
		unit, pump := *c.Part("unit"), *c.Part("pump")
		data, pumped := *unit.Unit, *pump.Pump
		data.StandbyW, pumped.Speeds = graph.Given(0), []graph.Speed{{Name: "low", PowerW: 240, HoursADay: graph.Given(0)}}
		unit.Unit, pump.Pump = &data, &pumped
		c.Parts = []*graph.Part{&unit, &pump, c.Part("element")}
	})
	today, planned := yearOf(q)
	for name, a := range map[string]*heat.Account{"today": today, "planned": planned} {
		if !(a.KWh > 500) || a.Cost > 1e-6 {
			t.Errorf("%s: %.0f kWh cost %.0f, though all of it is made while it costs nothing", name, a.KWh, a.Cost)
		}
	}
}

// An element with a set point of its own holds no more than that where the unit stands: in a year of -20 °C that
// ends at its 34 °C, and takes the less for it. It held the tub's own set point.
func TestElementKeepsItsSetPointAllYear(t *testing.T) {
	cold := heat.Months{}
	for i := range cold.AirC {
		cold.AirC[i], cold.Humidity[i] = -20, 0.8
	}
	for _, c := range []struct {
		interlock string
		ends      float64
	}{{graph.InterlockSetPoint, 34}, {"contact", 38}} {
		q := with(func(circuit *graph.Circuit) {
			e := *circuit.Part("element")
			e.Element = &graph.ElementData{PowerW: 2000, Interlock: c.interlock, SetPointC: 34, SetPointSet: true}
			circuit.Parts = []*graph.Part{circuit.Part("unit"), circuit.Part("pump"), &e}
			circuit.Use.TimesAWeek, circuit.Use.OpenS = graph.Given(0), graph.Given(0)
		})
		q.Weather = cold.Year()
		_, planned := yearOf(q)
		if !agree.Within(planned.EndsC, c.ends, 0.1) || !agree.Within(planned.ColdestC, c.ends, 0.1) {
			t.Errorf("%s: the water ends at %.2f °C, the coldest %.2f, want %g", c.interlock, planned.EndsC, planned.ColdestC, c.ends)
		}
	}
}

// A unit that makes water of 36 °C at most holds a tub of 38 °C in no air: its year ends there, and filling it
// comes to no more. Both went on to 38 °C.
func TestUnitStopsAtItsHottestWater(t *testing.T) {
	q := with(func(c *graph.Circuit) {
		unit := *c.Part("unit")
		data := *unit.Unit
		data.MostWaterC = 36
		unit.Unit = &data
		c.Parts = []*graph.Part{&unit, c.Part("pump"), c.Part("element")}
		c.Use.OpenS, c.Use.TimesAWeek = graph.Given(0), graph.Given(0)
	})
	_, planned := yearOf(q)
	if !agree.Within(planned.ColdestC, 36, 0.1) || !(planned.EndsC < 36.3) {
		t.Errorf("the water is at %.2f to %.2f °C", planned.ColdestC, planned.EndsC)
	}
	r := still(q)
	if w := r.HeatUp.Warmed; w.Reached || !agree.Within(w.EndsC, 36, 0.5) {
		t.Errorf("filled it comes to %.2f °C", w.EndsC)
	}
	if u := r.UnitHolds(); u.Hold || u.HoldsKnown || u.Water {
		t.Errorf("it holds: %+v", u.Sized)
	}
	for _, a := range r.Airs {
		if a.GivesW != 0 {
			t.Fatalf("in air of %g °C it gives %g W to water it does not make", a.AirC, a.GivesW)
		}
	}
	q = testInput()
	q.SetC, q.Unit.MostWater.V = 38, 37
	q.Stage.Circuit.Use.Between = &[2]graph.Amount{graph.Given(36), graph.Given(39.5)}
	if r := likely(q); r.Timer == nil || r.TimerC != 37 {
		t.Errorf("a timer sets a unit of 37 °C to %g °C", r.TimerC)
	}
}

// Another unit counts for what it gives in the coldest air only where it makes the tub's water: one that stops at
// 35 °C gives a tub of 38 °C nothing, and was counted.
func TestOtherUnitGivesNoHotterWater(t *testing.T) {
	for most, gives := range map[float64]bool{35: false, 38: true, 40: true} {
		q := testInput()
		other := *q.Unit
		other.MostWater.V = most
		q.Beside = []Beside{{Unit: &other, FlowM3s: 1.1e-3}}
		d := NewAccount(q.Input).Design()
		if got := d.Beside[0].OutputW; (got > 0) != gives || gives && !agree.Within(got, d.HeldW, 1e-9) {
			t.Errorf("one that makes %g °C gives %g W, the job's own %g W", most, got, d.HeldW)
		}
	}
}

// What a timer's day costs always on is what the year's hours of heating cost in the same weather, and the
// pump's filter hours and the stand-by on top: the two were 15 % apart where the pump's heat was left out.
func TestTimerDayIsTheYearsDay(t *testing.T) {
	q := with(func(c *graph.Circuit) {
		c.Use.Between = &[2]graph.Amount{graph.Given(36), graph.Given(39)}
		unit := *c.Part("unit")
		data := *unit.Unit
		data.StartLossKWh = graph.Given(0)
		unit.Unit = &data
		c.Parts = []*graph.Part{&unit, c.Part("pump"), c.Part("element")}
	})
	q.Pipes = []heat.OutsidePipe{{LengthM: 6, OutsideM: 0.06, BoreM: 0.05}}
	months := heat.Months{}
	for i := range months.AirC {
		months.AirC[i], months.Humidity[i], months.Wind[i] = 5, 0.8, 2
	}
	q.Weather = months.Year()
	b := &builder{in: &q.Input, more: q.More}
	s, r := b.settle(), &Report{}
	b.timer(s, r)
	_, _, planned := b.run(s)
	anyway := 0.30 * (0.240*6 + 0.010*24)
	if got, want := r.Timer.AlwaysDay, planned.Cost/365-anyway; !agree.Within(got, want, 0.02*want) {
		t.Errorf("a day always on costs %.4f, by the year %.4f", got, want)
	}
}
