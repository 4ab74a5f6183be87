package tables

import (
	"sync"

	"dryfit/catalog/data"
	"dryfit/catalog/quantity"
)

// Exponent is the shape of a loss that is given at one flow: drop as flow to this power.
// Nine in ten parts of the kind lie between Low and High.
type Exponent struct {
	Likely, Low, High float64
	Source            quantity.Text
}

var exponents = sync.OnceValue(func() map[string]Exponent {
	out := map[string]Exponent{}
	s := data.Read("exponents.csv")
	for _, l := range s.Lines {
		out[l[0]] = Exponent{s.Number(l[1]), s.Number(l[2]), s.Number(l[3]), quantity.Prose(l[4])}
	}
	return out
})

// ExponentOf returns the exponent of a kind, or of a style within it such as "sand-filter";
// square, without a range, for those that have none.
func ExponentOf(names ...string) Exponent {
	for _, name := range names {
		if e, ok := exponents()[name]; ok {
			return e
		}
	}
	return Exponent{Likely: 2, Low: 2, High: 2, Source: "square law of a pipe fitting"}
}
