package laws

import (
	"math"
	"testing"

	"dryfit/graph/agree"
)

// A tee whose branch carries all, to both sides alike. Its loss by hand: 60 f_T of the velocity
// head in the branch (Crane TP-410, 2009: a standard tee, flow through the branch), with f_T =
// 0.25/log10²(ε/D/3.7) of steel of 0.0018 in (0.04572 mm): 52.5 mm make 0.01898, K 1.139; 4 l/s
// there are 1.848 m/s, 0.1741 m, and the loss is 0.1984 m, to a hundredth: the handbook prints f_T
// to two digits. It goes by the square of that flow, so
// that its slope is twice the loss over the flow, and a solver is led there.
func TestTurningTee(t *testing.T) {
	l := NewTeeLaw(0.0525, 0.0525)
	h, slope := l.Loss([3]float64{2e-3, 2e-3, -4e-3})
	if !agree.Within(math.Abs(h[2]), 0.1984, 0.002) {
		t.Errorf("%.4f m, want 0.1984", h[2])
	}
	if want := 2 * math.Abs(h[2]) / 4e-3; !agree.Within(math.Abs(slope[2][2]), want, 1e-9*want) || !(want > 0) {
		t.Errorf("slope %g, want %g", slope[2][2], want)
	}
}
