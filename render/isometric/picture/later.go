package picture

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
)

// armMM is the length of the arms of a fitting that pipe goes into later, mm.
const armMM = 5.0

// paintLater draws short arms on tees and elbows where pipe goes in that is not of the group.
func (p *Picture) paintLater() {
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil {
			continue
		}
		path := &p.D.Lay.Paths[m.Path]
		if m.Leg > 0 {
			p.later(i, false, path.Points[m.Leg-1].Sub(m.A))
		} else {
			p.laterPorts(i, false, m.Run.From.Part)
		}
		if m.Last < len(path.Points)-2 {
			p.later(i, true, path.Points[m.Last+2].Sub(m.B))
		} else {
			p.laterPorts(i, true, m.Run.To.Part)
		}
	}
}

// laterPorts is later for each way that pipe leaves a tee.
func (p *Picture) laterPorts(i int, far bool, id string) {
	part := p.D.Parts[id]
	if part == nil || part.Kind != graph.Tee {
		return
	}
	for _, port := range []string{graph.RunIn, graph.RunOut, graph.Branch} {
		if way, ok := p.D.Lay.Ways[id+"."+port]; ok {
			p.later(i, far, way)
		}
	}
}

// later draws an arm from the end of a leg unless pipe of the group leaves there that way.
func (p *Picture) later(i int, far bool, way graph.Vec) {
	end := p.endOf(i, far)
	for k := range p.Ms {
		for _, atB := range []bool{false, true} {
			from, to := p.endOf(k, atB), p.endOf(k, !atB)
			if from.real.Sub(end.real).Len() < space.SameLevel && to.real.Sub(from.real).Unit().Dot(way.Unit()) > 0.99 {
				return
			}
		}
	}
	at := space.Project(end.show)
	p.block(blockPipe, scene.Line(at, space.Add(at, space.Times(armMM, space.Unit(space.Project(way)))), scene.Stroke(PenNew)).Named("socket"))
}

// wantCuts asks for places for the lengths the pieces are cut to.
func (p *Picture) wantCuts() {
	for i := range p.Ms {
		m := &p.Ms[i]
		for k, at := range p.pieceSpots(i) {
			piece := m.Pieces[k]
			text := quantity.Format(piece.SawMM(), quantity.Length, p.D.In.Units) + piece.Signs()
			p.wantCallout(callout{at: at, clear: 1, lines: []line{{text, members.DimEm, false}}, name: "cut:" + Number(piece.Number),
				of: ", piece " + Number(piece.Number), rank: 2, far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13}})
		}
	}
}
