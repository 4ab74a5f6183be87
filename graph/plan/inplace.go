package plan

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan/stage"
)

// InPlace returns the job with a unit of the catalogue in its unit's place, by its row's name, all
// else as it stands, solved in the modes named, or in all; a mode without an answer is left out.
// It judges nothing and lists nothing. Nil where the job has no unit.
func (p *Plan) InPlace(row string, modes ...string) *Plan {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	c := p.After.Layout.Circuit
	unit := c.TheUnit()
	at := slices.IndexFunc(c.Parts, func(q *graph.Part) bool { return unit != nil && q.ID == unit.ID })
	if at < 0 {
		return nil
	}
	other, part := *c, *c.Parts[at]
	volts := 0.0
	if unit.Unit != nil {
		volts = unit.Unit.VoltageV // the supply stays
	}
	part.Type, part.Loss, part.Unit, part.Known = row, nil, &graph.UnitData{VoltageV: volts}, graph.Assumed
	other.Parts = slices.Clone(c.Parts)
	other.Parts[at] = &part
	lay := p.After.Layout.As(&other)
	lay.Stage = p.After.Layout.Stage.With(&other)
	after := &stage.Stage{Circuit: &other, Layout: lay}
	for _, m := range other.AllModes() {
		if len(modes) > 0 && !slices.Contains(modes, m.Name) {
			continue
		}
		if sol, err := hydraulic.Solve(lay, m, graph.After); err == nil {
			after.Solutions = append(after.Solutions, *sol)
		}
	}
	return &Plan{Asked: p.Asked, Circuit: &other, Before: p.Before, After: after}
}
