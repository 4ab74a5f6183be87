package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// labelPages draws a label for every piece and every valve.
func labelPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	var labels []sticker.Label
	if p.Cuts != nil {
		labels = sticker.OfPieces(p.Cuts.Pieces, units)
	}
	if p.After != nil {
		labels = append(labels, sticker.OfValves(p.After.Circuit, tag.Tags(p.Circuit), p.After.Solutions)...)
	}
	return sticker.Draw(sticker.Input{Labels: labels, Job: p.Circuit.Job, Page: page}), nil
}
