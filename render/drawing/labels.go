package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// labelPages draws a label for every piece and every valve.
func labelPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	var labels []tag.Label
	if p.Cuts != nil {
		labels = tag.OfPieces(p.Cuts.Pieces, units)
	}
	if p.After != nil {
		labels = append(labels, tag.OfValves(p.After.Circuit, schematic.Tags(p.Circuit), p.After.Solutions)...)
	}
	return tag.Draw(tag.Input{Labels: labels, Job: p.Circuit.Job, Page: page}), nil
}
