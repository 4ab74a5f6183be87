package job

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// The catalogue's units give 3.2, 5.76, 7.68 and 10.88 kW in air of 7 °C: of a job's unit the next
// size down and up are the nearest that are more than 7 % off. By hand.
func TestNextSizesDownAndUp(t *testing.T) {
	for outputW, want := range map[float64][]string{
		2000:  {"heat-pump 5 kW"},
		3200:  {"heat-pump 9 kW"},
		5760:  {"heat-pump 5 kW", "heat-pump 12 kW"},
		6500:  {"heat-pump 9 kW", "heat-pump 12 kW"},
		7500:  {"heat-pump 9 kW", "heat-pump 17 kW"},
		12000: {"heat-pump 17 kW"},
	} {
		in := testInput()
		c := in.Stage.Circuit
		c.Part("unit").Unit.Ratings = []graph.Rating{{AirC: 7, WaterC: 38, OutputW: outputW, InputW: outputW / 3}}
		in.Stage = settle.Of(c)
		in.Unit, in.Heating.Pump = in.Stage.Part("unit"), in.Stage.Part("pump")
		if got := NewAccount(in.Input).Neighbours(); !slices.Equal(got, want) {
			t.Errorf("%g W: %q, want %q", outputW, got, want)
		}
	}
}

// Two hours a day less of its filter is worth a word of a pump that filters longer than that and
// may stop; never of one that runs all day, as somebody wants it, nor of one that would run less
// than nothing.
func TestPumpRunsLessOnlyWhereItCan(t *testing.T) {
	for what, x := range map[string]struct {
		hours float64
		runs  string
		want  bool
	}{
		"six hours":          {6, "", true},
		"an hour and a half": {1.5, "", false},
		"always":             {6, "always", false},
	} {
		in := testInput()
		in.Heating.Pump.Speeds.V[0].HoursADay, in.Heating.Pump.Pump.RunsForHeat = graph.Given(x.hours), x.runs
		b := &builder{in: &in.Input, more: in.More}
		s := b.settle()
		likely, _, _ := b.run(s)
		r := &Report{Year: &YearReport{}}
		b.pays(s, r, likely)
		got := slices.ContainsFunc(r.Year.Pays, func(p Saving) bool { return strings.HasPrefix(p.What.String(), "the pump two hours") })
		if got != x.want || len(r.Year.Pays) < 3 {
			t.Errorf("%s: said %v, want %v (%d savings)", what, got, x.want, len(r.Year.Pays))
		}
	}
}

// With a bath every day no day has a share of one.
func TestBathsAreSpreadBelowOneADay(t *testing.T) {
	in := testInput()
	in.Stage.Circuit.Use.TimesAWeek = graph.Given(7)
	if !plain().Year.BathsSpread || likely(in).Year.BathsSpread {
		t.Error("four baths a week are not spread over its days, or seven are")
	}
}
