package isometric

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// stubMM is the length of a stub, mm.
const stubMM = 9.0

// paintStubs draws a stub with a name where a run that is not drawn joins a part that is.
func (p *picture) paintStubs() {
	drawn := map[*graph.Run]bool{}
	for i := range p.d.lay.Paths {
		if path := &p.d.lay.Paths[i]; p.d.draws(path) {
			drawn[path.Run] = true
		}
	}
	for i := range p.d.lay.Paths {
		path := &p.d.lay.Paths[i]
		if drawn[path.Run] || (path.Run.HasLength && path.Run.LengthMM == 0 && len(path.Run.Legs) == 0) {
			continue
		}
		for _, far := range []bool{false, true} {
			ref := path.Run.From
			if far {
				ref = path.Run.To
			}
			if at, out, ok := p.openEnd(path, ref, far); ok {
				p.paintStub(path, ref, at, out)
			}
		}
	}
}

// openEnd is the display point of a port that drawn parts have and the way a stub leaves it.
func (p *picture) openEnd(path *route.Path, ref graph.PortRef, far bool) (at, out graph.Vec, ok bool) {
	place, located := p.d.lay.Places[ref.String()]
	part := p.d.parts[ref.Part]
	if !located || part == nil {
		return at, out, false
	}
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil && m.part == part {
			for _, atB := range []bool{false, true} {
				if end := p.endOf(i, atB); end.real.Sub(place).Len() < sameLevel {
					return end.show, end.show.Sub(p.endOf(i, !atB).show), true
				}
			}
		}
	}
	if part.Kind != graph.Tee || !path.Located || len(path.Points) < 2 {
		return at, out, false
	}
	way := path.Points[1].Sub(path.Points[0])
	if n := len(path.Points); far {
		way = path.Points[n-2].Sub(path.Points[n-1])
	}
	for i := range p.ms {
		for _, atB := range []bool{false, true} {
			if end := p.endOf(i, atB); end.real.Sub(place).Len() < sameLevel {
				return end.show, way, true
			}
		}
	}
	return at, out, false
}

type memberEnd struct{ real, show graph.Vec }

func (p *picture) endOf(i int, atB bool) memberEnd {
	if atB {
		return memberEnd{p.ms[i].b, p.b[i]}
	}
	return memberEnd{p.ms[i].a, p.a[i]}
}

// paintStub draws a stub: thin, and for new hose or pipe thick, with a break at its end.
func (p *picture) paintStub(path *route.Path, ref graph.PortRef, at, out graph.Vec) {
	u := unit(project(out))
	a := project(at)
	b := add(a, times(p.stubLength(a, u), u))
	pen := penOld
	if path.Run.New() {
		pen = penNew
	}
	v := project(across(out).unit())
	p.block(blockPipe, scene.Line(a, b, scene.Stroke(pen)).Tagged("stub:"+path.Run.ID))
	p.block(0.3, breakMark(b, u, v).Tagged("break"))
	p.used(signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 3}, scene.Stroke(penOld)),
		breakMark(scene.Point{X: 3}, scene.Point{X: 1}, scene.Point{Y: -1})), "goes on, not drawn")
	p.wantCallout(callout{at: b, clear: 2, lines: p.d.stubText(path, path.Run.Other(ref)), tag: "stub:" + path.Run.ID, rank: 3,
		always: path.Run.New(), far: []float64{0.2, 1.2, 2.4, 4, 6, 9, 13}})
}

// stubLength is as long as a stub can be without running into anything.
func (p *picture) stubLength(a, u scene.Point) float64 {
	for l := stubMM; l > 4; l-- {
		free := true
		for _, b := range strip(add(a, times(2, u)), add(a, times(l+2, u)), 1) {
			for i := range p.fixed {
				free = free && !b.Overlaps(p.fixed[i])
			}
		}
		if free {
			return l
		}
	}
	return 4
}

// breakMark is an S across the end of a pipe.
func breakMark(at, u, v scene.Point) scene.Shape {
	const h, w = 2.0, 1.6
	return scene.Shape{Style: scene.Stroke(sheet.Fine), Paths: []scene.SubPath{{Start: add(at, times(h, v)), Segments: []scene.Segment{
		{Curve: true, C1: add(at, add(times(h, v), times(w, u))), C2: add(at, times(w, u)), To: at},
		{Curve: true, C1: sub(at, times(w, u)), C2: sub(at, add(times(h, v), times(w, u))), To: sub(at, times(h, v))},
	}}}}
}

// stubText says which run goes on and where to, and of new work its piece.
func (d *drawing) stubText(path *route.Path, to graph.PortRef) []line {
	name := "to " + d.portName(to)
	var out []line
	if path.Run.New() {
		for _, n := range path.Pieces {
			q := &d.lay.Pieces[n]
			out = append(out, line{fmt.Sprintf("piece %d, %s %s", q.Number, pipeText(pipeOf{q.Spec, q.Size}),
				quantity.Format(q.CutMM, quantity.Length, d.in.Units)), textEm, false})
		}
	}
	return append([]line{{sheet.Fit(name, textEm, 45, false), textEm, false}}, out...)
}

// paintMatches draws the match lines at which pipe goes on to another sheet.
func (p *picture) paintMatches() {
	for i := range p.ms {
		m := &p.ms[i]
		for _, far := range []bool{false, true} {
			name := m.cutA
			if far {
				name = m.cutB
			}
			if name == "" {
				continue
			}
			end, way := p.a[i], p.a[i].Sub(p.b[i])
			if far {
				end, way = p.b[i], p.b[i].Sub(p.a[i])
			}
			at, v := project(end), times(5, project(across(way).unit()))
			p.block(0.3, scene.Line(sub(at, v), add(at, v), scene.Dashed(penNewSign, 3, 0.8, 0.6, 0.8)).Tagged("match:"+name))
			p.wantCallout(callout{at: at, clear: 1.2, lines: []line{{"match " + name, tagEm, true}}, tag: "match:" + name, rank: 0,
				far: []float64{0.4, 1.5, 3, 5, 8, 12}})
		}
	}
}
