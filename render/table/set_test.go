package table

import (
	"testing"

	"dryfit/graph/hydraulic/spread"
)

// In how many samples a throttle does not come to its reading is told with the way it then stands.
func TestThrottleThatMissesItsReading(t *testing.T) {
	for want, set := range map[string]spread.Set{
		"": {Of: 9},
		"; in 2 it is shut and the unit gets less, in 3 it is open and the unit gets more":       {Of: 9, Shut: 2, Open: 3},
		"; in 1 no turn of it gives that, for the flow jumps past it, and the unit is left less": {Of: 9, Jumps: 1},
	} {
		if got := missed(&set); got != want {
			t.Errorf("%+v: %q, want %q", set, got, want)
		}
		if got, missing := set.Reached(), set.Shut+set.Open+set.Jumps; got != set.Of-missing {
			t.Errorf("%+v: reached in %d", set, got)
		}
	}
}
