package picture

import (
	"math"
	"strconv"

	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/label"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Sizes of a dimension, mm.
const (
	dimClear  = 2.0 // from the pipe to its extension line
	dimBeyond = 1.1 // of the extension line past the dimension line
	dimArrow  = 2.0
	dimText   = 0.9 // between dimension line and text
)

// dimFar are the distances from the pipe that are tried for a dimension line.
var dimFar = []float64{7, 9.5, 12, 15, 19, 24}

// Number prints a whole number.
func Number(n int) string { return strconv.Itoa(n) }

// mark is a display point a dimension is taken from, and how far its extension line keeps off.
type mark struct {
	at    graph.Vec
	clear float64
	node  int // number of the place, from 1; 0: none
}

// key is that of the extension lines that leave a place one way: they may lie on each other.
func (m mark) key(way int) int {
	if m.node == 0 {
		return 0
	}
	return m.node*6 + way
}

// dimension is one length between two marks on a line parallel to an axis.
type dimension struct {
	a, b mark
	text string
	of   string  // what it is the length of, in words; "": of several
	em   float64 // of the text
}

// mark is that of a real point: clear of the sign of a part in line.
func (p *Picture) mark(place graph.Vec) mark {
	k := mark{at: p.Sp.Show(place), clear: dimClear, node: 1 + p.nodeOf(place)}
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil && (m.A.Sub(place).Len() < space.SameLevel || m.B.Sub(place).Len() < space.SameLevel) {
			s, _ := p.D.Sign(m.Part)
			k.clear = math.Max(k.clear, s.Box.H()/2+0.9)
		}
	}
	return k
}

// nodeOf numbers the real places of the members' ends.
func (p *Picture) nodeOf(place graph.Vec) int {
	for i, n := range p.nodes {
		if n.Sub(place).Len() < 2*space.SameLevel {
			return i
		}
	}
	p.nodes = append(p.nodes, place)
	return len(p.nodes) - 1
}

// wantRow asks for places for dimensions that follow each other on one straight line, all on
// one dimension line. A row may be left out where there is no room.
func (p *Picture) wantRow(row []dimension, leaveOut bool) {
	p.requests = append(p.requests, p.rowRequest(row, leaveOut))
}

func (p *Picture) rowRequest(row []dimension, leaveOut bool) request {
	for i := range row {
		row[i].em = members.DimEm * math.Max(1, p.D.Zoom)
	}
	r := request{name: "length " + row[0].text}
	if len(row) == 1 && !leaveOut {
		r.words = "length " + row[0].text + row[0].of
		for _, share := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			r.again = append(r.again, callout{at: space.Along(space.Project(row[0].a.at), space.Project(row[0].b.at), share), clear: 0.6, name: "length",
				lines: []line{{row[0].text, sheet.LeastEm * math.Max(1, p.D.Zoom), false}}}.anywhere()...)
		}
	}
	if len(row) > 1 {
		for i := range row {
			r.split = append(r.split, func() request { return p.rowRequest(row[i:i+1], false) })
		}
	}
	if leaveOut {
		r.rank = 5
	}
	if leaveOut {
		r.first = func() []candidate { return append(p.rowSpots(row, dimFar[2:], 0.5), nothing()) }
		return r
	}
	r.first = func() []candidate { return p.rowSpots(row, dimFar[:3], 0.5) }
	r.later = append(r.later, func() []candidate { return p.rowSpots(row, dimFar[3:], 0.5) })
	if len(row) == 1 {
		r.last = func() []candidate {
			return append(p.rowSpots(row, dimFar, 0.5), row[0].onPipe()...)
		}
		r.later = append(r.later, func() []candidate {
			return append(p.rowSpots(row, dimFar, 0.34), p.rowSpots(row, dimFar, 0.66)...)
		}, row[0].onPipe)
	}
	return r
}

