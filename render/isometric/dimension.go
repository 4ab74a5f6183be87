package isometric

import (
	"math"
	"strconv"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/schematic/label"
)

// Sizes of a dimension, mm.
const (
	dimClear  = 1.7 // from the pipe to its extension line
	dimBeyond = 1.1 // of the extension line past the dimension line
	dimArrow  = 2.0
	dimText   = 0.6 // between dimension line and text
)

// dimFar are the distances from the pipe that are tried for a dimension line.
var dimFar = []float64{7, 9.5, 12, 15, 19, 24}

func number(n int) string { return strconv.Itoa(n) }

// wantDimensions asks for places for the lengths: of every new leg from centre to centre, of
// old pipe from the new tee to the next bend or part.
func (p *picture) wantDimensions() {
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil || m.stub || !(m.isNew || p.d.oldAll || p.d.reachesNew(m)) {
			continue
		}
		way := m.way()
		if len(axesOf(way)) == 1 && m.cutA == "" && m.cutB == "" {
			p.wantDimension(p.a[i], p.b[i], p.d.lengthText(way.Len()), 0)
		} else if m.cutA != "" || m.cutB != "" {
			p.wantDimension(p.a[i], p.b[i], p.d.lengthText(p.d.wholeLength(m))+" in all", 0)
		}
	}
	p.wantStrings()
}

// wholeLength is the length of the leg a member is part of, mm.
func (d *drawing) wholeLength(m *member) float64 {
	pts := d.lay.Paths[m.path].Points
	return pts[m.leg+1].Sub(pts[m.leg]).Len()
}

// reachesNew reports whether an old leg ends at a new part.
func (d *drawing) reachesNew(m *member) bool {
	n := len(d.lay.Paths[m.path].Points)
	from, to := d.parts[m.run.From.Part], d.parts[m.run.To.Part]
	return (m.leg == 0 && from != nil && from.New()) || (m.leg == n-2 && to != nil && to.New())
}

// wantDimension asks for a place for one dimension between two display points on a line
// parallel to an axis. A dimension that may be left out has a cost for that; 0: it must stand.
func (p *picture) wantDimension(a, b graph.Vec, text string, leaveOut float64) {
	way := b.Sub(a)
	pa, pb := project(a), project(b)
	u := unit(sub(pb, pa))
	r := request{rank: 0}
	if leaveOut > 0 {
		r.rank = 5
	}
	middle := p.frame().Centre()
	for ax := axis(0); ax < 3; ax++ {
		if math.Abs(ax.of(way)) > 0.5*way.Len() {
			continue
		}
		for _, sign := range []float64{1, -1} {
			v := times(sign, project(ax.unit()))
			inward := 0.0
			if dot(v, sub(middle, along(pa, pb, 0.5))) > 0 {
				inward = 2.5
			}
			for k, far := range dimFar {
				if leaveOut > 0 && k < 2 {
					continue
				}
				for _, t := range []float64{0.5, 0.34, 0.66} {
					cost := 3*float64(k) + inward + 4*math.Abs(t-0.5)
					r.places = append(r.places, p.dimensionAt(pa, pb, u, v, far, t, text, cost))
				}
			}
		}
	}
	if leaveOut > 0 {
		r.places = append(r.places, candidate{label.Place{Cost: leaveOut, Parts: []scene.Box{}}, func() []scene.Item { return nil }})
	}
	p.requests = append(p.requests, r)
}

