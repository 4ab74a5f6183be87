package isometric

import (
	"math"

	"dryfit/graph"
	"dryfit/render/scene"
)

// Size of a unit's box on display, mm.
const (
	unitDeep  = 12.0
	unitRound = 5.0
)

// paintUnits draws each heat pump as a box its pipes run to.
func (p *picture) paintUnits() {
	for _, part := range p.d.c.Parts {
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
func (p *picture) paintUnit(part *graph.Part, ends []ending) {
	way := ends[0].out.Unit()
	lo := graph.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}
	hi := lo.Scale(-1)
	for _, e := range ends {
		if e.out.Unit().Dot(way) < 0.99 || len(axesOf(e.out)) != 1 {
			p.wantTag(part, e.at, 2.3)
			return
		}
		at := p.endOf(e.i, e.far).show
		lo = graph.Vec{X: math.Min(lo.X, at.X), Y: math.Min(lo.Y, at.Y), Z: math.Min(lo.Z, at.Z)}
		hi = graph.Vec{X: math.Max(hi.X, at.X), Y: math.Max(hi.Y, at.Y), Z: math.Max(hi.Z, at.Z)}
	}
	k := axesOf(ends[0].out)[0]
	face := math.Inf(-1)
	for _, e := range ends {
		face = math.Max(face, p.endOf(e.i, e.far).show.Dot(way))
	}
	for a := axis(0); a < 3; a++ {
		if a == k {
			continue
		}
		lo, hi = lo.Sub(a.unit().Scale(unitRound)), hi.Add(a.unit().Scale(unitRound))
	}
	lo = lo.Sub(k.unit().Scale(k.of(lo))).Add(k.unit().Scale(math.Min(face*k.of(way), face*k.of(way)+unitDeep*k.of(way))))
	hi = hi.Sub(k.unit().Scale(k.of(hi))).Add(k.unit().Scale(math.Max(face*k.of(way), face*k.of(way)+unitDeep*k.of(way))))
	for _, s := range cuboid(lo, hi) {
		p.block(0.4, s.Tagged("symbol:"+part.ID))
	}
	for _, e := range ends { // up to the box
		at := p.endOf(e.i, e.far).show
		if short := face - at.Dot(way); short > 0.5 {
			p.block(0.4, scene.Line(project(at), project(at.Add(way.Scale(short))), scene.Dashed(penOld, 1.6, 0.9)).Tagged("unit-pipe"))
		}
	}
	centre := project(lo.Add(hi).Scale(0.5))
	tag, rest := p.d.name(part.ID)
	lines := []line{{tag, tagEm, true}}
	if rest != "" {
		lines = append(lines, line{rest, textEm, false})
	}
	p.wantCallout(callout{at: centre, clear: 0, lines: lines, tag: "part:" + part.ID, rank: 1, far: []float64{0.5, 2, 4, 7, 10, 14, 18, 22, 26, 30}})
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
		return project(v)
	}
	st := scene.Stroke(penOldSign)
	hull := scene.Polygon([]scene.Point{c(0, 0, 0), c(1, 0, 0), c(1, 0, 1), c(1, 1, 1), c(0, 1, 1), c(0, 1, 0)}, scene.Outline(penOldSign))
	near := c(0, 0, 1)
	return []scene.Shape{hull, scene.Line(near, c(0, 0, 0), st), scene.Line(near, c(1, 0, 1), st), scene.Line(near, c(0, 1, 1), st)}
}
