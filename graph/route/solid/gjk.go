package solid

import (
	"math"

	"dryfit/graph"
)

// mostSteps bounds the search for the nearest points; round bodies take some thirty.
const mostSteps = 200

// coreDistance is the distance between the cores of two shapes, by the method of Gilbert,
// Johnson and Keerthi: the point nearest to the origin of all differences between a point of
// one and a point of the other.
// Source: Ericson, Real-Time Collision Detection (2005), section 9.5.
func coreDistance(a, b *Shape) float64 {
	var w [4]graph.Vec
	n := 0
	v := a.a.Sub(b.a)
	if v == (graph.Vec{}) {
		v = graph.Vec{X: 1e-3}
	}
	// a lower bound of the distance, from the planes square to the ways tried
	bound := 0.0
	for range mostSteps {
		far := a.farthest(v.Scale(-1)).Sub(b.farthest(v))
		length := v.Len()
		bound = math.Max(bound, v.Dot(far)/length)
		if n > 0 && length-bound <= 1e-4+1e-9*length {
			return length
		}
		for i := range n {
			if w[i].Sub(far).Len() < 1e-9 {
				return length
			}
		}
		w[n] = far
		n++
		v, n = nearest(&w, n)
		if n == 4 || v.Len() < 1e-6 {
			return 0
		}
	}
	return v.Len()
}

// nearest finds the point of a simplex nearest to the origin and keeps of its corners those
// that span it. Four are kept only where the origin lies inside.
func nearest(w *[4]graph.Vec, n int) (graph.Vec, int) {
	best, bestLen, kept := graph.Vec{}, math.Inf(1), [4]graph.Vec{}
	count := 0
	for set := 1; set < 1<<n; set++ {
		var p [4]graph.Vec
		k := 0
		for i := range n {
			if set&(1<<i) != 0 {
				p[k] = w[i]
				k++
			}
		}
		at, ok := foot(&p, k)
		if !ok {
			continue
		}
		if d := at.Len(); d < bestLen-1e-12 {
			best, bestLen, kept, count = at, d, p, k
		}
	}
	*w = kept
	return best, count
}

// foot is the point nearest to the origin of the flat through k points; ok is false where it
// lies outside what they span, or they span less than k points should.
func foot(p *[4]graph.Vec, k int) (graph.Vec, bool) {
	e1, e2, e3 := p[1].Sub(p[0]), p[2].Sub(p[0]), p[3].Sub(p[0])
	o := p[0].Scale(-1)
	switch k {
	case 1:
		return p[0], true
	case 2:
		den := e1.Dot(e1)
		if den < 1e-18 {
			return graph.Vec{}, false
		}
		s := o.Dot(e1) / den
		return p[0].Add(e1.Scale(s)), s > 0 && s < 1
	case 3:
		a, b, c, d, e := e1.Dot(e1), e1.Dot(e2), e2.Dot(e2), o.Dot(e1), o.Dot(e2)
		den := a*c - b*b
		if den < 1e-12*a*c {
			return graph.Vec{}, false
		}
		s, t := (d*c-e*b)/den, (a*e-b*d)/den
		return p[0].Add(e1.Scale(s)).Add(e2.Scale(t)), s > 0 && t > 0 && s+t < 1
	}
	den := e1.Dot(e2.Cross(e3))
	if math.Abs(den) < 1e-9*e1.Len()*e2.Len()*e3.Len() {
		return graph.Vec{}, false
	}
	s, t, u := o.Dot(e2.Cross(e3))/den, e1.Dot(o.Cross(e3))/den, e1.Dot(e2.Cross(o))/den
	return graph.Vec{}, s > 0 && t > 0 && u > 0 && s+t+u < 1
}
