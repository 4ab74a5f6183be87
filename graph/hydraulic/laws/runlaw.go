package laws

import (
	"math"

	"dryfit/graph/hydraulic/formula"
)

// RunLaw is the loss of a run: friction by Darcy and Weisbach over its length,
// h = f·L/D·v²/2g, and a square law for its fittings that may differ by the way of the
// water. It implements network.Law.
type RunLaw struct {
	Pipe         formula.Pipe
	Friction     float64 // L/D/(2·g·A²)
	Reynolds     float64 // Reynolds number per flow: D/(A·ν)
	Ahead, Aback float64 // head per flow² of fittings, by the way of the water
}

// NewRunLaw returns the law of pipe: length, bore and roughness in m, water's kinematic
// viscosity in m²/s.
func NewRunLaw(length, bore, roughness, viscosity float64) *RunLaw {
	l := &RunLaw{}
	l.Set(length, bore, roughness, viscosity)
	return l
}

// Set makes it the law of another pipe, without fittings: see NewRunLaw.
func (l *RunLaw) Set(length, bore, roughness, viscosity float64) {
	*l = RunLaw{
		Pipe:     l.Pipe.Of(roughness / bore),
		Friction: length / bore * formula.HeadPerFlow2(bore),
		Reynolds: bore / (formula.Area(bore) * viscosity),
	}
}

// Loss returns the head in m and its derivative at a flow in m³/s.
func (l *RunLaw) Loss(q float64) (head, slope float64) {
	head, slope = l.PipeLoss(q)
	k := l.Ahead
	if q < 0 {
		k = l.Aback
	}
	a := math.Abs(q)
	return head + k*a*q, slope + 2*k*a
}

// PipeLoss is the loss of the straight pipe alone.
func (l *RunLaw) PipeLoss(q float64) (head, slope float64) {
	if l.Friction == 0 {
		return 0, 0
	}
	a := math.Abs(q)
	re := a * l.Reynolds
	if re <= formula.LaminarEnd { // 64/Re: straight through 0
		s := 64 * l.Friction / l.Reynolds
		return s * q, s
	}
	f, df := l.Pipe.Friction(re)
	return l.Friction * f * a * q, l.Friction * a * (2*f + re*df)
}