// rowSpots are the spots of a row at some distances, its texts at the share t of their
// lines.
func (p *Picture) rowSpots(row []dimension, fars []float64, t float64) []candidate {
	var out []candidate
	first, last := row[0], row[len(row)-1]
	way := last.b.at.Sub(first.a.at)
	middle := p.Frame().Centre()
	for ax := space.Axis(0); ax < 3; ax++ {
		if math.Abs(ax.Of(way)) > 0.5*way.Len() {
			continue
		}
		for side, sign := range []float64{1, -1} {
			v := space.Times(sign, space.Project(ax.Unit()))
			inward := 0.0
			if space.Dot(v, space.Sub(middle, space.Along(space.Project(first.a.at), space.Project(last.b.at), 0.5))) > 0 {
				inward = 2.5
			}
			for _, far := range fars {
				cost := 1.2*(far-dimFar[0]) + inward + 8*math.Abs(t-0.5)
				out = p.rowAt(out, row, v, 2*int(ax)+side, far, t, cost)
			}
		}
	}
	return out
}

// rowAt adds one place of a row, unless something fixed is there: its line at a distance far
// along v from the pipe.
func (p *Picture) rowAt(out []candidate, row []dimension, v scene.Point, way int, far, t, cost float64) []candidate {
	place := label.Spot{Cost: cost}
	for _, d := range row {
		if !d.holdsText(t) || !d.cover(&place, p.board, v, way, far, t) {
			return out
		}
	}
	return append(out, candidate{place, func() []scene.Item {
		var out []scene.Item
		for _, d := range row {
			out = append(out, d.Draw(v, far, t)...)
		}
		return out
	}})
}

// onPipeCost makes a length that stands on the pipe itself the last resort.
const onPipeCost = 60

// onPipe are the places of a length's text right beside the pipe, where there is no room for
// a dimension line.
func (d *dimension) onPipe() []candidate {
	var out []candidate
	a, b := space.Project(d.a.at), space.Project(d.b.at)
	for ax := space.Axis(0); ax < 3; ax++ {
		if math.Abs(ax.Of(d.b.at.Sub(d.a.at))) > 0.5*d.b.at.Sub(d.a.at).Len() {
			continue
		}
		for _, sign := range []float64{1, -1} {
			v := space.Times(sign, space.Project(ax.Unit()))
			for i, t := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8} {
				far := 1.2
				mid, pl, w, high := d.textAt(v, far, t)
				if space.Dot(pl.Up, v) < 0 && !upright(a, b) { // the text would stand on the pipe
					mid = space.Add(space.Along(a, b, t), space.Times(far+high/2+0.3, v))
				}
				parts := space.Slab(mid, space.Times(w/2+0.4, pl.Along), space.Times(high/2+0.25, pl.Up))
				text := pl.Lay(scene.Text{At: mid, Text: d.text, SizeMM: d.em, Anchor: scene.Centre, Middle: true, Name: "label:length"})
				out = append(out, candidate{label.Spot{Cost: onPipeCost + float64(i), Parts: parts},
					func() []scene.Item { return []scene.Item{text} }})
			}
		}
	}
	return out
}

// holdsText reports whether a length's text, its middle a share t of the way along, goes between
// its own extension lines.
func (d *dimension) holdsText(t float64) bool {
	a, b := space.Project(d.a.at), space.Project(d.b.at)
	return upright(a, b) || scene.TextWidth(d.text, d.em, false)/2+1 <= math.Min(t, 1-t)*space.Length(space.Sub(b, a))
}

