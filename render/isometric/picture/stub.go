package picture

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// stubMM is the length of a stub, mm.
const stubMM = 9.0

// paintStubs draws a stub with a name where a run that is not drawn joins a part that is.
func (p *Picture) paintStubs() {
	drawn := map[*graph.Run]bool{}
	for i := range p.D.Lay.Paths {
		if path := &p.D.Lay.Paths[i]; p.D.Draws(path) {
			drawn[path.Run] = true
		}
	}
	for i := range p.D.Lay.Paths {
		path := &p.D.Lay.Paths[i]
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

// paintBroken draws a stub where the rest of a run is not drawn.
func (p *Picture) paintBroken() {
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil {
			continue
		}
		path := &p.D.Lay.Paths[m.Path]
		last := len(path.Points) - 2
		if m.CutA == "" && m.Leg > 0 && !p.D.Shows(path, m.Leg-1) {
			p.paintStub(path, m.Run.To, p.A[i], path.Points[m.Leg-1].Sub(path.Points[m.Leg]))
		}
		if m.CutB == "" && m.Last < last && !p.D.Shows(path, m.Last+1) {
			p.paintStub(path, m.Run.From, p.B[i], path.Points[m.Last+2].Sub(path.Points[m.Last+1]))
		}
	}
}

// openEnd is the display point of a port that drawn parts have and the way a stub leaves it.
func (p *Picture) openEnd(path *route.Path, ref graph.PortRef, far bool) (at, out graph.Vec, ok bool) {
	place, located := p.D.Lay.Positions[ref.String()]
	part := p.D.Parts[ref.Part]
	if !located || part == nil {
		return at, out, false
	}
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil && m.Part == part {
			for _, atB := range []bool{false, true} {
				if end := p.endOf(i, atB); end.real.Sub(place).Len() < space.SameLevel {
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
	for i := range p.Ms {
		for _, atB := range []bool{false, true} {
			if end := p.endOf(i, atB); end.real.Sub(place).Len() < space.SameLevel {
				return end.show, way, true
			}
		}
	}
	return at, out, false
}

type memberEnd struct{ real, show graph.Vec }

func (p *Picture) endOf(i int, atB bool) memberEnd {
	if atB {
		return memberEnd{p.Ms[i].B, p.B[i]}
	}
	return memberEnd{p.Ms[i].A, p.A[i]}
}

// paintStub draws a stub: thin, and for new hose or pipe thick, with a break at its end.
func (p *Picture) paintStub(path *route.Path, ref graph.PortRef, at, out graph.Vec) {
	u := space.Unit(space.Project(out))
	a := space.Project(at)
	b := space.Add(a, space.Times(p.stubLength(a, u), u))
	pen := PenOld
	if path.Run.New() {
		pen = PenNew
	}
	v := bars(out, u)
	p.block(blockPipe, scene.Line(a, b, scene.Stroke(pen)).Named("stub:"+path.Run.ID))
	p.block(0.3, breakMark(b, u, v).Named("break"))
	p.used(signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 3}, scene.Stroke(PenOld)),
		breakMark(scene.Point{X: 3}, scene.Point{X: 1}, scene.Point{Y: -1})), "goes on, not drawn")
	p.wantCallout(callout{at: b, clear: 2, lines: p.stubText(path, path.Run.Other(ref), ref), name: "stub:" + path.Run.ID, rank: 3,
		always: path.Run.New(), far: []float64{0.2, 1.2, 2.4, 4, 6, 9, 13}})
	pieces := p.stubPieces(path, ref)
	for i, q := range pieces {
		p.wantPiece(q, space.Along(a, b, (float64(i)+0.5)/float64(len(pieces))))
	}
}

// stubLength is as long as a stub can be without running into anything.
func (p *Picture) stubLength(a, u scene.Point) float64 {
	for l := stubMM; l > 4; l-- {
		free := true
		for _, b := range space.Strip(space.Add(a, space.Times(2, u)), space.Add(a, space.Times(l+2, u)), 1) {
			for i := range p.Fixed {
				free = free && !b.Overlaps(p.Fixed[i])
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
	return scene.Shape{Style: scene.Stroke(sheet.Fine), Paths: []scene.SubPath{{Start: space.Add(at, space.Times(h, v)), Segments: []scene.Segment{
		{Curve: true, C1: space.Add(at, space.Add(space.Times(h, v), space.Times(w, u))), C2: space.Add(at, space.Times(w, u)), To: at},
		{Curve: true, C1: space.Sub(at, space.Times(w, u)), C2: space.Sub(at, space.Add(space.Times(h, v), space.Times(w, u))), To: space.Sub(at, space.Times(h, v))},
	}}}}
}

// stubPieces are the pieces of new pipe or hose that goes on from a stub, the nearest first.
func (p *Picture) stubPieces(path *route.Path, from graph.PortRef) []*route.Piece {
	if !path.Run.New() {
		return nil
	}
	var out []*route.Piece
	for _, n := range path.Pieces {
		out = append(out, &p.D.Lay.Pieces[n])
	}
	if from.Same(path.Run.To) {
		slices.Reverse(out)
	}
	return out
}

// stubText says which run goes on and where to, and of new work what it is, how long it is cut
// and between which joints; several pieces by their numbers.
func (p *Picture) stubText(path *route.Path, to, from graph.PortRef) []line {
	out := p.portLines("to ", to)
	pieces := p.stubPieces(path, from)
	for _, q := range pieces {
		text := members.PipeText(members.PipeOf{Spec: q.Spec, Size: q.Size}) + " " + quantity.Format(q.CutMM, quantity.Length, p.D.In.Units)
		if len(pieces) > 1 {
			text = "piece " + Number(q.Number) + ", " + text
		}
		if q.OverMM > 0 {
			text += " + " + quantity.Format(q.OverMM, quantity.Length, p.D.In.Units) + " over"
		}
		near, far := q.From.Joint, q.To.Joint
		if from.Same(path.Run.To) {
			near, far = far, near
		}
		if near > 0 && far > 0 {
			text += ", " + tag.Joint(near) + " to " + tag.Joint(far)
		}
		out = append(out, line{text, members.TextEm, false})
	}
	return out
}

// paintMatches draws the match lines at which pipe goes on to another sheet.
func (p *Picture) paintMatches() {
	for i := range p.Ms {
		m := &p.Ms[i]
		for _, far := range []bool{false, true} {
			name := m.CutA
			if far {
				name = m.CutB
			}
			if name == "" {
				continue
			}
			end, way := p.A[i], p.A[i].Sub(p.B[i])
			if far {
				end, way = p.B[i], p.B[i].Sub(p.A[i])
			}
			at, v := space.Project(end), space.Times(5, bars(way, space.Project(way)))
			p.block(0.3, scene.Line(space.Sub(at, v), space.Add(at, v), scene.Dashed(members.PenNewSign, 3, 0.8, 0.6, 0.8)).Named("match:"+name))
			p.wantCallout(callout{at: at, clear: 1.2, lines: []line{{"match " + name, members.TagEm, true}}, name: "match:" + name, rank: 0,
				far: []float64{0.4, 1.5, 3, 5, 8, 12}})
		}
	}
}
