package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/curves"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// curvePages draws pump and circuit, before and after.
func curvePages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	return curves.Draw(curves.Input{Sets: plan.Curves(p), Tags: tag.Tags(p.Circuit, p.Net()),
		Job: p.Circuit.Job, Units: units, Page: page}), nil
}
