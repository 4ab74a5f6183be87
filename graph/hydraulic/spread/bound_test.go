package spread

import (
	"slices"
	"testing"

	"dryfit/graph/sample"
)

// What the ranges of a large circuit take is bounded by a count: at least the points that a year
// of heat stands on, all of them up to 1,000 runs, and never more runs solved than four million
// or what those few points take. Counted by hand: 2,000 runs in two modes, before and after, are
// 8,000 a point, so 500 points.
func TestPointsOfALargeCircuit(t *testing.T) {
	for _, c := range []struct{ largest, sum, want int }{
		{20, 40, 1021},
		{1000, 4000, 1021},
		{1000, 60_000, 1021},
		{1001, 4004, 1021}, // time for more than half of them
		{2000, 8000, 500},
		{5000, 10_000, 400},
		{5000, 20_000, 200},
		{5000, 200_000, 64},
	} {
		points := sample.Some(worthSolving(c.largest, c.sum))
		if len(points) != c.want {
			t.Errorf("%d runs, %d in all stages: %d points, want %d", c.largest, c.sum, len(points), c.want)
		}
		for _, i := range sample.Few() {
			if !slices.Contains(points, i) {
				t.Errorf("%d runs: point %d, on which a year stands, is not among them", c.largest, i)
			}
		}
	}
}
