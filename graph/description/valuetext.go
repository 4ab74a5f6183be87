package description

import (
	"math"
	"regexp"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/pipework"
)

// What one value of a description is written as, for whoever sets it in place.

// QuoteText is a text in quotes.
func QuoteText(s string) string { return field.Quote(s) }

// QuantityText is a quantity given in its base unit, so that it reads back to the same value.
func QuantityText(v float64, d quantity.Dimension) string { return field.ExactText(v, d) }

// SizeText is a nominal size of pipe.
func SizeText(s catalog.Size) string { return field.SizeText(s) }

// CutText is a place to cut.
func CutText(c *graph.Cut) string { return pipework.CutText(c) }

// LegText is one leg of a run.
func LegText(l graph.Leg) string { return pipework.LegText(&l) }

// LossText is a loss in the form it has.
func LossText(l *graph.Loss) string { return pipework.LossText(l) }

// SpeedsText is the speeds of a pump with their curves, whether the description gives them or
// a row does.
func SpeedsText(speeds []graph.Speed) string {
	var out []string
	for i := range speeds {
		out = append(out, field.Inline(pipework.SpeedFields, &speeds[i]))
	}
	return field.List(out)
}

// ModeText is a [[mode]] table.
func ModeText(m graph.Mode) string {
	var b strings.Builder
	b.WriteString("[[mode]]\n")
	field.WriteFields(&b, pipework.ModeFields, &m)
	return b.String()
}

// measured finds a quantity written by this package, with a way before it where it is a leg; a Kv
// has one unit in both systems.
var measured = regexp.MustCompile(`(kv = )?"((?:(?:left|right|up|down|back|front) [0-9. a-z]*?)*)([0-9]+(?:\.[0-9]+)?) (mm|m|kPa|mbar|bar|Pa|m3/h|l/min|l/s|l/h|m3/s)"`)

// inchUnits are what the quantities of a description written in inch units are written in, by the
// units this package writes.
var inchUnits = map[string]struct {
	dim  quantity.Dimension
	unit string
}{
	"mm": {quantity.Length, "in"}, "m": {quantity.Head, "ft"},
	"kPa": {quantity.Pressure, "psi"}, "mbar": {quantity.Pressure, "psi"}, "bar": {quantity.Pressure, "psi"}, "Pa": {quantity.Pressure, "psi"},
	"m3/h": {quantity.Flow, "gpm"}, "l/min": {quantity.Flow, "gpm"}, "l/s": {quantity.Flow, "gpm"}, "l/h": {quantity.Flow, "gpm"}, "m3/s": {quantity.Flow, "gpm"},
}

// InSystem says what this package wrote again in the units of a system: to five digits, lengths to
// a thousandth of an inch. Legs that go more than one way, and what is no quantity, stay.
func InSystem(value string, s quantity.System) string {
	if s != quantity.InchSystem {
		return value
	}
	return measured.ReplaceAllStringFunc(value, func(text string) string {
		m := measured.FindStringSubmatch(text)
		to := inchUnits[m[4]]
		q, err := quantity.Parse(m[3]+" "+m[4], to.dim)
		one, err2 := quantity.Parse("1 "+to.unit, to.dim)
		if m[1] != "" || strings.ContainsAny(m[2], "0123456789") || err != nil || err2 != nil {
			return text
		}
		x := q.Value / one.Value
		decimals := 3
		if to.dim != quantity.Length && x > 0 {
			decimals = max(0, 4-int(math.Floor(math.Log10(x))))
		}
		return field.Quote(m[2] + quantity.Trim(quantity.Round(x, decimals)) + " " + to.unit)
	})
}
