package quantity

import (
	"math"
	"strconv"
	"strings"
)

// System is the family of units in which quantities are printed.
type System int

// The systems.
const (
	MetricSystem System = iota // mm, m3/h, kPa, m, °C
	InchSystem                 // ft and in to 1/16, US gpm, psi, ft, °F
)

// SystemOf returns the system of a description's word for it: inch for "inch", else metric.
func SystemOf(word string) System {
	if word == "inch" {
		return InchSystem
	}
	return MetricSystem
}

// form says how a value is printed: in which unit, with how many decimals.
type form struct {
	unit     string
	decimals int
}

// Format prints a value given in the dimension's base unit as the trade writes it: whole
// mm; feet and inches to 1/16; flows, pressures and heads to the last figure anybody could
// read off. A value that is not a number prints as "?".
func Format(v float64, d Dimension, s System) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	if d == Length && s == InchSystem {
		return feetAndInches(v)
	}
	p := printOf(v, d, s)
	if p.unit == "" {
		return Trim(v)
	}
	text := strconv.FormatFloat(Round(fromBase(v, d, p.unit), p.decimals), 'f', p.decimals, 64)
	if d == Share || d == Temperature || d == TemperatureDifference || d == Power || d == Voltage || d == Current {
		text = trimZeros(text)
	}
	return text + " " + p.unit
}

// printOf chooses unit and decimals for the value.
func printOf(v float64, d Dimension, s System) form {
	inch, v := s == InchSystem, math.Abs(v)
	pick := func(metric, imperial form) form {
		if inch {
			return imperial
		}
		return metric
	}
	switch d {
	case Length:
		return form{"mm", 0}
	case Volume:
		if v < 0.01 {
			return pick(form{"l", 2}, form{"gal", 2})
		}
		return pick(form{"l", 0}, form{"gal", 0})
	case Flow:
		if v < 0.995/3600 {
			return pick(form{"m3/h", 2}, form{"gpm", 1})
		}
		return pick(form{"m3/h", 1}, form{"gpm", 1})
	case Pressure:
		if v < 995 {
			return pick(form{"kPa", 2}, form{"psi", 2})
		}
		return pick(form{"kPa", 1}, form{"psi", 1})
	case Head:
		return pick(form{"m", 2}, form{"ft", 1})
	case Temperature:
		return pick(form{"°C", 1}, form{"°F", 1})
	case TemperatureDifference:
		return pick(form{"K", 1}, form{"°F", 1})
	case Power:
		if v < 999.5 {
			return form{"W", 0}
		}
		return form{"kW", 2}
	case Current:
		return form{"A", 1}
	case Voltage:
		return form{"V", 1}
	case Mass:
		return pick(form{"kg", 1}, form{"lb", 1})
	case Density:
		return pick(form{"kg/m3", 1}, form{"lb/ft3", 1})
	case Viscosity:
		return pick(form{"mPa s", 3}, form{"cP", 3})
	case Time:
		switch {
		case v < 119.5:
			return form{"s", 0}
		case v < 119.5*60:
			return form{"min", 0}
		}
		return form{"h", 1}
	case Share:
		return form{"%", 1}
	case Kv:
		return form{"m3/h", 1}
	case Cv:
		return form{"gpm", 1}
	case Area:
		return pick(form{"m2", 2}, form{"ft2", 1})
	case Conductance:
		return pick(form{"W/K", 1}, form{"W/°F", 1})
	case Insulance:
		return form{"m2 K/W", 2}
	case Velocity:
		return pick(form{"m/s", 2}, form{"ft/s", 1})
	case Section:
		return form{"mm2", 1}
	case CableDrop:
		return form{"mV/A/m", 1}
	case Resistance:
		return form{"ohm", 2}
	case Energy:
		return form{"kWh", 2}
	case Air:
		return pick(form{"l/s", 1}, form{"cfm", 0})
	}
	return form{}
}

// In returns a value given in the dimension's base unit in a unit of the table, by its symbol:
// In(1, Flow, "m3/h") is 3600. A unit the dimension has not is a mistake of the caller's, and
// panics.
func In(v float64, d Dimension, unit string) float64 { return fromBase(v, d, unit) }

