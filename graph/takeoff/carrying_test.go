package takeoff

import (
	"testing"

	"dryfit/graph"
)

// A spacing that is not to be exceeded is said rounded down, as it is read off a tape: 1377 mm are
// 54.2 in, 1520 mm 59.8 in.
func TestSpacingIsNotExceeded(t *testing.T) {
	for _, c := range []struct {
		units string
		mm    float64
		want  string
	}{{"metric", 1377, "1.37 m"}, {"metric", 1520, "1.52 m"}, {"inch", 1377, "4 ft 6 in"}, {"inch", 1520, "4 ft 11 in"}} {
		b := biller{c: &graph.Circuit{Job: graph.Job{Units: c.units}}}
		if got := b.apart(c.mm); got != c.want {
			t.Errorf("%g mm in %s units: %s, want %s", c.mm, c.units, got, c.want)
		}
	}
}
