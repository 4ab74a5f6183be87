package heat

import "math"

// Conductivities and films of pipes outside [W/(m K)], [W/(m² K)].
const (
	FoamConductivity = 0.038 // closed-cell foam at 40 °C, from memory
	PVCConductivity  = 0.16  // PVC-U, from memory
	SoilConductivity = 1.5   // 1 to 2 by its water, from memory
	stillFilm        = 10.0  // outdoor surface with radiation, light air; 25 in wind, from memory
)

// OutsidePipe is a length of pipe in the open air or in the ground.
type OutsidePipe struct {
	LengthM         float64
	OutsideM, BoreM float64 // of the pipe
	InsulationM     float64 // thickness, 0: bare
	BuriedM         float64 // depth of the axis; 0: in the air
	Known           bool    // its insulation was said
}

// UAPerMetre returns what a metre of the pipe loses for each kelvin [W/(m K)].
//
//	in air   1/UA' = ln(D/d)/(2π 0.16) + ln(Do/D)/(2π k) + 1/(π Do h)
//	buried   1/UA' = arccosh(2 z/Do)/(2π k_soil) + ln(Do/D)/(2π k)
//
// Source: conduction through cylinders and the shape factor of a buried one, as in any
// textbook of heat transfer (Incropera, Fundamentals of Heat and Mass Transfer, table 4.1).
func (p OutsidePipe) UAPerMetre() float64 {
	if p.BuriedM > 0 {
		around := p.OutsideM + 2*p.InsulationM
		resist := math.Acosh(math.Max(2*p.BuriedM/around, 1.0001)) / (2 * math.Pi * SoilConductivity)
		return 1 / (resist + math.Log(around/p.OutsideM)/(2*math.Pi*FoamConductivity))
	}
	return 1 / (p.wall() + p.lagging(FoamConductivity, stillFilm))
}

// lagging returns the resistance of the insulation and the film outside it [m K/W].
func (p OutsidePipe) lagging(k, film float64) float64 {
	around := p.OutsideM + 2*p.InsulationM
	return math.Log(around/p.OutsideM)/(2*math.Pi*k) + 1/(math.Pi*around*film)
}

// wall returns the resistance of the pipe's own wall [m K/W]; none where the bore is not known.
func (p OutsidePipe) wall() float64 {
	if p.BoreM <= 0 || p.BoreM >= p.OutsideM {
		return 0
	}
	return math.Log(p.OutsideM/p.BoreM) / (2 * math.Pi * PVCConductivity)
}
