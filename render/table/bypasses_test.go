package table

import (
	"encoding/json"
	"testing"

	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// Of units that each have a bypass of their own every bypass is told by its id, of units that share one
// it is told once; where the job's own unit has no place the others are told all the same, beside what
// the pump moves.
func TestBypassOfEachUnit(t *testing.T) {
	const h = 1. / 3600
	own := plan.ModeSummary{Mode: "on", HasUnit: true, UnitID: "unit-2", Unit: 3 * h, Bypass: 7.5 * h, Past: "bypass-2", Pump: 10.5 * h}
	beside := func(m plan.ModeSummary, u plan.UnitSummary) plan.ModeSummary {
		m.Beside = []plan.UnitSummary{u}
		return m
	}
	valve := plan.UnitSummary{ID: "unit", Flow: 4 * h, Past: "bypass", Bypass: 6.7 * h}
	check, shared := valve, valve
	check.State, shared.Past, shared.Bypass = "open", "bypass-2", 7.5*h
	for want, m := range map[string]plan.ModeSummary{
		`on: the unit gets 3.0 m3/h (what it needs is not known); the bypass takes 7.5 m3/h`:                                                                                      own,
		`on: "unit-2" gets 3.0 m3/h (what it needs is not known); "unit" gets 4.0 m3/h (what it needs is not known); "bypass-2" takes 7.5 m3/h; "bypass" takes 6.7 m3/h`:          beside(own, valve),
		`on: "unit-2" gets 3.0 m3/h (what it needs is not known); "unit" gets 4.0 m3/h (what it needs is not known); "bypass-2" takes 7.5 m3/h; "bypass" open, it takes 6.7 m3/h`: beside(own, check),
		`on: "unit-2" gets 3.0 m3/h (what it needs is not known); "unit" gets 4.0 m3/h (what it needs is not known); the bypass takes 7.5 m3/h`:                                   beside(own, shared),
		`on: "unit" gets 4.0 m3/h (what it needs is not known); the bypass takes 6.7 m3/h; the pump moves 11.0 m3/h`:                                                              beside(plan.ModeSummary{Mode: "on", Pump: 11 * h}, valve),
	} {
		if got := summaryLine(form.Style{}, m, unsaid); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}

// For programs each unit stands with its limits and its bypass, the job's own among them; of one alone
// nothing is said twice.
func TestUnitsForPrograms(t *testing.T) {
	const h = 1. / 3600
	m := plan.ModeSummary{Mode: "on", HasUnit: true, UnitID: "unit-2", Unit: 3 * h, Least: 1.05 * h, Rated: 2 * h, Most: 5 * h, RiseK: 2.5, Bypass: 7.5 * h, Past: "bypass-2"}
	if got := UnitFlows(&m); got != nil {
		t.Errorf("%v of one unit", got)
	}
	m.Beside = []plan.UnitSummary{{ID: "unit", Flow: 4 * h}, {ID: "other", Flow: 4 * h, Past: "bypass-2", Bypass: 7.5 * h}}
	got, err := json.Marshal(UnitFlows(&m))
	want := `[{"id":"unit-2","flow_m3_h":3,"least_m3_h":1.05,"rated_m3_h":2,"most_m3_h":5,"temperature_rise_K":2.5,"bypass_flow_m3_h":7.5},` +
		`{"id":"unit","flow_m3_h":4,"least_m3_h":0,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0},` +
		`{"id":"other","flow_m3_h":4,"least_m3_h":0,"rated_m3_h":0,"most_m3_h":0,"temperature_rise_K":0,"shares_bypass_with":"unit-2"}]`
	if err != nil || string(got) != want {
		t.Errorf("%s, %v\nwant %s", got, err, want)
	}
}
