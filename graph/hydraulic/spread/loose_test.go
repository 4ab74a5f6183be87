package spread

import (
	"math"
	"testing"

	"dryfit/graph/agree"
)

// What hangs past parts whose ports nothing ties together lies where it is drawn at the middle of
// the depths nobody gave, 0.5 m, as much higher at the water, as much deeper at 3 m, in a straight line
// between; nothing above the water has a weight on it. By hand: 150 kPa, 1 m below, 0.4 m either way,
// a metre 10 kPa: 140 as drawn, 144 at the highest, 136 at the deepest, 138 half-way to it (1.75 m).
func TestHungLevel(t *testing.T) {
	const metre = 10e3
	l := noLimit.hang(150e3, 1000, 400, true, metre)
	for depth, want := range map[float64]float64{0: 144e3, 0.5: 140e3, 1.75: 138e3, 3: 136e3} {
		if got := l.least(depth, metre); !agree.Within(got, want, 1e-6) {
			t.Errorf("%g m: %g Pa left, want %g", depth, got, want)
		}
	}
	if got := noLimit.hang(150e3, 100, 400, true, metre).least(0, metre); !agree.Within(got, 150e3, 1e-6) {
		t.Errorf("above the water %g Pa left", got)
	}
	if l := noLimit.hang(150e3, 1000, 0, true, metre); len(l.hung) != 0 || !agree.Within(l.known, 140e3, 1e-6) {
		t.Errorf("tied by measures: %+v", l)
	}
	if l := noLimit.hang(150e3, 1000, 400, false, metre); len(l.hung) != 0 || !agree.Within(l.unknown, 150e3, 1e-6) || !math.IsInf(l.known, 1) {
		t.Errorf("level unknown: %+v", l)
	}
}
