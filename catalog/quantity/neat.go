package quantity

import "math"

// neatUnits are the units a worked out value is written into a description in, metric and inch.
var neatUnits = map[Dimension][2]string{
	Flow:     {"m3/h", "gpm"},
	Pressure: {"kPa", "psi"},
	Head:     {"m", "ft"},
}

// neatDigits are the significant digits of a value that is written neatly: a hundredth of a per
// cent at worst, less than any control turns.
const neatDigits = 5

// Neat returns the value next to v, in the base unit, that a person would write: of five digits
// in the unit of the system. Of dimensions without such a unit, zero and what is no number it
// returns v itself.
func Neat(v float64, d Dimension, s System) float64 {
	units, ok := neatUnits[d]
	if !ok || v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v
	}
	u := units[0]
	if s == InchSystem {
		u = units[1]
	}
	one, err := Parse("1 "+u, d)
	if err != nil {
		return v
	}
	x := v / one.Value
	decimals := neatDigits - 1 - int(math.Floor(math.Log10(math.Abs(x))))
	q, err := Parse(Trim(Round(x, max(0, decimals)))+" "+u, d)
	if err != nil {
		return v
	}
	return q.Value
}
