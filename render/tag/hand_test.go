package tag

import (
	"testing"

	"dryfit/graph"
)

// A quarter turn is told by its handle, a gate by its turns: 71 % of a quarter turn are 64 degrees.
func TestTurned(t *testing.T) {
	for _, c := range []struct {
		kind graph.Kind
		open float64
		want string
	}{
		{graph.ButterflyValve, 0, "SHUT"},
		{graph.BallValve, 1, "OPEN"},
		{graph.ButterflyValve, 0.5, "HANDLE 45° from shut"},
		{graph.BallValve, 0.709, "HANDLE 65° from shut"},
		{graph.GateValve, 0.75, "OPEN 75 % of its turns"},
		{graph.BallValve, 0.001, "HANDLE 5° from shut"},
		{graph.GateValve, 0.999, "OPEN 95 % of its turns"},
	} {
		if got := Turned(c.kind, c.open); got != c.want {
			t.Errorf("%s at %g: %q, want %q", c.kind, c.open, got, c.want)
		}
	}
}
