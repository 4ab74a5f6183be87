package scene

// Clip returns what of a shape lies in a box. Curves become straight pieces, off by at most
// 0.02 mm; the line of a closed shape that is cut is open where it was cut, its fill goes up to
// the cut.
func Clip(s Shape, b Box) []Shape {
	if bounds := Bounds(s); b.Contains(bounds) {
		return []Shape{s}
	} else if !b.Overlaps(bounds) {
		return nil
	}
	var out []Shape
	fill, line := s, s
	fill.Paths, fill.Style.StrokeMM = nil, 0
	line.Paths, line.Style.Fill = nil, false
	for _, pl := range flatten(s.Paths, 0.02) {
		pts := pl.pts
		if s.Style.Fill {
			if p := clipArea(pts, b); len(p) > 2 {
				fill.Paths = append(fill.Paths, path(p, true))
			}
		}
		if pl.closed {
			pts = append(append([]Point{}, pts...), pts[0])
		}
		if s.Style.StrokeMM > 0 {
			for _, p := range clipLine(pts, b) {
				line.Paths = append(line.Paths, path(p, false))
			}
		}
	}
	if len(fill.Paths) > 0 {
		out = append(out, fill)
	}
	if len(line.Paths) > 0 {
		out = append(out, line)
	}
	return out
}

// clipLine is what of an open line lies in a box, in pieces (Liang and Barsky 1984, from
// memory).
func clipLine(pts []Point, b Box) [][]Point {
	var out [][]Point
	var cur []Point
	end := func() {
		if len(cur) > 1 {
			out = append(out, cur)
		}
		cur = nil
	}
	for i := 1; i < len(pts); i++ {
		p, q := pts[i-1], pts[i]
		from, to, ok := within(p, q, b)
		if !ok {
			end()
			continue
		}
		at := func(t float64) Point { return Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)} }
		if from > 0 || len(cur) == 0 {
			end()
			cur = []Point{at(from)}
		}
		cur = append(cur, at(to))
		if to < 1 {
			end()
		}
	}
	end()
	return out
}

// within is the share of the way from p to q that lies in a box.
func within(p, q Point, b Box) (from, to float64, ok bool) {
	from, to = 0, 1
	for _, e := range [4][2]float64{{q.X - p.X, b.MaxX - p.X}, {p.X - q.X, p.X - b.MinX}, {q.Y - p.Y, b.MaxY - p.Y}, {p.Y - q.Y, p.Y - b.MinY}} {
		switch way, room := e[0], e[1]; {
		case way == 0 && room < 0:
			return 0, 0, false
		case way > 0:
			to = min(to, room/way)
		case way < 0:
			from = max(from, room/way)
		}
	}
	return from, to, from < to
}

// clipArea is a polygon inside a box (Sutherland and Hodgman 1974, from memory).
func clipArea(pts []Point, b Box) []Point {
	for side := range 4 {
		depth := func(p Point) float64 {
			return [4]float64{p.X - b.MinX, b.MaxX - p.X, p.Y - b.MinY, b.MaxY - p.Y}[side]
		}
		var out []Point
		for i, q := range pts {
			p := pts[(i+len(pts)-1)%len(pts)]
			dp, dq := depth(p), depth(q)
			if (dp < 0) != (dq < 0) {
				t := dp / (dp - dq)
				out = append(out, Point{p.X + t*(q.X-p.X), p.Y + t*(q.Y-p.Y)})
			}
			if dq >= 0 {
				out = append(out, q)
			}
		}
		pts = out
	}
	return pts
}
