package formula

import "math"

// Affinity returns the flow, head and power of a pump at a speed ratio r of the speed they
// are known for: flow as r, head as r², power as r³. Units are kept.
//
// Source: affinity laws; Crane TP-410, 2009, example 7.33.
func Affinity(r, flow, head, power float64) (float64, float64, float64) {
	return r * flow, r * r * head, r * r * r * power
}

// PumpOfSize returns by what factors flow and head of a pump are those of another of its type,
// at one speed, that gives the water size times the power at its best: seven tenths of it go into
// flow and three into head.
//
// Source: common practice, no source: tubs of one kind have pumps of nearly one head, and the
// larger pump is the wider; similar wheels at one speed would make it six and four tenths
// (affinity laws).
func PumpOfSize(size float64) (flow, head float64) {
	return math.Pow(size, 0.7), math.Pow(size, 0.3)
}

// HydraulicPower returns the power in W that a flow (m³/s) raised by a head (m) takes up in
// water of a density (kg/m³).
func HydraulicPower(density, flow, head float64) float64 { return density * Gravity * flow * head }

// NPSHAvailable returns the net positive suction head in m at a pump's eye: surfacePa is the
// absolute pressure on the water, vapourPa its vapour pressure, density in kg/m³, submerged
// the depth of the eye below the surface (negative: above) and loss the head lost on the
// way there, both in m. Total heads are meant, so that no velocity head is taken off.
//
// Source: Crane TP-410, 2009, example 7.32.
func NPSHAvailable(surfacePa, vapourPa, density, submerged, loss float64) float64 {
	return (surfacePa-vapourPa)/(density*Gravity) + submerged - loss
}

// TemperatureRise returns the rise in K of a flow (m³/s) that takes up a heat (W).
func TemperatureRise(w Water, heat, flow float64) float64 {
	if flow == 0 {
		return 0
	}
	return heat / (w.Density * w.HeatCapacity * flow)
}
