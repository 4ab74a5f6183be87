package isometric

import (
	"fmt"
	"math"
	"strings"

	"dryfit/graph/agree"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
)

// clashes lists what on a finished page stands in the way of something else: a label on a
// label, a line through a label, a dimension, extension or leader line across another line.
// It reads the page alone and knows nothing of how places were chosen.
func clashes(s *scene.Scene) []string {
	var texts []scene.Text
	var lines []penLine
	for k, it := range s.Items {
		switch it := it.(type) {
		case scene.Text:
			if strings.HasPrefix(it.Name, "label:") || it.Name == "triad" {
				texts = append(texts, it)
			}
		case scene.Shape:
			if drawn(it.Name) {
				for _, l := range penLines(it) {
					l.item = k
					lines = append(lines, l)
				}
			}
		}
	}
	var out []string
	for i, t := range texts {
		box := inked(t)
		for _, u := range texts[:i] {
			if t.Name == u.Name && math.Abs(t.At.X-u.At.X) < 0.01 && !agree.Within(t.At.Y, u.At.Y, 1.5) { // lines of one label
				continue
			}
			if meetPolygons(box, inked(u)) {
				out = append(out, fmt.Sprintf("label %q on label %q", t.Text, u.Text))
			}
		}
		for _, l := range lines {
			if l.name == "ring" && (t.Name == "label:piece" || t.Name == "label:cut") { // round its own number
				continue
			}
			if lineMeets(box, l.a, l.b) {
				out = append(out, fmt.Sprintf("line %q through label %q", l.name, t.Text))
			}
		}
	}
	for i, l := range lines {
		if !fine(l.name) {
			continue
		}
		for j, m := range lines {
			if i == j || l.item == m.item || (fine(m.name) && j < i) || shares(l, m) {
				continue
			}
			if _, _, ok := members.Crossing(l.a, l.b, m.a, m.b); ok {
				out = append(out, fmt.Sprintf("%s line across %s at %.1f, %.1f", l.name, m.name, l.a.X, l.a.Y))
			}
		}
	}
	return out
}

// drawn reports whether a shape belongs to the drawing, not to the sheet round it.
func drawn(name string) bool {
	switch name {
	case "", "frame", "legend", "title-block":
		return false
	}
	return true
}

// fine reports whether a line explains the drawing and must cross nothing.
func fine(name string) bool {
	return name == "extension" || name == "dimension" || strings.HasPrefix(name, "leader:")
}

// shares reports whether lines may touch: an extension line and the dimension lines that end
// on it, with their arrowheads, and a leader and what it leads to or from.
func shares(l, m penLine) bool {
	dims := func(t string) bool { return t == "extension" || t == "dimension" }
	if dims(l.name) && dims(m.name) {
		for _, p := range []scene.Point{l.a, l.b} {
			if members.ToLine(p, m.a, m.b) < 0.45 {
				return true
			}
		}
		for _, p := range []scene.Point{m.a, m.b} {
			if members.ToLine(p, l.a, l.b) < 0.45 {
				return true
			}
		}
	}
	return strings.HasPrefix(l.name, "leader:") && (members.ToLine(l.a, m.a, m.b) < 1 || members.ToLine(l.b, m.a, m.b) < 1)
}

type penLine struct {
	a, b scene.Point
	name string
	item int
}

// penLines flattens a shape's outline.
func penLines(s scene.Shape) []penLine {
	var out []penLine
	for _, p := range s.Paths {
		at := p.Start
		put := func(to scene.Point) {
			out = append(out, penLine{a: at, b: to, name: s.Name})
			at = to
		}
		for _, g := range p.Segments {
			if !g.Curve {
				put(g.To)
				continue
			}
			from := at
			for k := 1; k <= 6; k++ {
				t := float64(k) / 6
				r := 1 - t
				put(space.Add(space.Add(space.Times(r*r*r, from), space.Times(3*r*r*t, g.C1)), space.Add(space.Times(3*r*t*t, g.C2), space.Times(t*t*t, g.To))))
			}
		}
		if p.Closed {
			put(p.Start)
		}
	}
	return out
}

// inked is the corners of a text's capitals and figures.
func inked(t scene.Text) []scene.Point {
	c := t.Corners() // from descenders to ascenders
	const low, high = 0.236 / 0.996, (0.236 + 0.729) / 0.996
	return []scene.Point{space.Along(c[0], c[3], low), space.Along(c[1], c[2], low), space.Along(c[1], c[2], high), space.Along(c[0], c[3], high)}
}

// lineMeets reports whether a line enters a convex polygon.
func lineMeets(poly []scene.Point, a, b scene.Point) bool {
	if inside(poly, a) || inside(poly, b) {
		return true
	}
	for k := range poly {
		if _, _, ok := members.Crossing(a, b, poly[k], poly[(k+1)%len(poly)]); ok {
			return true
		}
	}
	return false
}

func meetPolygons(p, q []scene.Point) bool {
	for k := range p {
		if lineMeets(q, p[k], p[(k+1)%len(p)]) {
			return true
		}
	}
	return inside(p, q[0])
}

func inside(poly []scene.Point, p scene.Point) bool {
	side := 0.0
	for k := range poly {
		c := space.Cross(space.Sub(poly[(k+1)%len(poly)], poly[k]), space.Sub(p, poly[k]))
		if c*side < 0 {
			return false
		}
		if c != 0 {
			side = c
		}
	}
	return true
}
