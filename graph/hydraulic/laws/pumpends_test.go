package laws

import (
	"testing"

	"dryfit/graph/agree"
)

// Past its last point a curve goes on at least as steep as a tenth of its shut-off head over its
// greatest flow: of one that ends level at no head, 10 m and 8, an eighth of a metre for each. By hand.
func TestCurvePastALevelEnd(t *testing.T) {
	c, err := NewPumpCurve([]float64{0, 2, 4, 6, 8}, []float64{10, 4, 0, 0, 0})
	if err != nil {
		t.Fatal(err)
	}
	if h, slope := c.Head(10); !agree.Within(h, -0.25, 1e-9) || !agree.Within(slope, -0.125, 1e-9) {
		t.Errorf("head %g, slope %g; want -0.25 and -0.125", h, slope)
	}
}

// The bounds of a curve that falls, rises and falls again: nowhere below the greatest head from there
// on, nowhere above the least up to there. Read off the points by eye.
func TestBoundsOfARisingCurve(t *testing.T) {
	c, err := NewPumpCurve([]float64{0, 2, 4, 6}, []float64{10, 7, 9, 3})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range []struct{ q, low, high float64 }{{0, 10, 10}, {2, 7, 9}, {4, 7, 9}, {4.2, 7, 0}, {6, 3, 3}} {
		if h, _ := c.lowest(w.q); !agree.Within(h, w.low, 1e-9) {
			t.Errorf("at %g the least so far is %g, want %g", w.q, h, w.low)
		}
		if h, _ := c.highest(w.q); w.high > 0 && !agree.Within(h, w.high, 1e-9) {
			t.Errorf("at %g the greatest from there on is %g, want %g", w.q, h, w.high)
		}
	}
}
