package table

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
)

// What a unit gets by what was read stands before its own range and held against what it needs; what it would
// get as described, which that range is not of, stands behind it.
func TestWhatWasReadIsSaidFirst(t *testing.T) {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, quantity.MetricSystem) }
	for _, c := range []struct {
		read float64 // m³/h
		want string
	}{
		{0.81, "the heat pump gets 0.81 m3/h by what was read at the tub (nine in ten: 0.78 to 0.86), not the 1.2 m3/h as described; it needs 1.0 m3/h: TOO LITTLE."},
		{1.1, "the heat pump gets 1.1 m3/h by what was read at the tub (nine in ten: 0.78 to 0.86), not the 1.2 m3/h as described; it needs 1.0 m3/h."},
	} {
		u := plan.UnitSummary{Flow: c.read / 3600, AsDescribed: 1.2 / 3600, Least: 1.0 / 3600}
		if got := plainUnit("the heat pump", u, " (nine in ten: 0.78 to 0.86)", flow, flow); got != c.want {
			t.Errorf("%s\nwant %s", got, c.want)
		}
	}
}
