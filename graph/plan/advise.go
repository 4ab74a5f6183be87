package plan

import (
	"cmp"

	"dryfit/graph"
	"dryfit/graph/plan/advice"
)

// advise compares the bypass elements the job could have, whatever the one it has: every
// spring of the catalogue, a throttle valve at its setting, and the bypass shut. The promise is the unit's flow; of the elements that keep it, the one that costs
// the jets and the low speed least is the best.
func (p *Plan) advise(want Want) {
	if want&Advice == 0 || p.After == nil {
		return
	}
	branch, why := p.After.Layout.Stage.Branch()
	if !branch.Whole() {
		p.Findings = append(p.Findings, graph.Diagnostic{
			Pos: graph.Pos{File: p.Circuit.File}, Rule: "bypass-advice", Severity: graph.Note,
			Message: graph.Say("no bypass to advise on: %s", cmp.Or(why, "no pump feeds the unit")),
			Hint:    "what is compared stands between the two tees of a unit: draw them, or have them planned by [retrofit]",
		})
		return
	}
	p.Advice = advice.New(p.After.Circuit, branch, p.Before, p.After.Layout.Stage).Compare()
}
