package plan_test

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// What is wrong wherever the unit is let in is no reason against a place: it is said once, and
// the best place stays the best. Every place that is ruled out says why.
func TestWrongAnywhere(t *testing.T) {
	c := readFile(t, "../../testdata/two-speed.toml")
	unit := c.Part("unit").Unit
	unit.SetPointC, unit.SetPointSet = c.Water.TemperatureC-3, true
	p := work(t, c, plan.Findings|plan.Places)
	if p.Proposal == nil || len(p.Places) == 0 || p.Places[0].Verdict != "best" {
		t.Errorf("no place is best: %v", p.Places)
	}
	if p.RuledOut() == nil || !slices.ContainsFunc(p.Findings, func(d graph.Diagnostic) bool {
		return d.Rule == "unit-reaches-temperature" && d.Severity == graph.Error
	}) {
		t.Errorf("the set point is not said: %v", p.Findings)
	}
	for _, v := range p.Places {
		if v.Verdict == "ruled out" && len(v.Reasons) == 0 {
			t.Errorf("%s is ruled out, and nobody says why", v.Place.Where())
		}
	}
}
