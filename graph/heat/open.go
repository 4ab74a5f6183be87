package heat

// Surface is a tub's water with the cover off.
type Surface struct {
	AreaM2   float64
	Activity float64 // factor on the evaporation: 0.5 quiet, 1 in use, 1.5 jets on
}

// Open is the heat that water loses through its open surface [W], and the water [kg/h].
type Open struct {
	EvaporationW, ConvectionW, RadiationW float64
	EvaporationKgH                        float64
}

// Total returns the three together [W].
func (o Open) Total() float64 { return o.EvaporationW + o.ConvectionW + o.RadiationW }

// Lose returns what water of waterC °C loses to the air through the surface.
//
//	evaporation  A Fa (pw - pa)(0.089 + 0.0782 v)      kW with kPa and m/s
//	convection   A (0.089 + 0.0782 v) 0.067 (t - ta)   kW: Bowen's ratio, 67 Pa/K
//	radiation    A 0.95 (σ T⁴ - sky)                   W
//
// The evaporation was fitted on pools of 24 to 30 °C; over a tub it is an extrapolation, and
// other fits give three quarters of it. Vapour that would come down on the water counts as
// none.
//
// Source: Carrier's equation in SI form, ASHRAE Handbook HVAC Applications (from memory; the
// same in inch-pound units in C. C. Smith, G. O. G. Löf, R. W. Jones, ASHRAE Transactions
// 104 (1), 1998); I. S. Bowen, Physical Review 27, 1926.
func (s Surface) Lose(waterC float64, air Air) Open { return s.lose(waterC, air, moistOf(waterC, air)) }

// moist is the pressure of the vapour over water and in the air above it [Pa]. Working both out is most
// of what an hour with the cover off costs.
type moist struct{ water, air float64 }

func moistOf(waterC float64, air Air) moist {
	return moist{VapourPressure(waterC), air.vapour()}
}

func (s Surface) lose(waterC float64, air Air, m moist) Open {
	film := s.AreaM2 * (89 + 78.2*air.Wind) // W/kPa
	drive := max(0, m.water-m.air) / 1e3
	sky := air.Sky
	if sky <= 0 {
		sky = SkyRadiation(air.TempC)
	}
	k := waterC + 273.15
	o := Open{
		EvaporationW: film * s.Activity * drive,
		ConvectionW:  film * 0.067 * (waterC - air.TempC),
		RadiationW:   s.AreaM2 * 0.95 * (stefan*k*k*k*k - sky),
	}
	o.EvaporationKgH = o.EvaporationW / Evaporating(waterC) * hourS
	return o
}

// Blown returns the heat [W] that air of flow m³/s (at 20 °C) takes out of water of waterC °C when it
// is blown or drawn through: it leaves saturated at the water's temperature. Source: the
// balance of enthalpies; that it leaves saturated is common practice, no source.
func Blown(flow, waterC float64, air Air) float64 {
	return blown(flow, waterC, air, moistOf(waterC, air))
}

func blown(flow, waterC float64, air Air, m moist) float64 {
	in := Enthalpy(air.TempC, HumidityRatio(m.air))
	out := Enthalpy(waterC, HumidityRatio(m.water))
	return max(0, flow*airDensity*(out-in))
}
