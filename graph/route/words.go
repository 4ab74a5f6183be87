package route

import (
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// mm is a length of a finding, to a tenth of a mm.
func mm(v float64) quantity.Amount { return quantity.Closely(v) }

// LegWords names a leg: "leg 2 of return-line".
func LegWords(run *graph.Run, leg int) string { return fmt.Sprintf("leg %d of %s", leg, run.ID) }

// ListWords joins names: "a", "a and b", "a, b and c"; a long list keeps its ends.
func ListWords(names []string) string {
	n := len(names)
	switch {
	case n == 0:
		return "nothing"
	case n > 6:
		return fmt.Sprintf("%s and %d more to %s", strings.Join(names[:3], ", "), n-4, names[n-1])
	}
	return quantity.Listed(names, "and")
}

// OldWords names what is left of an old run, or the whole of it: "old pipe of return-line",
// "old hose of return-line".
func OldWords(r *graph.Run) string {
	of := r.ID
	if r.RemainsOf != "" {
		of = r.RemainsOf
	}
	return "old " + r.Spec.Word() + " of " + of
}
