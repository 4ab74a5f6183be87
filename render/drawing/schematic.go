package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	"dryfit/render/sheet"
)

// schematicPages draws what flows where: the circuit after the work, or as it stands.
func schematicPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	return schematic.Draw(schematic.Input{Circuit: p.Circuit, Settled: p.After.Layout.Stage, Page: page, Units: units}), nil
}
