package lists

import (
	"fmt"

	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/table/form"
)

// unmeasured says which new pipe is in no bar and in no cut list, because nobody wrote its
// legs, and which is cut as a straight piece for the same reason.
func unmeasured(p *plan.Plan, s form.Style) []string {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	var out []string
	for _, i := range p.After.Layout.Unmeasured {
		path := &p.After.Layout.Paths[i]
		out = append(out, fmt.Sprintf("In no bar and in no cut list: %s of %s %s for run %s, known only by its length. It is bought by the length, with a tenth more; write its legs to have it cut.",
			s.Length(path.LengthMM), path.Run.Spec, path.Run.Size, path.Run.ID))
	}
	for i := range p.After.Layout.Paths {
		path := &p.After.Layout.Paths[i]
		if !path.Run.New() || !route.TakenAsStraight(path.Run) || len(path.Pieces) == 0 {
			continue
		}
		out = append(out, fmt.Sprintf("Piece %d is cut as if it were straight: run %s is known only by its length. Write its legs if it turns anywhere, and measure it before it is cut.",
			p.After.Layout.Pieces[path.Pieces[0]].Number, path.Run.ID))
	}
	return out
}
