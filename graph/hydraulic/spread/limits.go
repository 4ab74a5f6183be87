package spread

import (
	"dryfit/graph"
	"dryfit/graph/route"
)

// unitOf returns a copy of the unit with the id that holds its limits as they were settled:
// one known by its row alone is promised what one known by its keys is. Nil where there is
// no such unit.
func unitOf(lay *route.Layout, id string) *graph.Part {
	set := lay.Stage.Part(id)
	if set == nil || set.Kind != graph.HeatPump {
		return nil
	}
	unit, data := *set.Part, graph.UnitData{}
	if unit.Unit != nil {
		data = *unit.Unit
	}
	data.Least, data.Rated, data.Most = set.Least.V, set.Rated.V, set.Most.V
	unit.Unit = &data
	return &unit
}