// dimensionAt is one place of a dimension: the line at a distance far along v from the pipe.
func (p *picture) dimensionAt(a, b, u, v scene.Point, far, t float64, text string, cost float64) candidate {
	a0, b0 := add(a, times(dimClear, v)), add(b, times(dimClear, v))
	a1, b1 := add(a, times(far, v)), add(b, times(far, v))
	a2, b2 := add(a1, times(dimBeyond, v)), add(b1, times(dimBeyond, v))
	pl := readable(u, v)
	lean := math.Abs(cross(pl.along, pl.up))
	high := 0.729 * dimEm / lean // of capitals, along up
	mid := add(along(a1, b1, t), times(dimText/lean+high/2, pl.up))
	w := scene.TextWidth(text, dimEm, false)
	const air = 0.22
	parts := strip(a0, a2, air)
	parts = append(parts, strip(b0, b2, air)...)
	parts = append(parts, strip(a1, b1, air+0.15)...)
	parts = append(parts, slab(mid, times(w/2+0.5, pl.along), times(high/2+0.3, pl.up))...)
	return candidate{label.Place{Box: unionOf(parts), Cost: cost, Parts: parts}, func() []scene.Item {
		st := scene.Stroke(penDim)
		arrow := math.Min(dimArrow, 0.3*length(sub(b, a)))
		return []scene.Item{
			scene.Line(a0, a2, st).Tagged("extension"), scene.Line(b0, b2, st).Tagged("extension"),
			scene.Line(a1, b1, st).Tagged("dimension"),
			skewArrow(a1, times(-1, u), v, arrow).Tagged("dimension"), skewArrow(b1, u, v, arrow).Tagged("dimension"),
			pl.lay(scene.Text{At: mid, Text: text, SizeMM: dimEm, Anchor: scene.Centre, Middle: true, Tag: "label:length"}),
		}
	}}
}

// skewArrow is a slim arrowhead that lies in the plane of u and v.
func skewArrow(tip, u, v scene.Point, l float64) scene.Shape {
	back := sub(tip, times(l, u))
	return scene.Polygon([]scene.Point{tip, add(back, times(0.19*l, v)), sub(back, times(0.19*l, v))}, scene.Filled(0))
}

// wantStrings asks for places for the lengths over lines that parts in line break up: from
// the first centre to the last. They repeat what the single lengths say, so one that finds no
// room is left out.
func (p *picture) wantStrings() {
	for _, s := range p.strings() {
		if s.bodies > 0 && s.legs > 1 {
			p.wantDimension(p.sp.show(s.a), p.sp.show(s.b), p.d.lengthText(s.b.Sub(s.a).Len()), 500)
		}
	}
}

// chain is a straight line of new legs and parts in line between two centres.
type chain struct {
	a, b         graph.Vec
	legs, bodies int
}

// strings gathers the chains along the axes, each begun at a leg that no other comes before.
func (p *picture) strings() []chain {
	used := make([]bool, len(p.ms))
	var out []chain
	for i := range p.ms {
		m := &p.ms[i]
		if used[i] || m.run == nil || !m.isNew || m.cutA != "" || m.cutB != "" || len(axesOf(m.way())) != 1 {
			continue
		}
		used[i] = true
		c := chain{a: m.a, b: m.b, legs: 1}
		for grown := true; grown; {
			grown = false
			for k := range p.ms {
				n := &p.ms[k]
				if used[k] || !n.isNew || n.cutA != "" || n.cutB != "" || math.Abs(n.way().Unit().Dot(m.way().Unit())) < 0.999 {
					continue
				}
				switch same := 2 * sameLevel; {
				case n.a.Sub(c.b).Len() < same && p.straightOn(c.b, n):
					c.b = n.b
				case n.b.Sub(c.b).Len() < same && p.straightOn(c.b, n):
					c.b = n.a
				case n.b.Sub(c.a).Len() < same && p.straightOn(c.a, n):
					c.a = n.a
				case n.a.Sub(c.a).Len() < same && p.straightOn(c.a, n):
					c.a = n.b
				default:
					continue
				}
				used[k], grown = true, true
				if n.run == nil {
					c.bodies++
				} else {
					c.legs++
				}
			}
		}
		out = append(out, c)
	}
	return out
}

// straightOn reports whether a chain goes on through a point: not at a tee's centre.
func (p *picture) straightOn(at graph.Vec, _ *member) bool {
	n := 0
	for i := range p.ms {
		if p.ms[i].a.Sub(at).Len() < 2*sameLevel || p.ms[i].b.Sub(at).Len() < 2*sameLevel {
			n++
		}
	}
	return n <= 2
}
