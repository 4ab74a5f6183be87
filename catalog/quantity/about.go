package quantity

import (
	"math"
	"strings"
)

// about prints a rule of thumb in the round numbers of the system. A length is one that is
// kept at the least, as a distance or a thickness is, so in inches it is rounded up: 2 m are
// 6 ft 7 in, 1.5 m are 5 ft, 19 mm are 3/4 in. A difference of temperatures goes to half a
// °F, a volume to half a gallon, a pressure and a flow to one figure, and anything else as it is
// usually printed.
func (a Amount) about(s System) string {
	v, inch := a.Value, s == InchSystem
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
	case a.Dimension == Length && inch:
		return feetAndInches(25.4 * inchesUp(v/25.4))
	case a.Dimension == Length && math.Abs(v) >= 1000:
		return Trim(Round(v/1000, 1)) + " m"
	case a.Dimension == Temperature && inch:
		return Trim(Round(fromBase(v, Temperature, "°F"), 0)) + " °F"
	case a.Dimension == TemperatureDifference && inch:
		return Trim(Round(2*fromBase(v, TemperatureDifference, "°F"), 0)/2) + " °F"
	case a.Dimension == Volume && inch:
		return Trim(max(0.5, Round(2*fromBase(v, Volume, "gal"), 0)/2)) + " gal"
	case a.Dimension == Volume && math.Abs(v) >= 0.001:
		return Trim(Round(1000*v, 0)) + " l"
	case a.Dimension == Pressure || a.Dimension == Flow:
		if unit := printOf(v, a.Dimension, s).unit; v != 0 {
			x := fromBase(v, a.Dimension, unit)
			return Trim(Round(x, -int(math.Floor(math.Log10(math.Abs(x)))))) + " " + unit
		}
	case a.Dimension == Energy:
		return Trim(Round(v, 1)) + " kWh"
	}
	return Format(v, a.Dimension, s)
}

// inchesUp rounds inches up to what is read off a rule at a glance: quarters up to three
// inches, whole ones above. A thirty-second over counts as nothing: 32 mm are 1-1/4 in.
func inchesUp(in float64) float64 {
	parts := 4.0
	if in > 3 {
		parts = 1
	}
	return math.Ceil((in-1.0/32)*parts) / parts
}

// unitOnce takes the unit off the first of two rules of thumb that stand in one unit: "2 to
// 3 K", "100 to 150 mm".
func unitOnce(number string, a, b Amount, s System) string {
	if a.Grain != About || b.Grain != About || a.Dimension != b.Dimension {
		return number
	}
	first, unit, ok := strings.Cut(number, " ")
	if _, other, _ := strings.Cut(b.about(s), " "); ok && unit == other && !strings.ContainsAny(unit, "0123456789") {
		return first
	}
	return number
}
