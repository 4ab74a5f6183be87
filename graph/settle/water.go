package settle

import (
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
)

// UsualC is the temperature of the water where the description is silent, °C. Common
// practice, no source: what most tubs are kept at.
const UsualC = 38

// usualVolume is the water of a tub where the description is silent, m³, and usualVolumeSpan how
// far that may be off. Judgement, no source: a tub for five, from a plunge tub for one or two to
// one for seven.
const usualVolume = 1.2

var usualVolumeSpan = tables.Span{Low: -0.3, High: 0.4}

// Water is what flows.
type Water struct {
	Volume       Value // m³; heat alone hangs on it
	TemperatureC Value // °C
	Density      Value // kg/m³; by the temperature where the description gives none
	Viscosity    Value // Pa·s; known only where the description gives it
}

func waterOf(c *graph.Circuit) Water {
	w := Water{
		TemperatureC: number(UsualC, quantity.Temperature, assumed("common practice, no source")),
		Volume:       number(usualVolume, quantity.Volume, assumed("judgement: a tub for five")),
	}
	w.Volume.Span = usualVolumeSpan
	pos := func(key string) graph.Pos { return c.Water.KeyPos[key] }
	if c.Water.TemperatureSet || c.Water.TemperatureC != 0 {
		w.TemperatureC = number(c.Water.TemperatureC, quantity.Temperature, given(pos("temperature")))
	}
	if c.Water.VolumeM3 > 0 {
		w.Volume = number(c.Water.VolumeM3, quantity.Volume, given(pos("volume")))
	}
	w.Density = number(formula.Density(w.TemperatureC.V), quantity.Density, ofKeys(Key{waterID, "temperature"}))
	if c.Water.Density > 0 {
		w.Density = number(c.Water.Density, quantity.Density, given(pos("density")))
	}
	w.Viscosity = number(formula.Viscosity(w.TemperatureC.V), quantity.Viscosity, ofKeys(Key{waterID, "temperature"}))
	if c.Water.Viscosity > 0 {
		w.Viscosity = number(c.Water.Viscosity, quantity.Viscosity, given(pos("viscosity")))
	}
	return w
}

// Metre is the pressure of a metre of the water pumped, Pa: what turns heads into pressures
// and back, everywhere. ρ·g, g the standard gravity (CGPM 1901, exact).
func (w Water) Metre() float64 { return w.Density.V * formula.Gravity }

// Metre is the pressure of a metre of a circuit's water, Pa.
func Metre(c *graph.Circuit) float64 { return waterOf(c).Metre() }
