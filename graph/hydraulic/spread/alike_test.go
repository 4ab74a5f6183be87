package spread_test

import (
	"testing"

	"dryfit/graph/hydraulic/spread"
)

// Two parts that move a flow alike differ by the last digits of a solution at most: which of them
// stands first must not hang on these, for they are other ones on another machine.
func TestAlikeHarmIsNoOrder(t *testing.T) {
	of := func(unit, jets, head float64) *spread.Influence {
		return &spread.Influence{Unit: unit, Jets: jets, Head: head}
	}
	for _, c := range []struct {
		a, b *spread.Influence
		want int
	}{
		{of(0.0013729404190281364, 0, 0.0001), of(0.0013729404190280807, 0, 0.0001), 0},
		{of(0.0013, 0.002, 0.0001), of(0.002, 0.001, 0.0001000000003), 0},
		{of(0.0014, 0, 0), of(0.0013, 0, 0.5), -1},
		{of(0.0013, 0, 0.1), of(0.0013000000001, 0, 0.2), 1},
	} {
		if got := spread.CompareHarm(c.a, c.b); got != c.want {
			t.Errorf("%+v before %+v: %d, want %d", *c.a, *c.b, got, c.want)
		}
		if got := spread.CompareHarm(c.b, c.a); got != -c.want {
			t.Errorf("%+v before %+v: %d, want %d", *c.b, *c.a, got, -c.want)
		}
	}
}
