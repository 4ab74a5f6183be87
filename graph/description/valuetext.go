package description

import (
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
