package lists

import (
	"fmt"

	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// unmeasured says which new pipe is in no bar and in no cut list, because nobody wrote its
// legs.
func unmeasured(p *plan.Plan, s form.Style) []string {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	var out []string
	for _, i := range p.After.Layout.Unmeasured {
		path := &p.After.Layout.Paths[i]
		out = append(out, fmt.Sprintf("Not in here: %s of %s %s for run %s, known only by its length. Write its legs to have it cut and bought.",
			s.Length(path.LengthMM), path.Run.Spec, path.Run.Size, path.Run.ID))
	}
	return out
}
