package scene

import "math"

// strokeAreas returns the areas that a line of the width covers: one for each straight
// piece and a round one for each corner, all wound the same way so that overlaps add up.
// Ends are cut square.
func strokeAreas(pl polyline, width float64) []polyline {
	pts := withoutRepeats(pl.pts)
	closed := pl.closed
	if closed && len(pts) > 1 && pts[0] == pts[len(pts)-1] {
		pts = pts[:len(pts)-1]
	}
	if len(pts) < 2 {
		return nil
	}
	h := width / 2
	n := len(pts)
	last := n - 1
	if closed {
		last = n
	}
	var out []polyline
	for i := range last {
		a, b := pts[i], pts[(i+1)%n]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		nx, ny := -(b.Y-a.Y)/l*h, (b.X-a.X)/l*h
		out = append(out, polyline{pts: []Point{
			{a.X + nx, a.Y + ny}, {a.X - nx, a.Y - ny}, {b.X - nx, b.Y - ny}, {b.X + nx, b.Y + ny}}})
	}
	if width < 1.2 { // pixels: a round corner would not be seen
		return out
	}
	for i := range n {
		if !closed && (i == 0 || i == n-1) {
			continue
		}
		out = append(out, disc(pts[i], h))
	}
	return out
}

func withoutRepeats(pts []Point) []Point {
	out := make([]Point, 0, len(pts))
	for _, p := range pts {
		if len(out) == 0 || math.Hypot(p.X-out[len(out)-1].X, p.Y-out[len(out)-1].Y) > 1e-6 {
			out = append(out, p)
		}
	}
	return out
}

// disc is a round area wound like the areas of strokeAreas.
func disc(c Point, r float64) polyline {
	n := int(math.Min(math.Max(8, math.Ceil(4*math.Sqrt(r)*2)), 48))
	pts := make([]Point, n)
	for i := range n {
		sin, cos := math.Sincos(-2 * math.Pi * float64(i) / float64(n))
		pts[i] = Point{c.X + r*cos, c.Y - r*sin}
	}
	return polyline{pts: pts}
}
