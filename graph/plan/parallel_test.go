package plan_test

import (
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// A second unit like the first is teed into the first one's pipes, with pipes of its own of the
// same length within a tenth (heat pump manuals ask for equal runs). Both then get at least
// their least flow; the second a little less than the first, for its water turns twice
// through the branch of a tee and passes isolators of its own.
func TestSecondUnitInParallel(t *testing.T) {
	first := work(t, readFile(t, "../../testdata/two-speed.toml"), plan.Findings|plan.Flows)
	c := asBuilt(first.Circuit)
	unit := first.Asked.Retrofit.Unit
	second := *c.Part(unit)
	second.ID, second.Existing = "unit-b", false
	second.Ports = slices.Clone(second.Ports)
	for i := range second.Ports { // nobody knows yet where it is to stand
		second.Ports[i].At, second.Ports[i].Faces = nil, nil
	}
	small := *second.Unit // a low speed has something left for two with a dirty filter, too
	small.Least *= 0.6
	second.Unit, c.Part(unit).Unit = &small, &small
	c.Parts = append(c.Parts, &second)
	c.Retrofit = &graph.Retrofit{Unit: "unit-b"}

	p := work(t, c, plan.Findings|plan.Flows|plan.Places)
	if p.Proposal == nil || p.Proposal.Choice.Bypass != "parallel" {
		t.Fatalf("not in parallel: %v\n%v", p.Proposal, p.Findings)
	}
	for _, d := range p.Findings {
		if d.Severity == graph.Error || d.Rule == "parallel-units-alike" {
			t.Errorf("%s: %s [%s]", d.Severity, d.Message, d.Rule)
		}
	}
	if !p.Assembly.OK {
		t.Error("no order of assembly")
	}
	least := second.Unit.Least
	for i := range p.After.Solutions {
		s := &p.After.Solutions[i]
		a, b := s.Part(unit).Flow, s.Part("unit-b").Flow
		if a < least || b < least || b > a {
			t.Errorf("%s: %.2f and %.2f m3/h through the two units, want each %.2f or more and the first ahead", s.Mode.Name, a*3600, b*3600, least*3600)
		}
		sum := s.Part(unit).Flow + s.Part("unit-b").Flow + s.Part(first.Proposal.Element).Flow
		if line := s.Part("element").Flow; !agree.Within(sum, line, 1e-9*line) {
			t.Errorf("%s: units and bypass pass %g m3/s, the line %g", s.Mode.Name, sum, line)
		}
	}
}
