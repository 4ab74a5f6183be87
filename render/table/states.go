package table

import (
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// CheckState is how a check stands in a mode, and how far it is from changing.
type CheckState struct{ ID, Words string }

// Checks says of every check of a mode after the work how it stands.
func Checks(p *plan.Plan, mode string, s form.Style) []CheckState {
	sol := p.After.Solution(mode)
	if sol == nil {
		return nil
	}
	var out []CheckState
	for _, f := range sol.Parts {
		if f.Part.Kind == graph.CheckValve {
			out = append(out, CheckState{f.Part.ID, partWords(f, s)})
		}
	}
	return out
}
