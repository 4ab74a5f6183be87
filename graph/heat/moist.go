package heat

import "math"

// AirPressure is the pressure of the air outside [Pa]: the standard atmosphere at sea level.
// 1000 m higher it is a ninth lower, which moves the evaporation by less than its spread.
const AirPressure = 101325.0

// VapourPressure returns the saturation pressure of water vapour over liquid water [Pa] at
// t °C, by the equation of Hyland and Wexler:
//
//	ln p = c1/T + c2 + c3 T + c4 T² + c5 T³ + c6 ln T,   T = t + 273.15
//
// Valid from -20 to 200 °C over liquid; below zero it is that of supercooled water.
//
// Source: R. W. Hyland, A. Wexler, ASHRAE Transactions 89 (2A), 1983; the coefficients as
// in the ASHRAE Handbook Fundamentals, chapter Psychrometrics (from memory).
func VapourPressure(t float64) float64 {
	k := t + 273.15
	return math.Exp(-5.8002206e3/k + 1.3914993 - 4.8640239e-2*k + 4.1764768e-5*k*k - 1.4452093e-8*k*k*k + 6.5459673*math.Log(k))
}

// HumidityRatio returns the water in air [kg/kg dry air] in which vapour has the pressure p
// [Pa]: w = 0.622 p/(P - p). Source: ideal gas law, molar masses 18.02 and 28.97 g/mol.
func HumidityRatio(p float64) float64 { return 0.622 * p / (AirPressure - p) }

// Enthalpy returns the enthalpy of moist air [J/kg dry air] at t °C with the humidity ratio
// w, counted from dry air and liquid water at 0 °C:
//
//	h = 1.006 t + w (2501 + 1.86 t)   kJ/kg
//
// Source: ASHRAE Handbook Fundamentals, chapter Psychrometrics (from memory).
func Enthalpy(t, w float64) float64 { return 1e3 * (1.006*t + w*(2501+1.86*t)) }

// Evaporating returns the heat of evaporation of water [J/kg] at t °C: the vapour's enthalpy
// less the liquid's. Source: the same terms as Enthalpy, with 4.186 kJ/(kg K) for the liquid.
func Evaporating(t float64) float64 { return 1e3 * (2501 + 1.86*t - 4.186*t) }

// airDensity is that of the air whose flow blowers' sheets give [kg/m³]: 20 °C. Source: ideal
// gas law.
const airDensity = 1.2

// Air is the air over and around a tub.
type Air struct {
	TempC    float64
	Humidity float64 // share of saturation, 0 to 1
	Wind     float64 // m/s at the water
	Sky      float64 // heat that the sky radiates down [W/m²]; 0: not known, see SkyRadiation
}

// vapour returns the pressure of the vapour in the air [Pa].
func (a *Air) vapour() float64 { return a.Humidity * VapourPressure(a.TempC) }

// SkyRadiation returns what the sky radiates down [W/m²] over air at t °C: that of a clear
// sky and a quarter of what an overcast one has more.
//
//	clear 5.31e-13 T⁶,   overcast σ T⁴
//
// Source: W. C. Swinbank, Quarterly Journal of the Royal Meteorological Society 89, 1963
// (from memory) for the clear sky; the quarter fits the mean of one typical year at 45° N
// and is judgement elsewhere.
func SkyRadiation(t float64) float64 {
	k := t + 273.15
	square := k * k
	cloudless := 5.31e-13 * (square * (square * square))
	return cloudless + 0.25*(stefan*k*k*k*k-cloudless)
}

// stefan is the Stefan-Boltzmann constant [W/(m² K⁴)]. Source: CODATA 2018.
const stefan = 5.670374e-8
