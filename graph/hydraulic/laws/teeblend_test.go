package laws

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/formula"
)

// Half-way along the lines that join the handbook's patterns (Crane TP-410, 2009, chapter 2), by hand,
// of a tee of one size. Of a leg of the run that has just turned round, a fortieth of the whole flow:
// half of the 1.55 - 1 it has where the branch carries all, and nothing from a twentieth on. Of a
// branch that has just turned round, a hundredth: the middle of what it gives back at a fiftieth,
// 0.9·0.98·(1 + 0.02² - 2·0.98²) = -0.81179, and of the 1 a branch without flow has the other way.
func TestTeeBlends(t *testing.T) {
	const c = 2e-3 // m³/s
	l := NewTeeLaw(0.05, 0.05)
	unit := formula.HeadPerFlow2(0.05) * c * c
	for share, want := range map[float64]float64{0: 0.55, 0.025: 0.275, 0.04: 0.11, 0.05: 0} {
		head, _ := l.Loss([3]float64{-c * (1 - share), -c * share, c})
		if !agree.Within(head[1], want*unit, 1e-6*unit) {
			t.Errorf("a leg of the run with %g of the flow: K %g, want %g", share, head[1]/unit, want)
		}
	}
	head, _ := l.Loss([3]float64{0.99 * c, -c, 0.01 * c})
	if want := (-0.81179 - 1) / 2; !agree.Within(head[2], want*unit, 1e-4*unit) {
		t.Errorf("a branch with a hundredth of the flow: K %g, want %g", head[2]/unit, want)
	}
}
