package formula

import "math"

// Water is water at one temperature.
type Water struct {
	TemperatureC float64 // °C
	Density      float64 // kg/m³
	Viscosity    float64 // Pa·s
	HeatCapacity float64 // J/(kg·K), at constant pressure
	VapourPa     float64 // absolute saturation pressure, Pa
}

// NewWater returns air-free water at 101.325 kPa and a temperature of 0 to 45 °C; a
// temperature outside of that is taken as the nearest end of it.
func NewWater(tC float64) Water {
	tC = min(max(tC, 0), 45)
	return Water{
		TemperatureC: tC,
		Density:      Density(tC),
		Viscosity:    Viscosity(tC),
		HeatCapacity: HeatCapacity(tC),
		VapourPa:     VapourPressure(tC),
	}
}

// Density returns the density of water in kg/m³ at t in °C, 0 to 45:
//
//	ρ = 999.974950·[1 - (t - 3.983035)²·(t + 301.797)/(522528.9·(t + 69.34881))]
//
// Source: Tanaka et al. (2001), Metrologia 38, 301-309; coefficients from memory, checked
// against the table in testdata to 0.003 kg/m³.
func Density(t float64) float64 {
	d := t - 3.983035
	return 999.974950 * (1 - d*d*(t+301.797)/(522528.9*(t+69.34881)))
}

// Viscosity returns the dynamic viscosity of water in Pa·s at t in °C, 0 to 45, with
// r = (t + 273.15)/300:
//
//	μ = 1e-6·(280.68·r^-1.9 + 511.45·r^-7.7 + 61.131·r^-19.6 + 0.45903·r^-40)
//
// Source: IAPWS SR6-08(2011), liquid water at 0.1 MPa; coefficients from memory, checked
// against the table in testdata to 0.01 %.
func Viscosity(t float64) float64 {
	r := (t + 273.15) / 300
	return 1e-6 * (280.68*math.Pow(r, -1.9) + 511.45*math.Pow(r, -7.7) + 61.131*math.Pow(r, -19.6) + 0.45903*math.Pow(r, -40))
}

// heatCapacities are cp in J/(kg·K) every 5 °C from 0.
// Source: IAPWS-95 at 101.325 kPa; 0 °C is that of 0.01 °C.
var heatCapacities = [...]float64{4219.4, 4205.0, 4195.2, 4188.5, 4184.1, 4181.3, 4179.8, 4179.3, 4179.4, 4180.1}

// HeatCapacity returns cp of water in J/(kg·K) at t in °C, 0 to 45, on straight lines
// between the values of IAPWS-95 every 5 °C; within 0.02 %.
func HeatCapacity(t float64) float64 {
	x := min(max(t, 0), 45) / 5
	i := min(int(x), len(heatCapacities)-2)
	return heatCapacities[i] + (x-float64(i))*(heatCapacities[i+1]-heatCapacities[i])
}

// VapourPressure returns the saturation pressure of water in Pa at t in °C, 0 to 45:
//
//	p = 611.21·exp[(18.678 - t/234.5)·t/(257.14 + t)]
//
// Source: Buck Research Instruments (1996), after Buck (1981), J. Appl. Meteorol. 20,
// 1527-1532; from memory, checked against the table in testdata to 0.04 %.
func VapourPressure(t float64) float64 {
	return 611.21 * math.Exp((18.678-t/234.5)*t/(257.14+t))
}
