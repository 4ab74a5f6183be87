package scene

import "math"

// polyline is a path of straight pieces.
type polyline struct {
	pts    []Point
	closed bool
}

// flatten turns curves into straight pieces that are off by at most about tol.
func flatten(paths []SubPath, tol float64) []polyline {
	out := make([]polyline, 0, len(paths))
	for _, sp := range paths {
		pl := polyline{pts: []Point{sp.Start}, closed: sp.Closed}
		at := sp.Start
		for _, g := range sp.Segments {
			if !g.Curve {
				pl.pts = append(pl.pts, g.To)
				at = g.To
				continue
			}
			n := pieces(at, g, tol)
			for i := 1; i < n; i++ {
				t := float64(i) / float64(n)
				u := 1 - t
				a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
				pl.pts = append(pl.pts, Point{
					float64(a*at.X) + float64(b*g.C1.X) + float64(c*g.C2.X) + float64(d*g.To.X),
					float64(a*at.Y) + float64(b*g.C1.Y) + float64(c*g.C2.Y) + float64(d*g.To.Y),
				})
			}
			pl.pts = append(pl.pts, g.To)
			at = g.To
		}
		out = append(out, pl)
	}
	return out
}

// pieces returns into how many equal steps of its parameter a cubic must be cut: the
// chord's error is at most h²/8 of the largest second derivative, which for a cubic is
// 6·max(|P0-2C1+C2|, |C1-2C2+P3|).
func pieces(from Point, g Segment, tol float64) int {
	d1 := math.Hypot(from.X-2*g.C1.X+g.C2.X, from.Y-2*g.C1.Y+g.C2.Y)
	d2 := math.Hypot(g.C1.X-2*g.C2.X+g.To.X, g.C1.Y-2*g.C2.Y+g.To.Y)
	n := math.Ceil(math.Sqrt(6 * math.Max(d1, d2) / (8 * tol)))
	return int(math.Min(math.Max(n, 1), 64))
}

// dashed cuts a polyline by a pattern of lengths on, off, on, …; the pattern starts anew
// with each polyline.
func dashed(pl polyline, pattern []float64) []polyline {
	sum := 0.0
	for _, d := range pattern {
		if !(d >= 0) || math.IsInf(d, 0) {
			return []polyline{pl}
		}
		sum += d
	}
	if sum < 0.05 {
		return []polyline{pl}
	}
	if len(pattern)%2 == 1 {
		pattern = append(append([]float64{}, pattern...), pattern...)
	}
	pts := pl.pts
	if pl.closed && len(pts) > 0 {
		pts = append(append([]Point{}, pts...), pts[0])
	}
	var out []polyline
	i, left, on := 0, pattern[0], true
	var cur []Point
	for k := 1; k < len(pts); k++ {
		a, b := pts[k-1], pts[k]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		done := 0.0
		for l-done > 1e-9 {
			step := math.Min(left, l-done)
			p := Point{a.X + (b.X-a.X)*done/l, a.Y + (b.Y-a.Y)*done/l}
			done += step
			q := Point{a.X + (b.X-a.X)*done/l, a.Y + (b.Y-a.Y)*done/l}
			if on && step > 0 {
				if len(cur) == 0 {
					cur = append(cur, p)
				}
				cur = append(cur, q)
			}
			if left -= step; left <= 1e-9 {
				if on && len(cur) > 1 {
					out = append(out, polyline{pts: cur})
				}
				cur, on = nil, !on
				i = (i + 1) % len(pattern)
				left = pattern[i]
			}
		}
	}
	if len(cur) > 1 {
		out = append(out, polyline{pts: cur})
	}
	return out
}
