package job

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/heat"
)

// assumedAs returns what is assumed whose words begin so; nil where nothing is.
func assumedAs(r *Report, words string) *Assumed {
	for i := range r.Assumed {
		if strings.HasPrefix(string(r.Assumed[i].What), words) {
			return &r.Assumed[i]
		}
	}
	return nil
}

// Where nobody says in what air a unit stops, its year may be that of one that stops in light frost and of one
// that works to -15 °C: in a cold climate that is the most there is to know, and the range left it out (it is the middle nine tenths).
func TestWhereAUnitStopsIsInTheRange(t *testing.T) {
	cold := heat.Months{}
	for i := range cold.AirC {
		cold.AirC[i], cold.Humidity[i], cold.DayToDay[i] = -6, 0.8, 3
	}
	of := func(set bool, least float64) question {
		q := with(func(c *graph.Circuit) {
			unit, e := *c.Part("unit"), *c.Part("element")
			data := *unit.Unit
			data.LeastAirC, data.LeastAirSet = least, set
			unit.Unit, e.Element = &data, &graph.ElementData{PowerW: 3000, Interlock: graph.InterlockChangeover}
			c.Parts = []*graph.Part{&unit, c.Part("pump"), &e}
		})
		q.Weather = cold.Year()
		return q
	}
	r := answer(of(false, 0))
	for _, least := range []float64{-13, -4} {
		_, planned := yearOf(of(true, least))
		if y := r.Year.PlannedKWh; !agree.Between(planned.KWh, y.Low, y.High) {
			t.Errorf("a unit that stops at %g °C takes %.0f kWh, outside %.0f to %.0f", least, planned.KWh, y.Low, y.High)
		}
	}
	a := assumedAs(r, "coldest air in which")
	if a == nil || !a.Adds || a.Value != -7 || !(a.MovesKWh > 0.1*r.Year.Planned.KWh) {
		t.Errorf("where the unit stops: %+v", a)
	}
}

// What a climate of twelve months leaves open is told with the rest, and nothing of it where it is said.
func TestSilentMonthsAreTold(t *testing.T) {
	said := []string{"swing of the air", "how far the days", "humidity of the climate", "wind of the climate"}
	air := make([]float64, 12)
	bare := still(with(func(c *graph.Circuit) { c.Climate = &graph.Climate{AirC: air} }))
	full := still(with(func(c *graph.Circuit) {
		c.Climate = &graph.Climate{AirC: air, SwingK: []float64{8}, Humidity: []float64{0.8}, WindMS: []float64{2}, DayToDayK: graph.Given(2)}
	}))
	of := MonthsOf(&graph.Climate{AirC: air})
	for k, words := range said {
		a := assumedAs(bare, words)
		want := []float64{of.SwingK[0], of.DayToDay[0], of.Humidity[0], of.Wind[0]}[k]
		if a == nil || !agree.Within(a.Value, want, 1e-12) || a.Source == "" {
			t.Errorf("%s: %+v, want %g", words, a, want)
		}
		if assumedAs(full, words) != nil {
			t.Errorf("%s: assumed though said", words)
		}
	}
}

// Water that is open by day stands in the sun, which is not counted, and that is told; a bath in the evening
// and a tub in a room get none of it, and what is open for less than two hours of the average day (1.86 of ten
// hours 1.3 times a week, 2.14 of 1.5) next to none.
func TestSunIsToldOfWaterOpenByDay(t *testing.T) {
	for _, c := range []struct {
		at, openH, week float64
		shelter         string
		told            bool
	}{{8, 10, 7, "", true}, {0, 24, 7, "", true}, {20, 1, 7, "", false}, {8, 10, 1, "", false}, {8, 10, 1.3, "", false}, {8, 10, 1.5, "", true}, {8, 10, 7, "indoor", false}, {22, 12, 7, "", true}} {
		r := still(with(func(circuit *graph.Circuit) {
			circuit.Use.At, circuit.Use.OpenS, circuit.Use.TimesAWeek = graph.Clock{Minute: int(60 * c.at), Set: true}, graph.Given(3600*c.openH), graph.Given(c.week)
			circuit.Site.Sheltered = c.shelter
		}))
		if told := assumedAs(r, "warmth of the sun") != nil; told != c.told {
			t.Errorf("open for %g h from %g:00, %g times a week, %q: told %v", c.openH, c.at, c.week, c.shelter, told)
		}
	}
}

// The hours of the year in which the unit does not hold the tub are those below that very air, a tenth of a
// degree or not: they were counted below the next whole degree.
func TestHoursColderThanItHolds(t *testing.T) {
	q := with(func(c *graph.Circuit) {
		unit := *c.Part("unit")
		data := *unit.Unit
		data.LeastAirC = -3.6
		unit.Unit = &data
		c.Parts = []*graph.Part{&unit, c.Part("pump"), c.Part("element")}
	})
	w := &heat.Weather{Hours: make([]heat.Air, 365*24)}
	for i := range w.Hours {
		w.Hours[i] = heat.Air{TempC: float64(i%100)/10 - 5, Humidity: 0.8} // a tenth after the other, from -5 to 4.9 °C
	}
	q.Weather = w
	b := &builder{in: &q.Input, more: q.More}
	r := &Report{}
	b.sizes(b.settle(), r)
	if want := 14 * 8760 / 100; !agree.Within(r.Unit.HoldsC, -3.6, 1e-9) || r.Unit.Colder < want-14 || r.Unit.Colder > want+14 {
		t.Errorf("%d hours below %g °C, want about %d", r.Unit.Colder, r.Unit.HoldsC, want)
	}
}
