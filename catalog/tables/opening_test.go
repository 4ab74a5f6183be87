package tables

import (
	"testing"

	"dryfit/graph/agree"
)

// A curve by hand, by straight lines between its points.
func TestOpenShare(t *testing.T) {
	curve := [][2]float64{{0, 0}, {0.5, 0.2}, {1, 1}}
	for _, c := range []struct{ at, want float64 }{{0, 0}, {0.25, 0.1}, {0.5, 0.2}, {0.75, 0.6}, {1, 1}} {
		if got := OpenShare(curve, c.at); !agree.Within(got, c.want, 1e-15) {
			t.Errorf("OpenShare(%g) = %g, want %g", c.at, got, c.want)
		}
	}
	if got := OpenShare(nil, 0.3); got != 0.3 {
		t.Errorf("without a curve: %g, want 0.3", got)
	}
}
