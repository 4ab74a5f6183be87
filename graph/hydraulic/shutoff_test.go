package hydraulic_test

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/laws"
)

// The shut-off head by hand. A curve that starts at 4 m3/h with 13 m and falls in a straight
// line of 0.5 m for each m3/h meets a parabola that starts level at 13 + 0.5·4/2 = 14 m. One
// that rises has its greatest head above its shut-off. Half the speed has a quarter of either.
func TestShutOff(t *testing.T) {
	curve := func(points ...float64) []graph.CurvePoint {
		var out []graph.CurvePoint
		for i := 0; i < len(points); i += 2 {
			out = append(out, graph.CurvePoint{Flow: points[i] / 3600, Head: graph.Drop{Value: points[i+1], IsHead: true}})
		}
		return out
	}
	for _, c := range []struct {
		name           string
		curve          []graph.CurvePoint
		head, greatest float64
		extrapolated   bool
	}{
		{"falling", curve(0, 10, 8, 6, 16, 0), 10, 10, false},
		{"starts late", curve(4, 13, 10, 10, 28, 1), 14, 14, true},
		{"rises", curve(0, 8, 6, 9.5, 14, 2), 8, 9.5, false},
	} {
		speeds := []graph.Speed{{Name: "low", Ratio: 0.5}, {Name: "high", Curve: c.curve}}
		for at, share := range []float64{0.25, 1} {
			got, ok := laws.ShutOffAt(speeds, at, 993)
			if !ok || !agree.Within(got.HeadM, share*c.head, 1e-9) || !agree.Within(got.GreatestM, share*c.greatest, 1e-9) || got.Extrapolated != c.extrapolated {
				t.Errorf("%s at %s: %+v, %v", c.name, speeds[at].Name, got, ok)
			}
		}
	}
	if _, ok := laws.ShutOffAt([]graph.Speed{{Name: "low", Ratio: 0.5}}, 0, 993); ok {
		t.Error("a ratio of no curve has no shut-off head")
	}
}
