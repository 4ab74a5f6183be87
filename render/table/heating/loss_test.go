package heating

import (
	"math"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/table/form"
)

// A unit that takes more than the element does is said to, in energy and in money, and a range that has both says
// which end is which. It was told as "-8 % less" and "saves -40 EUR".
func TestAPlanThatLosesSaysSo(t *testing.T) {
	for _, c := range []struct {
		share, cost job.Range
		less, money string
	}{
		{job.Range{Low: 0.48, Likely: 0.55, High: 0.6}, job.Range{Low: 393, Likely: 533, High: 787}, "55 % less (48 to 60 %)", "that saves 533 EUR a year (393 to 787)"},
		{job.Range{Low: -0.15, Likely: -0.08, High: -0.02}, job.Range{Low: -90, Likely: -40, High: -5}, "8 % more (2 to 15 %)", "that costs 40 EUR more a year (5 to 90)"},
		{job.Range{Low: -0.05, Likely: 0.03, High: 0.09}, job.Range{Low: -20, Likely: 12, High: 40}, "3 % less (5 % more to 9 % less)", "that saves 12 EUR a year (20 more to 40 less)"},
		{job.Range{Low: -0.15, Likely: -0.08, High: 0.02}, job.Range{Low: -90, Likely: -40, High: 5}, "8 % more (15 % more to 2 % less)", "that costs 40 EUR more a year (90 more to 5 less)"},
		{job.Range{Low: -0.001, Likely: 0, High: 0.2}, job.Range{Low: -0.2, Likely: 0, High: 4}, "0 % less (0 to 20 %)", "that saves 0 EUR a year (0 to 4)"},
	} {
		y := &job.YearReport{Today: &heat.Account{}, Planned: &heat.Account{}, Priced: true, SavingShare: c.share, SavingCost: c.cost}
		got := strings.Join(reporter{r: &job.Report{Year: y}, s: form.Style{}, currency: "EUR"}.saves(y), "\n")
		if !strings.Contains(got, c.less) || !strings.Contains(got, c.money) {
			t.Errorf("want %q and %q in:\n%s", c.less, c.money, got)
		}
		if never := strings.Contains(got, "does not pay for itself"); never != (c.cost.Likely <= 0) {
			t.Errorf("saves %g a year: never pays for itself %v", c.cost.Likely, never)
		}
	}
}

// A value that a difference is added to is told as the value: a room of 22 °C is 71.6 °F, and was "± 42.8 °F",
// the 6 K that it may be off by read as a temperature.
func TestWhatVariesByADifferenceIsToldAsItsValue(t *testing.T) {
	r := &job.Report{Assumed: []job.Assumed{
		{What: "air of the room", Value: 22, Dim: quantity.Temperature, Low: -6, High: 6, Adds: true},
		{What: "another year's air", Dim: quantity.TemperatureDifference, Low: -1.2, High: 1.2, Adds: true},
	}}
	for units, want := range map[quantity.System][]string{quantity.MetricSystem: {"22 °C", "± 1.2 K"}, quantity.InchSystem: {"71.6 °F", "± 2.2 °F"}} {
		got := string(Text(r, graph.Job{}, form.Style{Units: units}))
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("no %q in:\n%s", w, got)
			}
		}
	}
}

// A unit that does not hold the tub in the hours it may run is told with them: what it gives while it runs is more
// than the tub loses, and would read as if it did.
func TestUnitOfFewHoursIsToldWithThem(t *testing.T) {
	r := &job.Report{Sizes: []job.Sized{{This: true, Sized: heat.Sized{HoldsKnown: true, HoldsC: 16, HeldW: 4943, LostW: 563, Water: true}}}, Unit: job.UnitReport{MayRun: 1.0 / 24},
		Loss: job.Loss{AirC: -5, WaterC: 38}, Airs: []job.AtAir{{AirC: -5, LosesW: 563, GivesW: 4943, MayRun: 1.0 / 24}, {AirC: 20, LosesW: 100, GivesW: 7000, MayRun: 1.0 / 24}}}
	got := strings.Join(strings.Fields(string(Text(r, graph.Job{}, form.Style{}))), " ")
	for _, want := range []string{"gives 4.94 kW while it runs, which it may 4 % of the day", "4943 11 %, cools", "7000 1 %"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in: %s", want, got)
		}
	}
}

// A work that all but never pays for itself is not said to in 493.0 years, with more than 50 at the end of its range.
func TestYearsToPay(t *testing.T) {
	for want, c := range map[string]struct {
		low, likely, high float64
		least             bool
	}{
		"7.8 years (5.3 to 11.0)":                  {5.3, 7.8, 11, false},
		"at least 7.8 years (5.3 to more than 50)": {5.3, 7.8, 60, true},
		"more than 50 years (7.4 to more than 50)": {7.4, 493, math.Inf(1), true},
		"more than 50 years":                       {51, 493, math.Inf(1), false},
	} {
		if got := paysIn(job.Range{Low: c.low, Likely: c.likely, High: c.high}, c.least); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
