package hydraulic

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// Water is water at one temperature; see package formula for where its values come from.
type Water = formula.Water

// TemperatureC is the temperature of the water where the description is silent, °C.
// Common practice, no source: what most tubs are kept at.
const TemperatureC = 38

// WaterOf returns the water of a circuit: by its temperature, with the density and the
// viscosity the description may give laid over.
func WaterOf(c *graph.Circuit) Water {
	t := c.Water.TemperatureC
	if !c.Water.TemperatureSet && t == 0 {
		t = TemperatureC
	}
	w := formula.NewWater(t)
	if c.Water.Density > 0 {
		w.Density = c.Water.Density
	}
	if c.Water.Viscosity > 0 {
		w.Viscosity = c.Water.Viscosity
	}
	return w
}
