package space

import (
	"math"

	"dryfit/render/scene"
)

// stepMM is the length of the boxes a slanting strip is covered with; for thin lines, that
// are many, fineMM.
const (
	stepMM = 0.8
	fineMM = 1.2
)

// Strip covers a line of the width 2·half with boxes.
func Strip(a, b scene.Point, half float64) []scene.Box {
	v := Sub(b, a)
	if math.Abs(v.X) < 1e-6 || math.Abs(v.Y) < 1e-6 { // upright or level: one box
		return []scene.Box{scene.Empty().Add(a).Add(b).Grow(half)}
	}
	step := stepMM
	if half < 0.3 {
		step = fineMM
	}
	n := max(1, int(math.Ceil(Length(v)/step)))
	out := make([]scene.Box, n)
	for i := range out {
		p, q := Along(a, b, float64(i)/float64(n)), Along(a, b, float64(i+1)/float64(n))
		out[i] = scene.Empty().Add(p).Add(q).Grow(half)
	}
	return out
}

// Slab covers the parallelogram c ± u ± v with boxes, cut across u.
func Slab(c, u, v scene.Point) []scene.Box {
	n := max(1, int(math.Ceil(2*Length(u)/stepMM)))
	if math.Abs(u.X) < 1e-6 || math.Abs(u.Y) < 1e-6 {
		if math.Abs(v.X) < 1e-6 || math.Abs(v.Y) < 1e-6 {
			n = 1
		}
	}
	out := make([]scene.Box, n)
	for i := range out {
		b := scene.Empty()
		for _, t := range []float64{float64(i) / float64(n), float64(i+1) / float64(n)} {
			p := Add(c, Times(2*t-1, u))
			b = b.Add(Add(p, v)).Add(Sub(p, v))
		}
		out[i] = b
	}
	return out
}

// Outline covers the lines of a shape with boxes.
func Outline(s scene.Shape, half float64) []scene.Box {
	var out []scene.Box
	for _, p := range s.Paths {
		at := p.Start
		for _, g := range p.Segments {
			if g.Curve {
				out = append(out, scene.Empty().Add(at).Add(g.C1).Add(g.C2).Add(g.To).Grow(half))
			} else {
				out = append(out, Strip(at, g.To, half)...)
			}
			at = g.To
		}
		if p.Closed {
			out = append(out, Strip(at, p.Start, half)...)
		}
	}
	return out
}

// DiscParts is how many boxes cover a disc: each reaches from one ray of a quarter to the next,
// so that nothing of the disc is left out between them.
const DiscParts = 4

// DiscBoxes covers a disc, all of it; the corners stand out by a sixth of its radius at most.
func DiscBoxes(c scene.Point, r float64) []scene.Box {
	out := make([]scene.Box, DiscParts)
	for i := range out {
		w := r * math.Cos(float64(i)*math.Pi/2/DiscParts)
		h := r * math.Sin(float64(i+1)*math.Pi/2/DiscParts)
		out[i] = scene.Box{MinX: c.X - w, MinY: c.Y - h, MaxX: c.X + w, MaxY: c.Y + h}
	}
	return out
}
