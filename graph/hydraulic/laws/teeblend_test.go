package laws

import (
	"math"
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

// What goes straight on loses K 0.2 besides on its own velocity head: all of the flow 0.2, half of it a quarter of
// that. A branch whose flow turns round feels no jump, for it stands by what comes to the tee either way.
func TestTeeStraightOn(t *testing.T) {
	const c, k = 2e-3, 0.2
	l, plain := NewTeeLaw(0.05, 0.05), NewTeeLaw(0.05, 0.05)
	l.Straight = k
	unit := formula.HeadPerFlow2(0.05) * c * c
	lost := func(l *TeeLaw, q [3]float64, from, to int) float64 {
		head, _ := l.Loss(q)
		return (head[from] - head[to]) / unit
	}
	for _, q := range [][3]float64{{c, -c, 0}, {c, -c / 2, -c / 2}, {c / 2, -c, c / 2}, {c / 4, -c, 3 * c / 4}} {
		left := math.Min(math.Abs(q[0]), math.Abs(q[1])) / c
		if got := lost(l, q, 0, 1) - lost(plain, q, 0, 1); !agree.Within(got, k*left*left, 1e-9) {
			t.Errorf("%v: straight on %g besides, want %g", q, got, k*left*left)
		}
	}
	for _, legs := range [][2]int{{0, 1}, {0, 2}, {1, 2}} {
		away, home := lost(l, [3]float64{c, -c * (1 - 1e-9), -c * 1e-9}, legs[0], legs[1]), lost(l, [3]float64{c * (1 - 1e-9), -c, c * 1e-9}, legs[0], legs[1])
		if !agree.Within(away, home, 1e-6) {
			t.Errorf("from leg %d to %d K jumps from %g to %g as the branch turns round", legs[0], legs[1], away, home)
		}
	}
	for _, q := range [][3]float64{{c, -0.7 * c, -0.3 * c}, {0.7 * c, -c, 0.3 * c}, {0.99 * c, -c, 0.01 * c}} {
		_, slope := l.Loss(q)
		for leg := range 3 {
			const d = 1e-9
			more, less := q, q
			more[leg] += d
			less[leg] -= d
			up, _ := l.Loss(more)
			down, _ := l.Loss(less)
			for at := range 3 {
				if leg == 1 {
					continue // the whole flow is that of the other two
				}
				if want := (up[at] - down[at]) / (2 * d); !agree.Within(slope[at][leg], want, 1e-3*unit/c+1e-3*math.Abs(want)) && l.common(q) != leg {
					t.Errorf("%v: slope of leg %d by leg %d is %g, want %g", q, at, leg, slope[at][leg], want)
				}
			}
		}
	}
}

// common is the leg of the run that carries the whole flow.
func (l *TeeLaw) common(q [3]float64) int {
	if math.Abs(q[0]) < math.Abs(q[1]) {
		return 1
	}
	return 0
}