// fromBase turns a value in the base unit into the unit.
func fromBase(v float64, d Dimension, unit string) float64 {
	for _, u := range unitTable {
		if u.Dimension != d || u.Symbol != unit {
			continue
		}
		factor, _ := exactOf()[u.Factor].Float64()
		v /= factor
		if u.Offset != "" {
			offset, _ := exactOf()[u.Offset].Float64()
			v += offset
		}
		return v
	}
	panic("quantity: no unit " + unit + " for " + d.String())
}

// Tape is a length in mm as it is read off a tape by what Format prints of it, mm: a whole number of
// millimetres, or of sixteenths of an inch.
func Tape(mm float64, s System) float64 {
	if s == InchSystem {
		return Round(mm/25.4*16, 0) * 25.4 / 16
	}
	return Round(mm, 0)
}

// feetAndInches prints a length in mm to 1/16 in: "1-1/2 in", "12 ft 6-1/2 in", "3 ft".
func feetAndInches(mm float64) string { return inchesTo(mm, 16) }

// inchesTo prints a length in mm to a part of an inch.
func inchesTo(mm float64, parts int) string {
	n := float64(parts)
	whole := Round(math.Abs(mm)/25.4*n, 0)
	if whole >= 1<<53 {
		return Trim(mm/304.8) + " ft"
	}
	sign := ""
	if mm < 0 && whole > 0 {
		sign = "-"
	}
	feet := math.Floor(whole / (12 * n))
	inches := (whole - feet*12*n) / n
	switch {
	case feet == 0:
		return sign + Fraction(inches, parts) + " in"
	case inches == 0:
		return sign + Trim(feet) + " ft"
	default:
		return sign + Trim(feet) + " ft " + Fraction(inches, parts) + " in"
	}
}

// addedUp prints a length in mm as pipe is added up: metres to 0.01, feet to 0.1.
func addedUp(mm float64, s System) string {
	unit, decimals := "m", 2
	if s == InchSystem {
		unit, decimals = "ft", 1
	}
	return strconv.FormatFloat(Round(fromBase(mm, Length, unit), decimals), 'f', decimals, 64) + " " + unit
}

// Fraction prints a number rounded to the nearest part of the denominator as the inch trade
// writes it: 1.5 as "1-1/2", 0.75 as "3/4". The fraction is in its lowest terms. A value
// that is not a number prints as "?"; a denominator below 1 counts as 1.
func Fraction(v float64, denominator int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	den := int64(max(1, denominator))
	parts := Round(math.Abs(v)*float64(den), 0)
	if parts >= 1<<53 {
		return Trim(v)
	}
	n := int64(parts)
	sign := ""
	if v < 0 && n > 0 {
		sign = "-"
	}
	whole, top := n/den, n%den
	if top == 0 {
		return sign + strconv.FormatInt(whole, 10)
	}
	for a, b := top, den; ; a, b = b%a, a {
		if b%a == 0 {
			top, den = top/a, den/a
			break
		}
	}
	fraction := strconv.FormatInt(top, 10) + "/" + strconv.FormatInt(den, 10)
	if whole == 0 {
		return sign + fraction
	}
	return sign + strconv.FormatInt(whole, 10) + "-" + fraction
}

// Trim prints a number in the fewest decimal digits that read back to it, without exponent.
// A value that is not a number prints as "?".
func Trim(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return "?"
	}
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// Round rounds to the number of decimals, half away from zero. A value within a
// thousand-millionth of a half counts as the half, so that 439.675, which no float64 holds,
// becomes 439.68. It never returns minus zero.
func Round(v float64, decimals int) float64 {
	p := math.Pow(10, float64(decimals))
	r := math.Floor(math.Abs(v)*p+0.5+1e-9) / p
	if r == 0 || math.IsInf(r, 0) || math.IsNaN(r) {
		if r == 0 {
			return 0
		}
		return v
	}
	return math.Copysign(r, v)
}

func trimZeros(text string) string {
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return text
}
