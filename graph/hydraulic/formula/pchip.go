package formula

import "sort"

// Pchip is a curve through points that rises and falls only where the points do: piecewise
// cubic Hermite interpolation with the slopes of Fritsch and Butland.
//
// Source: F. N. Fritsch, J. Butland (1984), SIAM J. Sci. Stat. Comput. 5(2), 300-304:
// weighted harmonic mean inside, and at the ends the three-point formula held to the shape
// of the data. The same rules as in common scientific libraries, so that a curve can be
// compared point by point.
type Pchip struct{ x, y, d []float64 }

// NewPchip returns the curve through at least two points with rising x.
func NewPchip(x, y []float64) *Pchip {
	n := len(x)
	p := &Pchip{x: x, y: y, d: make([]float64, n)}
	if n == 2 {
		s := (y[1] - y[0]) / (x[1] - x[0])
		p.d[0], p.d[1] = s, s
		return p
	}
	h := func(i int) float64 { return x[i+1] - x[i] }
	s := func(i int) float64 { return (y[i+1] - y[i]) / h(i) }
	for i := 1; i < n-1; i++ {
		a, b := s(i-1), s(i)
		if a*b <= 0 {
			continue // a turn or a flat: slope 0
		}
		w1, w2 := 2*h(i)+h(i-1), h(i)+2*h(i-1)
		p.d[i] = (w1 + w2) / (w1/a + w2/b)
	}
	p.d[0] = endSlope(h(0), h(1), s(0), s(1))
	p.d[n-1] = endSlope(h(n-2), h(n-3), s(n-2), s(n-3))
	return p
}

// endSlope is the one-sided three-point formula, held to the sign of the first secant and,
// where the data turn, to three times it.
func endSlope(h0, h1, s0, s1 float64) float64 {
	d := ((2*h0+h1)*s0 - h0*s1) / (h0 + h1)
	switch {
	case d*s0 <= 0:
		return 0
	case s0*s1 <= 0 && abs(d) > 3*abs(s0):
		return 3 * s0
	}
	return d
}

func abs(v float64) float64 {
	if v < 0 {
		return -v
	}
	return v
}

// At returns the curve's value and slope at x; outside of the points the end's cubic is
// carried on.
func (p *Pchip) At(x float64) (y, slope float64) {
	i := sort.SearchFloat64s(p.x, x) - 1
	i = min(max(i, 0), len(p.x)-2)
	h := p.x[i+1] - p.x[i]
	t := (x - p.x[i]) / h
	y0, y1, d0, d1 := p.y[i], p.y[i+1], p.d[i]*h, p.d[i+1]*h
	c2 := 3*(y1-y0) - 2*d0 - d1
	c3 := 2*(y0-y1) + d0 + d1
	return y0 + t*(d0+t*(c2+t*c3)), (d0 + t*(2*c2+t*3*c3)) / h
}

// Slopes returns the slopes at the points.
func (p *Pchip) Slopes() []float64 { return p.d }
