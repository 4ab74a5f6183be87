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

// DiscParts is how many boxes cover a disc.
const DiscParts = 3

// DiscBoxes covers a disc.
func DiscBoxes(c scene.Point, r float64) []scene.Box {
	k := r * math.Sqrt2 / 2
	m := r * math.Sin(math.Pi/8)
	n := r * math.Cos(math.Pi/8)
	return []scene.Box{
		{MinX: c.X - k, MinY: c.Y - k, MaxX: c.X + k, MaxY: c.Y + k},
		{MinX: c.X - m, MinY: c.Y - n, MaxX: c.X + m, MaxY: c.Y + n},
		{MinX: c.X - n, MinY: c.Y - m, MaxX: c.X + n, MaxY: c.Y + m},
	}
}
