package curves

import (
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/render/scene"
)

func TestNewAxis(t *testing.T) {
	for _, c := range []struct{ most, step, end float64 }{
		{30.6, 5, 35}, {16.7, 2, 18}, {3.3, 0.5, 3.5}, {1, 0.2, 1}, {0.04, 0.01, 0.04}, {0, 0.2, 1}, {900, 100, 900},
	} {
		a := newAxis(c.most, 1, "m")
		if !agree.Within(a.step, c.step, 1e-9*c.step) || !agree.Within(a.most, c.end, 1e-9*c.end) {
			t.Errorf("to %g: steps of %g up to %g, want %g up to %g", c.most, a.step, a.most, c.step, c.end)
		}
		if n := a.most / a.step; !agree.Between(n, 3, 9) {
			t.Errorf("to %g: %g steps", c.most, n)
		}
	}
}

// 10 m³/h are 44.03 US gpm and 10 m are 32.81 ft (NIST SP 811, app. B).
func TestInchAxes(t *testing.T) {
	if got := 10.0 / 3600 * flowAxis(1, quantity.InchSystem).factor; !agree.Within(got, 44.03, 0.005) {
		t.Errorf("10 m3/h are %.3f gpm, want 44.03", got)
	}
	if got := 10 * headAxis(1, quantity.InchSystem).factor; !agree.Within(got, 32.81, 0.005) {
		t.Errorf("10 m are %.3f ft, want 32.81", got)
	}
}

// A curve is cut off where it leaves the plot, on the straight line between its points.
func TestLineStopsAtTheEdge(t *testing.T) {
	p := plot{box: scene.Box{MinX: 0, MinY: 0, MaxX: 100, MaxY: 100}, x: axis{factor: 1, most: 10}, y: axis{factor: 1, most: 10}}
	pts := p.line([]float64{0, 4, 8, 9}, []float64{0, 5, 15, 20})
	last := pts[len(pts)-1]
	if len(pts) != 3 || !agree.Within(last.X, 60, 1e-9) || !agree.Within(last.Y, 0, 1e-9) {
		t.Errorf("cut off at %v, want (60, 0): 10 m are passed at a flow of 6", pts)
	}
	pts = p.line([]float64{0, 5, 15}, []float64{8, 6, 2})
	if last = pts[len(pts)-1]; !agree.Within(last.X, 100, 1e-9) || !agree.Within(last.Y, 60, 1e-9) {
		t.Errorf("cut off at %v, want (100, 60)", last)
	}
}
