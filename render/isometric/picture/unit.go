package picture

import (
	"math"

	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/tag"
)

// Size of a unit's box on display, mm.
const (
	unitDeep  = 17.0
	unitRound = 8.0
)

// paintUnits draws each heat pump as a box its pipes run to.
func (p *Picture) paintUnits() {
	for _, part := range p.D.C.Parts {
		if part.Kind != graph.HeatPump {
			continue
		}
		var ends []ending
		for _, e := range p.endings() {
			if e.part == part {
				ends = append(ends, e)
			}
		}
		if len(ends) > 0 {
			p.paintUnit(part, ends)
		}
	}
}

// paintUnit draws the box behind the ends of the pipes, as deep as they reach, if they all
// run one way.
func (p *Picture) paintUnit(part *graph.Part, ends []ending) {
	way := ends[0].out.Unit()
	lo := graph.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := lo.Scale(-1)
	for _, e := range ends {
		if e.out.Unit().Dot(way) < 0.99 || len(space.AxesOf(e.out)) != 1 {
			p.wantTag(part, e.at, 2.3)
			return
		}
		at := p.endOf(e.i, e.far).show
		lo = graph.Vec{X: math.Min(lo.X, at.X), Y: math.Min(lo.Y, at.Y), Z: math.Min(lo.Z, at.Z)}
		hi = graph.Vec{X: math.Max(hi.X, at.X), Y: math.Max(hi.Y, at.Y), Z: math.Max(hi.Z, at.Z)}
	}
	k := space.AxesOf(ends[0].out)[0]
	face := math.Inf(-1)
	for _, e := range ends {
		face = math.Max(face, p.endOf(e.i, e.far).show.Dot(way))
	}
	for a := space.Axis(0); a < 3; a++ {
		if a == k {
			continue
		}
		lo, hi = lo.Sub(a.Unit().Scale(unitRound)), hi.Add(a.Unit().Scale(unitRound))
	}
	lo = lo.Sub(k.Unit().Scale(k.Of(lo))).Add(k.Unit().Scale(math.Min(face*k.Of(way), face*k.Of(way)+unitDeep*k.Of(way))))
	hi = hi.Sub(k.Unit().Scale(k.Of(hi))).Add(k.Unit().Scale(math.Max(face*k.Of(way), face*k.Of(way)+unitDeep*k.Of(way))))
	for _, s := range cuboid(lo, hi) {
		p.block(0.4, s.Named("symbol:"+part.ID))
	}
	for _, e := range ends { // up to the box
		at := p.endOf(e.i, e.far).show
		if short := face - at.Dot(way); short > 0.5 {
			p.block(0.4, scene.Line(space.Project(at), space.Project(at.Add(way.Scale(short))), scene.Dashed(PenOld, 1.6, 0.9)).Named("unit-pipe"))
		}
	}
	lines := []line{{p.D.Names.Short(part.ID), members.TagEm, true}}
	for _, e := range ends {
		lines = append(lines, line{tag.PortWord(e.ref.Port) + " " + p.D.LevelText(p.D.Lay.Positions[e.ref.String()].Z), members.TextEm, false})
	}
	p.wantUnitName(part, lines, lo, hi)
}

// wantUnitName asks for a spot for a unit's name: in its box, else close round it.
func (p *Picture) wantUnitName(part *graph.Part, lines []line, lo, hi graph.Vec) {
	c := callout{lines: lines, name: "part:" + part.ID}
	if z := p.D.Zoom; z > 1 {
		c.zoom(z)
	}
	w, h := c.size()
	box := scene.Empty()
	for _, s := range cuboid(lo, hi) {
		box = box.Union(scene.Bounds(s))
	}
	r := request{name: c.name, words: c.words(), rank: 1}
	c.at = box.Centre()
	r.again = c.anywhere()
	r.first = func() (out []candidate) {
		for _, far := range []float64{0, 0.25, 0.5, 0.75} {
			for k := range 16 {
				sin, cos := math.Sincos(2 * math.Pi * float64(k) / 16)
				at := space.Add(box.Centre(), scene.Point{X: far * cos * box.W() / 2, Y: -far * sin * box.H() / 2})
				out = p.calloutAt(out, &c, at, scene.Point{X: 1}, w, h, far)
			}
		}
		for k := 0; k <= 8; k++ {
			t := float64(k) / 8
			x, y := box.MinX+t*box.W(), box.MinY+t*box.H()
			for _, at := range []scene.Point{{X: x, Y: box.MinY - h/2 - 0.8}, {X: x, Y: box.MaxY + h/2 + 0.8}, {X: box.MaxX + w/2 + 0.8, Y: y}, {X: box.MinX - w/2 - 0.8, Y: y}} {
				out = p.calloutAt(out, &c, at, scene.Point{X: 1}, w, h, 4+math.Abs(t-0.5))
			}
		}
		return out
	}
	p.requests = append(p.requests, r)
}

// cuboid is the visible edges of a box: seen from the front, left and above.
func cuboid(lo, hi graph.Vec) []scene.Shape {
	c := func(x, y, z int) scene.Point {
		v := lo
		if x == 1 {
			v.X = hi.X
		}
		if y == 1 {
			v.Y = hi.Y
		}
		if z == 1 {
			v.Z = hi.Z
		}
		return space.Project(v)
	}
	st := scene.Stroke(members.PenOldSign)
	hull := scene.Polygon([]scene.Point{c(0, 0, 0), c(1, 0, 0), c(1, 0, 1), c(1, 1, 1), c(0, 1, 1), c(0, 1, 0)}, scene.Outline(members.PenOldSign))
	near := c(0, 0, 1)
	return []scene.Shape{hull, scene.Line(near, c(0, 0, 0), st), scene.Line(near, c(1, 0, 1), st), scene.Line(near, c(0, 1, 1), st)}
}
