package table

import (
	"testing"

	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// unsaid is how sure a flow is that no range was made of.
func unsaid(string) string { return "" }

// The words are those of the trade's hand-over; what they say follows from the numbers given.
func TestSummaryLine(t *testing.T) {
	const m3h = 1.0 / 3600
	for _, c := range []struct {
		name string
		mode plan.ModeSummary
		want string
	}{
		{"nothing to compare with", plan.ModeSummary{Mode: "on", Pump: 20 * m3h, HasJets: true, Jets: 20 * m3h, JetsToday: 20 * m3h},
			"on: the pump moves 20.0 m3/h; the jets get 20.0 m3/h"},
		{"today", plan.ModeSummary{Mode: "on", Pump: 18 * m3h, HasJets: true, Jets: 18 * m3h, JetsToday: 20 * m3h, HasToday: true},
			"on: the pump moves 18.0 m3/h; the jets get 18.0 m3/h, 10 % less than today"},
		{"as today", plan.ModeSummary{Mode: "on", Pump: 20 * m3h, HasJets: true, Jets: 20 * m3h, JetsToday: 20 * m3h, HasToday: true},
			"on: the pump moves 20.0 m3/h; the jets get what they get today, 20.0 m3/h"},
		{"all shut", plan.ModeSummary{Mode: "on", HasJets: true}, "on: no water moves"},
	} {
		if got := summaryLine(form.Style{}, c.mode, unsaid); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
