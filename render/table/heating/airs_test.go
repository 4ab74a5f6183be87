package heating

import (
	"slices"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/heat/job"
	"dryfit/render/table/form"
)

// The coldest air asked for stands in the table as it was asked for, of whatever fraction of a degree, once
// and in its place between every fifth degree, or every tenth of Fahrenheit's.
func TestAskedAirStandsAsItWasAsked(t *testing.T) {
	var whole []job.AtAir
	for c := -12.0; c <= 7; c++ {
		whole = append(whole, job.AtAir{AirC: c})
	}
	tenF := (10.0 - 32) / 1.8
	var tens []job.AtAir
	for f := 10.0; f <= 45; f += 10 {
		tens = append(tens, job.AtAir{AirC: (f - 32) / 1.8})
	}
	for _, c := range []struct {
		asked float64
		units quantity.System
		want  []string
	}{
		{-6.5, quantity.MetricSystem, []string{"-10 °C", "-6.5 °C", "-5 °C", "0 °C", "5 °C"}},
		{-5, quantity.MetricSystem, []string{"-10 °C", "-5 °C", "0 °C", "5 °C"}},
		{-15, quantity.MetricSystem, []string{"-15 °C", "-10 °C", "-5 °C", "0 °C", "5 °C"}},
		{tenF, quantity.InchSystem, []string{"10 °F", "20 °F", "30 °F", "40 °F"}},
		{-6.5, quantity.InchSystem, []string{"10 °F", "20 °F", "20.3 °F", "30 °F", "40 °F"}},
	} {
		h := reporter{r: &job.Report{Airs: whole, AirsF: tens, Asked: &job.AtAir{AirC: c.asked}}, s: form.Style{Units: c.units}}
		var got []string
		for _, a := range h.airsTold() {
			got = append(got, h.warm(a.AirC))
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("asked for %g °C: %v, want %v", c.asked, got, c.want)
		}
	}
}
