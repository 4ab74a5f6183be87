package heat

// FrostBelowC is the air below which ice grows on the coil, °C.
const FrostBelowC = 7

// Frost returns by what ice on the coil reduces a unit's output and COP in air of airC °C
// and the humidity (0 to 1), where its figures hold no defrosts.
//
//	tc = 0.82 ta - 8.589,   x = min(1, (w(ta) - w_sat(tc))/0.0014)
//	output 1 - 0.10 x,   COP 1 - 0.05 x     below 5 °C, fading to none at 7 °C
//
// Source: the coil's temperature from DOE-2.1E's model of air-to-air machines, as it stands
// in a public building simulation; the depth of the cut is judgement, held against the
// certification data named at the slopes (output at 2 °C 0.85 to 1.02 of the straight line
// from -7 to 7 °C).
func Frost(airC, humidity float64) (output, cop float64) {
	if airC >= FrostBelowC {
		return 1, 1
	}
	wet := HumidityRatio(humidity*VapourPressure(airC)) - HumidityRatio(VapourPressure(0.82*airC-8.589))
	x := min(1, max(0, wet)/0.0014)
	fade := min(1, (FrostBelowC-airC)/2)
	return 1 - 0.10*x*fade, 1 - 0.05*x*fade
}
