package hydraulic

import (
	"math"

	"dryfit/graph/hydraulic/formula"
)

// runLaw is the loss of a run: friction by Darcy and Weisbach over its length,
// h = f·L/D·v²/2g, and a square law for its fittings that may differ by the way of the
// water. It implements network.Law.
type runLaw struct {
	pipe         formula.Pipe
	friction     float64 // L/D/(2·g·A²)
	reynolds     float64 // Reynolds number per flow: D/(A·ν)
	ahead, aback float64 // head per flow² of fittings, by the way of the water
}

// newRunLaw returns the law of pipe: length, bore and roughness in m, water's kinematic
// viscosity in m²/s.
func newRunLaw(length, bore, roughness, viscosity float64) *runLaw {
	return &runLaw{
		pipe:     formula.NewPipe(roughness / bore),
		friction: length / bore * formula.HeadPerFlow2(bore),
		reynolds: bore / (formula.Area(bore) * viscosity),
	}
}

// Loss returns the head in m and its derivative at a flow in m³/s.
func (l *runLaw) Loss(q float64) (head, slope float64) {
	head, slope = l.pipeLoss(q)
	k := l.ahead
	if q < 0 {
		k = l.aback
	}
	a := math.Abs(q)
	return head + k*a*q, slope + 2*k*a
}

// pipeLoss is the loss of the straight pipe alone.
func (l *runLaw) pipeLoss(q float64) (head, slope float64) {
	if l.friction == 0 {
		return 0, 0
	}
	a := math.Abs(q)
	re := a * l.reynolds
	if re <= formula.LaminarEnd { // 64/Re: straight through 0
		s := 64 * l.friction / l.reynolds
		return s * q, s
	}
	f, df := l.pipe.Friction(re)
	return l.friction * f * a * q, l.friction * a * (2*f + re*df)
}
