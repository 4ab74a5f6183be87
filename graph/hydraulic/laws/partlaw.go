package laws

import (
	"math"

	"dryfit/graph/hydraulic/formula"
)

// PartLaw is the loss of a part, the same both ways: a power of the flow, or a table of
// points. It implements network.Law.
type PartLaw struct {
	Square   float64    // head per flow², m/(m³/s)², at the flow ref (of a square law: anywhere); where table is nil
	Exponent float64    // of the flow; 0: 2
	Ref      float64    // flow at which square holds, m³/s; 0 for a square law
	Table    *LossTable // nil: the power law
	Times    float64    // of the head: a valve's position, a dirty filter, jets turned down, a spread
	Wide     float64    // of the flow: the part is so much larger than described; 0: 1
}

// Loss returns the head in m and its slope at a flow in m³/s.
func (l *PartLaw) Loss(q float64) (head, slope float64) {
	a, k := math.Abs(q), l.Times
	if w := l.Wide; w != 0 && w != 1 {
		a /= w
		k /= w // of the slope; the head below takes it back
	}
	if k == 0 {
		return 0, 0
	}
	wide := l.Times / k
	if l.Table != nil {
		h, s := l.Table.At(a)
		return math.Copysign(h*l.Times, q), s * k
	}
	if l.Exponent == 0 || l.Exponent == 2 || l.Ref <= 0 {
		c := l.Square * k
		return math.Copysign(c*wide*a*a, q), 2 * c * a
	}
	if a == 0 {
		if l.Exponent <= 1 {
			return 0, l.Square * l.Ref * k
		}
		return 0, 0
	}
	h := l.Square * l.Ref * l.Ref * math.Pow(a/l.Ref, l.Exponent) * k
	return math.Copysign(h*wide, q), l.Exponent * h / a
}

// PowerLaw is the loss of one point of a sheet, by an exponent.
func PowerLaw(flow, head, exponent float64) *PartLaw {
	return &PartLaw{Square: head / (flow * flow), Exponent: exponent, Ref: flow, Times: 1}
}

// LossTable is the loss between the points of a data sheet: straight lines on logarithmic
// paper, that is h = c·q^n between two points, as such sheets draw it. Below the first point the
// first of these lines goes on, as steep as a loss can be there: from 1, a bed in which the water
// creeps (Ergun's equation without its square term), to 2. From the last point on, and of one point
// alone, it is a square law. A sheet that follows a power law is so given back exactly.
type LossTable struct {
	q, h, n []float64 // n[i] is the exponent above point i
	low     float64   // the exponent below the first
}

// NewLossTable returns the table of points with rising flow above 0 (m³/s) and heads (m);
// points at no flow are left out. A head that falls is held at the one before, and falls
// reports so: a loss that falls with flow is no loss of a part.
func NewLossTable(q, h []float64) (t *LossTable, falls bool) {
	t = &LossTable{}
	for i := range q {
		if q[i] <= 0 {
			continue
		}
		head := max(h[i], 0)
		if n := len(t.h); n > 0 && head < t.h[n-1] {
			head, falls = t.h[n-1], true
		}
		t.q, t.h = append(t.q, q[i]), append(t.h, head)
	}
	t.n = make([]float64, len(t.q))
	for i := range t.q {
		t.n[i] = 2
		if i+1 < len(t.q) && t.h[i] > 0 {
			t.n[i] = math.Log(t.h[i+1]/t.h[i]) / math.Log(t.q[i+1]/t.q[i])
		} else if i+1 < len(t.q) {
			t.n[i] = -1 // from nothing: a parabola that starts flat
		}
	}
	t.low = 2
	if len(t.n) > 1 && t.n[0] >= 0 {
		t.low = min(max(1, t.n[0]), 2)
	}
	return t, falls
}

// Last returns the last flow of the table; 0 for an empty one.
func (t *LossTable) Last() float64 {
	if len(t.q) == 0 {
		return 0
	}
	return t.q[len(t.q)-1]
}

// At returns head and slope at a flow of 0 or more.
func (t *LossTable) At(q float64) (head, slope float64) {
	if len(t.q) == 0 {
		return 0, 0
	}
	if q <= t.q[0] {
		if t.low == 2 {
			c := t.h[0] / (t.q[0] * t.q[0])
			return c * q * q, 2 * c * q
		}
		if rising := PowerLaw(t.q[0], t.h[0], t.low); t.h[0] > 0 {
			return rising.Loss(q)
		}
		return 0, 0
	}
	i := len(t.q) - 1
	for q < t.q[i] {
		i--
	}
	switch n := t.n[i]; n {
	case 2:
		c := t.h[i] / (t.q[i] * t.q[i])
		return c * q * q, 2 * c * q
	case -1:
		w := t.q[i+1] - t.q[i]
		x := (q - t.q[i]) / w
		return t.h[i+1] * x * x, 2 * t.h[i+1] * x / w
	default:
		h := t.h[i] * math.Pow(q/t.q[i], n)
		return h, n * h / q
	}
}

// CheckLaw is a check valve: no flow below its cracking head, from there on the loss of what
// it is once open on top of it. A swing check that the water does not hold quite open costs
// more than its open loss says: from its holding flow down the drop falls in a straight line
// instead of by the square, for the flapper hangs in the way. It is asked for flows of 0 or
// more.
//
// Source of the holding velocity: see HoldOpenVelocity. The straight line is the choice of
// this program: between the constant drop of a heavy disc and the square of a light one.
type CheckLaw struct {
	Cracking float64 // m
	Open     PartLaw
	Hold     float64 // m³/s, flow that holds a swing check open; 0: none
}

// Loss returns the head in m and its slope at a flow in m³/s.
func (l *CheckLaw) Loss(q float64) (head, slope float64) {
	if q < l.Hold {
		h, _ := l.Open.Loss(l.Hold)
		return l.Cracking + h*q/l.Hold, h / l.Hold
	}
	head, slope = l.Open.Loss(q)
	return l.Cracking + head, slope
}

// HoldOpenVelocity is the velocity in the pipe that holds a swing check of plastic fully open,
// m/s. The handbook's 35·√v ft/s for a straight-way one of metal (v in ft³/lb) is 1.35 m/s in
// warm water (Crane TP-410, read in a maker's sheet); a plastic flapper has a quarter of the
// weight in water, and the velocity goes by its root: 0.7 m/s. Judgement, with a wide spread.
const HoldOpenVelocity = 0.7

// SquareOf returns the square law of a coefficient on a bore in m.
func SquareOf(k, bore float64) float64 { return k * formula.HeadPerFlow2(bore) }
