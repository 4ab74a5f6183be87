package job

import (
	"dryfit/catalog"
	"dryfit/graph/heat"
)

const genericSource = "a fixed-speed unit of its size: trade figures for 38 °C, from memory"

// genericMap is what a fixed-speed unit sold by its output in warm air (26 °C, water 26 °C)
// gives at a tub's 38 °C: air, output as a share of the one it is sold by, COP. Source: the
// slopes of package heat for the output; COP 45 to 50 % of Carnot, from memory, less what
// cheap units fall short.
var genericMap = [...]struct{ air, share, cop float64 }{{-7, 0.42, 2.3}, {7, 0.64, 3.1}, {15, 0.77, 3.7}, {26, 0.92, 4.8}}

// Limits of such a unit. Source: from memory; the sheet beats them.
const (
	genericLeastC = -7.0
	genericMostC  = 40.0
)

// fromRow makes a unit of a catalogue row.
func fromRow(row catalog.Row, fluid heat.Fluid) *heat.Unit {
	u := &heat.Unit{ID: row.Name, RatedFlow: row.Rated, LeastAirC: genericLeastC, HasLeast: true, MostC: genericMostC, HasMost: true, Fluid: fluid, StandbyW: 15}
	for _, g := range genericMap {
		out := g.share * row.PowerW
		u.Ratings = append(u.Ratings, heat.Rating{AirC: g.air, WaterC: 38, OutputW: out, InputW: out / g.cop})
	}
	return u
}