// cover adds what a dimension covers, or says false where that is something fixed. Extension
// lines from one place that go one way may lie on each other.
func (d *dimension) cover(place *label.Spot, on *label.Board, v scene.Point, way int, far, t float64) bool {
	const air = 0.22
	a, b := space.Project(d.a.at), space.Project(d.b.at)
	beyond := space.Times(far+dimBeyond, v)
	put := func(key int, boxes []scene.Box) bool {
		if !on.Clear(boxes) {
			return false
		}
		place.Parts = append(place.Parts, boxes...)
		for range boxes {
			place.Keys = append(place.Keys, key)
		}
		return true
	}
	mid, pl, w, high := d.textAt(v, far, t)
	return put(0, space.Slab(mid, space.Times(w/2+0.9, pl.Along), space.Times(high/2+0.5, pl.Up))) &&
		put(d.a.key(way), space.Strip(space.Add(a, space.Times(d.a.clear, v)), space.Add(a, beyond), air)) &&
		put(d.b.key(way), space.Strip(space.Add(b, space.Times(d.b.clear, v)), space.Add(b, beyond), air)) &&
		put(0, space.Strip(space.Add(a, space.Times(far, v)), space.Add(b, space.Times(far, v)), air+0.1))
}

// textAt is the middle of a dimension's text, its plane, width and height along the plane's
// up. Beside an upright line it stands level: turned, "79" is read as "6L" (ISO 129-1 has both,
// from memory).
func (d *dimension) textAt(v scene.Point, far, t float64) (mid scene.Point, pl space.Plane, w, high float64) {
	a, b := space.Add(space.Project(d.a.at), space.Times(far, v)), space.Add(space.Project(d.b.at), space.Times(far, v))
	w = scene.TextWidth(d.text, d.em, false)
	if upright(a, b) {
		return space.Add(space.Along(a, b, t), scene.Point{X: math.Copysign(dimText+w/2, v.X)}), level, w, 0.729 * d.em
	}
	pl = space.Readable(space.Unit(space.Sub(b, a)), v)
	lean := math.Abs(space.Cross(pl.Along, pl.Up))
	high = 0.729 * d.em / lean
	mid = space.Add(space.Along(a, b, t), space.Times(dimText/lean+high/2, pl.Up))
	return mid, pl, w, high
}

// level is the lie of a text that is read from below.
var level = space.Plane{Along: scene.Point{X: 1}, Up: scene.Point{Y: -1}}

// upright reports whether a line runs straight up the page.
func upright(a, b scene.Point) bool { return math.Abs(a.X-b.X) < 1e-6 }

// Draw paints the dimension with its text a share of the way along.
func (d *dimension) Draw(v scene.Point, far, t float64) []scene.Item {
	st := scene.Stroke(penDim)
	a, b := space.Project(d.a.at), space.Project(d.b.at)
	u := space.Unit(space.Sub(b, a))
	arrow := math.Min(dimArrow, 0.3*space.Length(space.Sub(b, a)))
	beyond := space.Times(far+dimBeyond, v)
	a1, b1 := space.Add(a, space.Times(far, v)), space.Add(b, space.Times(far, v))
	mid, pl, _, _ := d.textAt(v, far, t)
	return []scene.Item{
		scene.Line(space.Add(a, space.Times(d.a.clear, v)), space.Add(a, beyond), st).Named("extension"),
		scene.Line(space.Add(b, space.Times(d.b.clear, v)), space.Add(b, beyond), st).Named("extension"),
		scene.Line(a1, b1, st).Named("dimension"),
		skewArrow(a1, space.Times(-1, u), v, arrow).Named("dimension"), skewArrow(b1, u, v, arrow).Named("dimension"),
		pl.Lay(scene.Text{At: mid, Text: d.text, SizeMM: d.em, Anchor: scene.Centre, Middle: true, Name: "label:length"}),
	}
}

// skewArrow is a slim arrowhead that lies in the plane of u and v.
func skewArrow(tip, u, v scene.Point, l float64) scene.Shape {
	back := space.Sub(tip, space.Times(l, u))
	return scene.Polygon([]scene.Point{tip, space.Add(back, space.Times(0.19*l, v)), space.Sub(back, space.Times(0.19*l, v))}, scene.Filled(0))
}
