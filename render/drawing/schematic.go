package drawing

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/schematic"
	"dryfit/render/sheet"
)

// schematicPages draws what flows where: the circuit after the work, or as it stands. Where
// something is taken out the circuit before the work comes first, with that crossed out.
func schematicPages(p *plan.Plan, page sheet.Page, units quantity.System) ([]*scene.Scene, error) {
	in := schematic.Input{Circuit: p.Circuit, Settled: p.After.Layout.Stage, Page: page, Units: units}
	parts, runs := schematic.Gone(p.Circuit)
	if len(parts)+len(runs) == 0 {
		return schematic.Draw(in), nil
	}
	before := in
	before.Settled, before.Stage, before.Title = nil, graph.Before, "Schematic before the work"
	before.Sheet, before.Of = 1, 2
	in.Title, in.Sheet, in.Of = "Schematic after the work", 2, 2
	return append(schematic.Draw(before), schematic.Draw(in)...), nil
}
