package description

import (
	"fmt"
	"math/big"
	"strings"
	"unicode"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// quote writes a text as a TOML basic string.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, c := range s {
		switch {
		case c == '"' || c == '\\':
			b.WriteByte('\\')
			b.WriteRune(c)
		case c == '\n':
			b.WriteString(`\n`)
		case c == '\t':
			b.WriteString(`\t`)
		case c == '\r':
			b.WriteString(`\r`)
		case unicode.IsControl(c):
			fmt.Fprintf(&b, `\u%04x`, c)
		default:
			b.WriteRune(c)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// key writes a key, in quotes where it needs them.
func key(s string) string {
	const bare = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_"
	if s != "" && strings.Trim(s, bare) == "" {
		return s
	}
	return quote(s)
}

// plainUnits are the units a value is written in where it comes out even, best first; the
// last is the base unit, in which every value is exact.
var plainUnits = map[quantity.Dimension][]string{
	quantity.Length:      {"mm"},
	quantity.Volume:      {"l", "gal", "m3"},
	quantity.Flow:        {"m3/h", "l/min", "gpm", "imp-gpm", "l/s", "l/h", "m3/s"},
	quantity.Pressure:    {"kPa", "psi", "mbar", "bar", "Pa"},
	quantity.Head:        {"m", "ft", "m"},
	quantity.Temperature: {"°C"},
	quantity.Power:       {"kW", "W"},
	quantity.Current:     {"A"},
	quantity.Voltage:     {"V"},
	quantity.Density:     {"kg/m3"},
	quantity.Viscosity:   {"Pa s"},
	quantity.Kv:          {"m3/h"},
	quantity.Time:        {"h", "min", "s"},
	quantity.Area:        {"m2", "ft2", "m2"},
	quantity.Conductance: {"W/K"},
	quantity.Insulance:   {"m2 K/W"},
	quantity.Velocity:    {"m/s"},
	quantity.Section:     {"mm2"},
	quantity.CableDrop:   {"mV/A/m"},
	quantity.Resistance:  {"ohm"},
	quantity.Energy:      {"kWh"},

	quantity.TemperatureDifference: {"K"},
}

// exact writes a value given in the base unit so that it reads back to the same value.
func exact(v float64, d quantity.Dimension) string {
	units := plainUnits[d]
	for _, u := range units[:len(units)-1] {
		one, err := quantity.Parse("1 "+u, d)
		if err != nil || one.Value == 0 {
			continue
		}
		if u == "kW" && v < one.Value {
			continue // a small motor is spoken of in watts
		}
		for decimals := 0; decimals <= 6; decimals++ {
			text := quantity.Trim(quantity.Round(v/one.Value, decimals)) + " " + u
			if q, err := quantity.Parse(text, d); err == nil && q.Value == v {
				return text
			}
		}
	}
	return quantity.Trim(v) + " " + units[len(units)-1]
}

// exactText is exact in quotes.
func exactText(v float64, d quantity.Dimension) string { return quote(exact(v, d)) }

// percent writes a share so that it reads back to the same value.
func percent(v float64) string {
	x, ok := new(big.Rat).SetString(quantity.Trim(v))
	if !ok {
		return quote("0 %")
	}
	s := x.Mul(x, big.NewRat(100, 1)).FloatString(40)
	return quote(strings.TrimSuffix(strings.TrimRight(s, "0"), ".") + " %")
}

// sizeText writes a nominal size; "" for none.
func sizeText(s catalog.Size) string {
	if s.IsZero() {
		return ""
	}
	text := s.String()
	if back, err := catalog.ParseSize(text, s.Metric); err != nil || back != s {
		text = quantity.Trim(s.Nominal) + " in"
	}
	return quote(text)
}

// dropText writes a drop or a head.
func dropText(d graph.Drop) string {
	if d.IsHead {
		return exactText(d.Value, quantity.Head)
	}
	return exactText(d.Value, quantity.Pressure)
}

// axes are the directions in which components are written, a pair for each axis.
var axes = []struct {
	plus, minus string
	of          func(*graph.Vec) *float64
}{
	{"right", "left", func(v *graph.Vec) *float64 { return &v.X }},
	{"up", "down", func(v *graph.Vec) *float64 { return &v.Z }},
	{"back", "front", func(v *graph.Vec) *float64 { return &v.Y }},
}

// components writes a vector as "right 300 mm", "up 180 mm", …; those of zero left out.
func components(v graph.Vec) []string {
	var out []string
	for _, a := range axes {
		word, c := a.plus, *a.of(&v)
		if c < 0 {
			word, c = a.minus, -c
		}
		if c != 0 {
			out = append(out, word+" "+exact(c, quantity.Length))
		}
	}
	return out
}

// directionText writes a way along an axis; "" for none.
func directionText(v graph.Vec) string {
	for _, a := range axes {
		switch c := *a.of(&v); {
		case c > 0:
			return quote(a.plus)
		case c < 0:
			return quote(a.minus)
		}
	}
	return ""
}
