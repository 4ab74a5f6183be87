package table

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// CheckLines says of every spring check of a mode after the work how it stands, and how far it
// is from changing.
func CheckLines(p *plan.Plan, mode string, s form.Style) []string {
	sol := p.After.Solution(mode)
	if sol == nil {
		return nil
	}
	var out []string
	for _, f := range sol.Parts {
		if f.Part.Kind == graph.CheckValve {
			out = append(out, fmt.Sprintf("%s is %s", f.Part.ID, partWords(f, s)))
		}
	}
	return out
}
