package hydraulic

import (
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/settle"
)

// Water is water at one temperature; see package formula for where its values come from.
type Water = formula.Water

// waterOf returns the water of a stage: by its temperature, with the density and the
// viscosity the description may give laid over.
func waterOf(set *settle.Stage) Water {
	w := formula.NewWater(set.Water.TemperatureC.V)
	w.Density, w.Viscosity = set.Water.Density.V, set.Water.Viscosity.V
	return w
}
