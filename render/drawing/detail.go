package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/detail"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// detailPages draws the assembly in the old line true to scale; without its cut lines at a
// place that is ruled out, for nothing is sawn there.
func detailPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	if p.After == nil {
		return nil, nil
	}
	var names []string
	cuts := Sawn(p)
	for i := 0; i+1 < len(cuts); i += 2 {
		a, b := cuts[i].Name, cuts[i+1].Name
		if cuts[i].Flow < 0 {
			a, b = b, a
		}
		names = append(names, a, b)
	}
	return detail.Draw(detail.Input{Layout: p.After.Layout, Names: tag.Of(p.Circuit, p.Net()), Cuts: names, NoCuts: p.RuledOut() != nil,
		Job: p.Circuit.Titled(), Units: units, Page: page}), nil
}
