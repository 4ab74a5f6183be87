package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
	"dryfit/render/template"
)

// templatePages draws the bands to saw old pipe by, at 1:1.
func templatePages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	return template.Draw(template.Input{Cuts: Cuts(p), Job: p.Circuit.Titled(), Units: units, Page: page}), nil
}

// Cuts are the cuts through old pipe in the order they are made, in the papers' names.
func Cuts(p *plan.Plan) []template.Cut {
	names := tag.Of(p.Circuit, p.Net())
	cuts := Sawn(p)
	for i := range cuts {
		cuts[i].From = names.Text(names.InWords(cuts[i].From))
		cuts[i].Run = names.Run(cuts[i].Run)
	}
	return cuts
}

// HasBands reports whether there are bands to saw old pipe by.
func HasBands(p *plan.Plan) bool { return len(Sawn(p)) > 0 }

// Sawn returns the cuts through old pipe, by the description's ids: of the proposal, else those the
// description holds; none at a place that is ruled out.
func Sawn(p *plan.Plan) []template.Cut {
	if p.RuledOut() != nil {
		return nil
	}
	if p.Proposal == nil || p.Proposal.Marking.Run == "" { // drawn in full, or a unit that is taken out
		if p.After == nil || p.After.Layout == nil {
			return nil
		}
		return template.OfRemains(p.LayoutBefore(), p.After.Layout)
	}
	if p.Before == nil || p.Before.Layout == nil {
		return nil
	}
	var cuts []template.Cut
	net := p.Before.Layout.Stage.Net()
	for _, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
		if m == nil {
			continue
		}
		if path := p.Before.Layout.Path(m.Run); path != nil {
			cuts = append(cuts, template.OfMarking(*m, path, p.Circuit.Pipe, net.Against(path.Run), len(cuts)+1)...)
		}
	}
	return cuts
}
