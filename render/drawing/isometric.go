package drawing

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/route"
	"dryfit/render/isometric"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// isometricPages draws the new work in space, with the pieces to cut and the joints in order;
// none where nothing is laid out.
func isometricPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	stage := p.After
	if stage == nil {
		stage = p.Before
	}
	if stage == nil || stage.Layout == nil {
		return nil, nil
	}
	before := goneIsometric(p, page, units)
	in := isometric.Input{Layout: stage.Layout, Assembly: p.Assembly, Names: tag.Of(p.Circuit, p.Net()), Cuts: cutJoints(p), Asked: p.Asked.Retrofit, Page: page, Units: units}
	in.Sheet = max(1, page.First) + len(before)
	in.Notes = tailNotes(p, stage.Layout, in.Names)
	return append(before, isometric.Draw(in)...), nil
}

// tailNotes says which unions have tails to be bought anew.
func tailNotes(p *plan.Plan, lay *route.Layout, names *tag.Names) []string {
	var tails []string
	for _, at := range lay.NewTails(p.Circuit) {
		if t := names.Tag(at.Part); !slices.Contains(tails, t) {
			tails = append(tails, t)
		}
	}
	if len(tails) == 0 {
		return nil
	}
	return []string{"New tails, of unions of the same make: " + strings.Join(tails, ", ") + "; the old ones go with their pipe."}
}

// goneIsometric draws what the work takes out, dashed and crossed, with what it joins; none
// where nothing goes whose place is known.
func goneIsometric(p *plan.Plan, page sheet.Page, units quantity.System) []*scene.Scene {
	parts, runs := schematic.Gone(p.Circuit)
	if p.Before == nil || p.Before.Layout == nil || len(parts)+len(runs) == 0 {
		return nil
	}
	gone := &isometric.Gone{Parts: map[string]bool{}, Runs: map[string]bool{}}
	for _, part := range parts {
		gone.Parts[part.ID] = true
	}
	for _, r := range runs {
		gone.Runs[r.ID] = true
	}
	for i := range p.Before.Layout.Paths { // a picture of something
		if at := &p.Before.Layout.Paths[i]; at.Located && len(at.Points) > 1 && (gone.Runs[at.Run.ID] || gone.Parts[at.Run.From.Part] || gone.Parts[at.Run.To.Part]) {
			return isometric.Draw(isometric.Input{Layout: p.Before.Layout, Names: tag.Of(p.Circuit, p.Net()), Page: page, Units: units, Gone: gone, Sheet: max(1, page.First)})
		}
	}
	return nil
}

// cutJoints names the cuts through old pipe by the joint that is made at its end: of the two
// ends of an old run the one towards its start carries the first cut.
func cutJoints(p *plan.Plan) map[int]string {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	c, out := p.After.Circuit, map[int]string{}
	for _, cut := range Sawn(p) {
		for _, j := range p.After.Layout.Joints {
			if !j.Remains {
				continue
			}
			for _, r := range c.Runs {
				if r.ID != j.Run || (r.RemainsOf != cut.Run && r.ID != cut.Run) {
					continue
				}
				part := c.Part(r.From.Part)
				atStart := part != nil && part.New() && strings.HasSuffix(j.A, r.From.String())
				if atStart == cut.Second && out[j.Number] == "" {
					out[j.Number] = cut.Name
				}
			}
		}
	}
	return out
}

func isometricReads(w io.Writer, p *plan.Plan, _ quantity.System) error {
	if r := p.Asked.Retrofit; r != nil && r.Stand != nil {
		for _, k := range r.Stand.KeepClear {
			fmt.Fprintf(w, "%v %v %v %v %q\n", r.Stand.At, r.Stand.From, k.From, k.To, k.What)
		}
	}
	return nil
}
