package quantity

import (
	"math/big"
	"strings"
)

// plainUnits are the units a value is written in where it comes out even, best first; the
// last is the base unit, in which every value is exact.
var plainUnits = map[Dimension][]string{
	Length:      {"mm"},
	Volume:      {"l", "gal", "m3"},
	Flow:        {"m3/h", "l/min", "gpm", "imp-gpm", "l/s", "l/h", "m3/s"},
	Pressure:    {"kPa", "psi", "mbar", "bar", "Pa"},
	Head:        {"m", "ft", "m"},
	Temperature: {"°C"},
	Power:       {"kW", "W"},
	Mass:        {"kg"},
	Current:     {"A"},
	Voltage:     {"V"},
	Density:     {"kg/m3"},
	Viscosity:   {"Pa s"},
	Kv:          {"m3/h"},
	Time:        {"h", "min", "s"},
	Area:        {"m2", "ft2", "m2"},
	Conductance: {"W/K"},
	Insulance:   {"m2 K/W"},
	Velocity:    {"m/s"},
	Section:     {"mm2"},
	CableDrop:   {"mV/A/m"},
	Resistance:  {"ohm"},
	Energy:      {"kWh"},
	Air:         {"l/s", "m3/h", "l/min", "cfm", "m3/s"},

	TemperatureDifference: {"K"},
}

// Exact writes a value given in the base unit so that it reads back to the same value. A share is in
// per cent.
func Exact(v float64, d Dimension) string {
	if d == Share {
		return percent(v)
	}
	if d == Section {
		if told := Gauge(v); told != "" {
			if q, err := Parse(told, d); err == nil && q.Value == v {
				return told
			}
		}
	}
	units := plainUnits[d]
	for _, u := range units[:len(units)-1] {
		one, err := Parse("1 "+u, d)
		if err != nil || one.Value == 0 {
			continue
		}
		if u == "kW" && v < one.Value {
			continue // a small motor is spoken of in watts
		}
		for decimals := 0; decimals <= 6; decimals++ {
			text := Trim(Round(v/one.Value, decimals)) + " " + u
			if q, err := Parse(text, d); err == nil && q.Value == v {
				return text
			}
		}
	}
	return Trim(v) + " " + units[len(units)-1]
}

// percent writes a share in per cent, exactly.
func percent(v float64) string {
	x, ok := new(big.Rat).SetString(Trim(v))
	if !ok {
		return "0 %"
	}
	s := x.Mul(x, big.NewRat(100, 1)).FloatString(40)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " %"
}
