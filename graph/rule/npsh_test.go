package rule

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
)

// TestNPSHBetweenPoints: straight between the points of the sheet, level beyond its ends.
// Worked by hand.
func TestNPSHBetweenPoints(t *testing.T) {
	points := []graph.CurvePoint{{Flow: 1, Head: graph.Drop{Value: 2, IsHead: true}}, {Flow: 3, Head: graph.Drop{Value: 6, IsHead: true}}}
	for flow, want := range map[float64]float64{0: 2, 1: 2, 2: 4, 2.5: 5, 3: 6, 9: 6} {
		if got := npshAt(points, flow, 1000); !agree.Within(got, want, 1e-12) {
			t.Errorf("npshAt(%g) = %g, want %g", flow, got, want)
		}
	}
}

// TestNPSHInPressure: a sheet in kPa asks for as much as one in metres: 2 m of water of
// 992.966 kg/m³ are 2 · 992.966 · 9.80665 = 19,475 Pa. By hand.
func TestNPSHInPressure(t *testing.T) {
	const density = 992.966
	metres := []graph.CurvePoint{{Flow: 0, Head: graph.Drop{Value: 2, IsHead: true}}, {Flow: 0.01, Head: graph.Drop{Value: 4, IsHead: true}}}
	pascals := []graph.CurvePoint{{Flow: 0, Head: graph.Drop{Value: 2 * density * 9.80665}}, {Flow: 0.01, Head: graph.Drop{Value: 4 * density * 9.80665}}}
	for _, q := range []float64{0, 0.002, 0.005, 0.01, 0.02} {
		a, b := npshAt(metres, q, density), npshAt(pascals, q, density)
		if !agree.Within(a, b, 1e-9) || !(a >= 2) {
			t.Errorf("at %g: %g from metres, %g from pascals", q, a, b)
		}
	}
}
