package table

import (
	"testing"

	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// What a unit gets farther off is told once where its modes print alike, one by one of a few, by its ends of many.
func TestFartherFlows(t *testing.T) {
	const h = 1. / 3600
	for want, modes := range map[string][]plan.FartherFlow{
		"1.5 m3/h":                                 {{Mode: "low", Flow: 1.51 * h}, {Mode: "high", Flow: 1.49 * h}},
		"1.5 m3/h (low), 2.2 m3/h (high)":          {{Mode: "low", Flow: 1.5 * h}, {Mode: "high", Flow: 2.2 * h}},
		"1.5 m3/h to 2.2 m3/h, by the mode":        {{Mode: "a", Flow: 1.6 * h}, {Mode: "b", Flow: 2.2 * h}, {Mode: "c", Flow: 1.5 * h}, {Mode: "d", Flow: 2 * h}, {Mode: "e", Flow: 1.8 * h}},
		"1.5 m3/h (a), 1.5 m3/h (b), 2.0 m3/h (c)": {{Mode: "a", Flow: 1.5 * h}, {Mode: "b", Flow: 1.5 * h}, {Mode: "c", Flow: 2 * h}},
	} {
		if got := fartherFlows(&plan.Farther{Modes: modes}, form.Style{}); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
