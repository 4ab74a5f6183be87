package scene

import "math"

// Add puts items on top of what is there already.
func (s *Scene) Add(items ...Item) { s.Items = append(s.Items, items...) }

// Stroke is a solid black line of the width in mm.
func Stroke(widthMM float64) Style { return Style{StrokeMM: widthMM} }

// Dashed is a black line of the width with the pattern of dashes and gaps, mm.
func Dashed(widthMM float64, pattern ...float64) Style {
	return Style{StrokeMM: widthMM, Dash: pattern}
}

// Filled is a fill without a line: 0 black to 1 white.
func Filled(grey float64) Style { return Style{Fill: true, FillGrey: grey} }

// Outline is a black line of the width round a white fill: what lies below is hidden.
func Outline(widthMM float64) Style { return Style{StrokeMM: widthMM, Fill: true, FillGrey: 1} }

// Solid is a black line of the width round a black fill.
func Solid(widthMM float64) Style { return Style{StrokeMM: widthMM, Fill: true} }

// Line is a straight line from a to b.
func Line(a, b Point, st Style) Shape { return Polyline([]Point{a, b}, st) }

// Polyline is an open line through the points.
func Polyline(pts []Point, st Style) Shape {
	return Shape{Style: st, Paths: []SubPath{path(pts, false)}}
}

// Polygon is a closed line through the points.
func Polygon(pts []Point, st Style) Shape {
	return Shape{Style: st, Paths: []SubPath{path(pts, true)}}
}

// Rect is an upright rectangle with its upper left corner at (x, y).
func Rect(x, y, w, h float64, st Style) Shape {
	return Polygon([]Point{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}, st)
}

// Circle is a circle about c.
func Circle(c Point, r float64, st Style) Shape {
	sp := arc(c, r, 0, 360)
	sp.Closed = true
	return Shape{Style: st, Paths: []SubPath{sp}}
}

// Arc is part of a circle about c, from one angle to the other in degrees, measured
// counter-clockwise on the page from the direction of X.
func Arc(c Point, r, fromDeg, toDeg float64, st Style) Shape {
	return Shape{Style: st, Paths: []SubPath{arc(c, r, fromDeg, toDeg)}}
}

// Arrow is a filled arrowhead with its tip at tip, pointing along the way (which need
// not be of length 1), length by width mm.
func Arrow(tip, way Point, length, width float64, st Style) Shape {
	l := math.Hypot(way.X, way.Y)
	if l == 0 {
		return Shape{Style: st}
	}
	ux, uy := way.X/l, way.Y/l
	bx, by := tip.X-ux*length, tip.Y-uy*length
	h := width / 2
	return Polygon([]Point{tip, {bx - uy*h, by + ux*h}, {bx + uy*h, by - ux*h}}, st)
}

// Join puts the paths of several shapes into one shape with the style and tag of the first.
func Join(shapes ...Shape) Shape {
	var out Shape
	for i, s := range shapes {
		if i == 0 {
			out.Style, out.Name = s.Style, s.Name
		}
		out.Paths = append(out.Paths, s.Paths...)
	}
	return out
}

// Named returns the shape with what it stands for.
func (s Shape) Named(name string) Shape {
	s.Name = name
	return s
}

// Map returns the shape with every point moved by f, which should be affine.
func (s Shape) Map(f func(Point) Point) Shape {
	out := s
	out.Paths = make([]SubPath, len(s.Paths))
	for i, p := range s.Paths {
		q := SubPath{Start: f(p.Start), Closed: p.Closed, Segments: make([]Segment, len(p.Segments))}
		for j, g := range p.Segments {
			q.Segments[j] = Segment{Curve: g.Curve, To: f(g.To)}
			if g.Curve {
				q.Segments[j].C1, q.Segments[j].C2 = f(g.C1), f(g.C2)
			}
		}
		out.Paths[i] = q
	}
	return out
}

func path(pts []Point, closed bool) SubPath {
	var sp SubPath
	for i, p := range pts {
		if i == 0 {
			sp.Start = p
			continue
		}
		sp.Segments = append(sp.Segments, Segment{To: p})
	}
	sp.Closed = closed
	return sp
}

// arc approximates by one cubic for each quarter turn: handles of length
// 4/3·tan(φ/4)·r, which is off by under 0.03 % of r.
func arc(c Point, r, fromDeg, toDeg float64) SubPath {
	n := int(math.Ceil(math.Abs(toDeg-fromDeg)/90 - 1e-9))
	if n < 1 {
		n = 1
	}
	step := (toDeg - fromDeg) / float64(n) * math.Pi / 180
	k := 4.0 / 3 * math.Tan(step/4) * r
	at := func(a float64) (p, tangent Point) {
		sin, cos := math.Sincos(a)
		return Point{c.X + r*cos, c.Y - r*sin}, Point{-sin, -cos}
	}
	a := fromDeg * math.Pi / 180
	p, t := at(a)
	sp := SubPath{Start: p}
	for range n {
		a += step
		q, u := at(a)
		sp.Segments = append(sp.Segments, Segment{Curve: true, To: q,
			C1: Point{p.X + k*t.X, p.Y + k*t.Y}, C2: Point{q.X - k*u.X, q.Y - k*u.Y}})
		p, t = q, u
	}
	return sp
}

// Hatch fills a box with lines at 45 degrees, as far apart along its sides as step.
func Hatch(b Box, step float64, style Style) Shape {
	out := Shape{Style: style}
	for k := math.Ceil((b.MinX + b.MinY) / step); k*step < b.MaxX+b.MaxY; k++ {
		s := k * step // x + y = s
		x0, x1 := math.Max(b.MinX, s-b.MaxY), math.Min(b.MaxX, s-b.MinY)
		if x1-x0 >= 0.05 {
			out.Paths = append(out.Paths, Line(Point{X: x0, Y: s - x0}, Point{X: x1, Y: s - x1}, style).Paths...)
		}
	}
	return out
}
