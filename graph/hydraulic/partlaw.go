package hydraulic

import (
	"math"

	"dryfit/graph/hydraulic/formula"
)

// partLaw is the loss of a part, the same both ways: a square law, or a table of points. It
// implements network.Law.
type partLaw struct {
	square float64 // head per flow², m/(m³/s)²; where table is nil
	table  *lossTable
	times  float64 // of the head: a valve's position, a dirty filter, jets turned down, a spread
}

func (l *partLaw) Loss(q float64) (head, slope float64) {
	a := math.Abs(q)
	if l.table == nil {
		k := l.square * l.times
		return k * a * q, 2 * k * a
	}
	h, s := l.table.at(a)
	return math.Copysign(h*l.times, q), s * l.times
}

// lossTable is the loss between the points of a data sheet: straight lines on logarithmic
// paper, that is h = c·q^n between two points, as such sheets draw it; a square law from
// nothing to the first point and from the last point on. A sheet that follows a power law
// is so given back exactly.
type lossTable struct{ q, h, n []float64 } // n[i] is the exponent above point i

// newLossTable returns the table of points with rising flow above 0 (m³/s) and heads (m);
// points at no flow are left out. A head that falls is held at the one before, and falls
// reports so: a loss that falls with flow is no loss of a part.
func newLossTable(q, h []float64) (t *lossTable, falls bool) {
	t = &lossTable{}
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
	return t, falls
}

// last returns the last flow of the table; 0 for an empty one.
func (t *lossTable) last() float64 {
	if len(t.q) == 0 {
		return 0
	}
	return t.q[len(t.q)-1]
}

// at returns head and slope at a flow of 0 or more.
func (t *lossTable) at(q float64) (head, slope float64) {
	if len(t.q) == 0 {
		return 0, 0
	}
	if q <= t.q[0] {
		c := t.h[0] / (t.q[0] * t.q[0])
		return c * q * q, 2 * c * q
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

// checkLaw is a check valve: no flow below its cracking head, from there on the loss of what
// it is once open on top of it. It is asked for flows of 0 or more.
type checkLaw struct {
	cracking float64 // m
	open     partLaw
}

func (l *checkLaw) Loss(q float64) (head, slope float64) {
	head, slope = l.open.Loss(q)
	return l.cracking + head, slope
}

// squareOf returns the square law of a coefficient on a bore in m.
func squareOf(k, bore float64) float64 { return k * formula.HeadPerFlow2(bore) }
