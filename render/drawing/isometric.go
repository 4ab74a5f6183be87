package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/isometric"
	"dryfit/render/scene"
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
	return isometric.Draw(isometric.Input{Layout: stage.Layout, Assembly: p.Assembly, Tags: tag.Tags(p.Circuit), Page: page, Units: units}), nil
}
