package scene

import (
	"math"

	"golang.org/x/image/font/sfnt"
)

// haloMM is the width of a halo on each side of the letters, for text of the size.
func haloMM(sizeMM float64) float64 { return 0.16 * sizeMM }

// setting is where a text's baseline starts and the page directions of one em along it and
// one em up from it.
type setting struct {
	origin, along, up Point
	width             float64 // em
	text              string  // as shown
}

// set works out a text's setting. The slant is applied first, then the turn.
func set(t Text) setting {
	s := setting{text: visible(t.Text, t.Bold)}
	if t.SizeMM > 0 {
		s.width = TextWidth(t.Text, 1, t.Bold)
	}
	sin, cos := math.Sincos(t.TurnDeg * math.Pi / 180)
	tan := math.Tan(t.SkewDeg * math.Pi / 180)
	s.along = Point{cos * t.SizeMM, -sin * t.SizeMM}
	s.up = Point{tan*s.along.X - sin*t.SizeMM, tan*s.along.Y - cos*t.SizeMM}
	du, dv := 0.0, 0.0
	switch t.Anchor {
	case Centre:
		du = -s.width / 2
	case End:
		du = -s.width
	}
	if t.Middle {
		dv = -capHeight / 2
	}
	s.origin = t.At
	s.origin = s.at(du, dv)
	return s
}

// at returns the page point u em along the baseline and v em above it.
func (s setting) at(u, v float64) Point {
	return Point{
		s.origin.X + float64(u*s.along.X) + float64(v*s.up.X),
		s.origin.Y + float64(u*s.along.Y) + float64(v*s.up.Y),
	}
}

// Corners returns the corners of the text's box on the page, from below the first letter
// counter-clockwise: its width, and from the descenders to the ascenders.
func (t Text) Corners() [4]Point {
	s := set(t)
	return [4]Point{s.at(0, -descent), s.at(s.width, -descent), s.at(s.width, ascent), s.at(0, ascent)}
}

// outlines returns the letters' outlines on the page.
func (s setting) outlines(isBold bool) []SubPath {
	f := faceOf(isBold)
	var b sfnt.Buffer
	var out []SubPath
	u := 0.0
	for _, r := range s.text {
		var sp SubPath
		var last Point // em
		flush := func() {
			if len(sp.Segments) > 0 {
				sp.Closed = true
				out = append(out, sp)
			}
		}
		at := func(p Point) Point { return s.at(u+p.X, p.Y) }
		f.outline(&b, r, func(op byte, p [3]Point) {
			switch op {
			case 'M':
				flush()
				sp = SubPath{Start: at(p[0])}
				last = p[0]
			case 'L':
				sp.Segments = append(sp.Segments, Segment{To: at(p[0])})
				last = p[0]
			case 'Q': // the same curve as a cubic
				c, to := p[0], p[1]
				c1 := Point{last.X + 2.0/3*(c.X-last.X), last.Y + 2.0/3*(c.Y-last.Y)}
				c2 := Point{to.X + 2.0/3*(c.X-to.X), to.Y + 2.0/3*(c.Y-to.Y)}
				sp.Segments = append(sp.Segments, Segment{Curve: true, C1: at(c1), C2: at(c2), To: at(to)})
				last = to
			case 'C':
				sp.Segments = append(sp.Segments, Segment{Curve: true, C1: at(p[0]), C2: at(p[1]), To: at(p[2])})
				last = p[2]
			}
		})
		flush()
		if r >= 32 && r < 127 {
			u += f.ascii[r]
		} else {
			u += f.measure(&b, r)
		}
	}
	return out
}
