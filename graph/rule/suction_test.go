package rule

import (
	"math"
	"testing"

	"dryfit/graph"
)

// TestNPSHBetweenPoints: straight between the points of the sheet, level beyond its ends.
// Worked by hand.
func TestNPSHBetweenPoints(t *testing.T) {
	points := []graph.CurvePoint{{Flow: 1, Head: graph.Drop{Value: 2}}, {Flow: 3, Head: graph.Drop{Value: 6}}}
	for flow, want := range map[float64]float64{0: 2, 1: 2, 2: 4, 2.5: 5, 3: 6, 9: 6} {
		if got := npshAt(points, flow); math.Abs(got-want) > 1e-12 {
			t.Errorf("npshAt(%g) = %g, want %g", flow, got, want)
		}
	}
}
