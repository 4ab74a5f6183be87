package description

import (
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// What one value of a description is written as, for whoever sets it in place.

// QuoteText is a text in quotes.
func QuoteText(s string) string { return quote(s) }

// QuantityText is a quantity given in its base unit, so that it reads back to the same value.
func QuantityText(v float64, d quantity.Dimension) string { return exactText(v, d) }

// SizeText is a nominal size of pipe.
func SizeText(s catalog.Size) string { return sizeText(s) }

// CutText is a place to cut.
func CutText(c *graph.Cut) string { return cutText(c) }

// LegText is one leg of a run.
func LegText(l graph.Leg) string { return legText(&l) }

// LossText is a loss in the form it has.
func LossText(l *graph.Loss) string { return lossText(l) }

// SpeedsText is the speeds of a pump with their curves, whether the description gives them or
// a row does.
func SpeedsText(speeds []graph.Speed) string {
	var out []string
	for i := range speeds {
		out = append(out, inline(speedFields, &speeds[i]))
	}
	return list(out)
}

// ModeText is a [[mode]] table.
func ModeText(m graph.Mode) string {
	var b strings.Builder
	b.WriteString("[[mode]]\n")
	writeFields(&b, modeFields, &m)
	return b.String()
}
