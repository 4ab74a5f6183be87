package solid

import (
	"math"

	"dryfit/graph"
)

// Distance returns how far apart two shapes are at their nearest points, mm; 0 where they
// touch or overlap. It is right to 0.001 mm.
func Distance(a, b Shape) float64 {
	if a.form == capsule && b.form == capsule {
		return math.Max(0, segmentDistance(a.a, a.b, b.a, b.b)-a.radius-b.radius)
	}
	return math.Max(0, coreDistance(&a, &b)-a.margin()-b.margin())
}

// boxesApart is how far apart the boxes round two shapes are: never more than the shapes.
func boxesApart(a, b Shape) float64 {
	lowA, highA := a.Bounds()
	lowB, highB := b.Bounds()
	return graph.Vec{
		X: math.Max(0, math.Max(lowB.X-highA.X, lowA.X-highB.X)),
		Y: math.Max(0, math.Max(lowB.Y-highA.Y, lowA.Y-highB.Y)),
		Z: math.Max(0, math.Max(lowB.Z-highA.Z, lowA.Z-highB.Z)),
	}.Len()
}

// Part returns the least move of a, along one of the six directions of a description, that
// takes it out of b: its way (unit) and how far, mm. Where the two do not overlap it is 0.
func Part(a, b Shape) (way graph.Vec, mm float64) {
	if Distance(a, b) > 0 {
		return graph.Vec{}, 0
	}
	mm = math.Inf(1)
	for _, w := range []graph.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {Z: 1}, {Z: -1}} {
		if far := leave(a, b, w, mm); far < mm {
			way, mm = w, far
		}
	}
	return way, mm
}

// leave is how far a goes along a way until it is out of b; most where that is farther.
func leave(a, b Shape, way graph.Vec, most float64) float64 {
	lowA, highA := a.Bounds()
	lowB, highB := b.Bounds()
	var far float64 // until their boxes are apart
	if d := way.Dot(highB.Sub(lowA)); way.X+way.Y+way.Z > 0 {
		far = d
	} else {
		far = way.Dot(lowB.Sub(highA))
	}
	far = math.Min(far+0.01, most)
	if Distance(a.Move(way.Scale(far)), b) == 0 {
		return most
	}
	in, out := 0.0, far
	for out-in > 1e-4 {
		mid := (in + out) / 2
		if Distance(a.Move(way.Scale(mid)), b) > 0 {
			out = mid
		} else {
			in = mid
		}
	}
	return out
}

// segmentDistance is the least distance between two segments, mm.
// Source: Ericson, Real-Time Collision Detection (2005), section 5.1.9.
func segmentDistance(p1, q1, p2, q2 graph.Vec) float64 {
	d1, d2, r := q1.Sub(p1), q2.Sub(p2), p1.Sub(p2)
	a, e, f := d1.Dot(d1), d2.Dot(d2), d2.Dot(r)
	clamp := func(v float64) float64 { return math.Max(0, math.Min(1, v)) }
	var s, t float64
	switch {
	case a == 0 && e == 0:
		return r.Len()
	case a == 0:
		t = clamp(f / e)
	case e == 0:
		s = clamp(-d1.Dot(r) / a)
	default:
		c, b := d1.Dot(r), d1.Dot(d2)
		if den := a*e - b*b; den > 1e-12*a*e {
			s = clamp((b*f - c*e) / den)
		}
		t = (b*s + f) / e
		if t < 0 {
			t, s = 0, clamp(-c/a)
		} else if t > 1 {
			t, s = 1, clamp((b-c)/a)
		}
	}
	return p1.Add(d1.Scale(s)).Sub(p2.Add(d2.Scale(t))).Len()
}
