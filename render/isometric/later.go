package isometric

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
)

// armMM is the length of the arms of a fitting that pipe goes into later, mm.
const armMM = 5.0

// paintLater draws short arms on tees and elbows where pipe goes in that is not of the group.
func (p *picture) paintLater() {
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil {
			continue
		}
		path := &p.d.lay.Paths[m.path]
		if m.leg > 0 {
			p.later(i, false, path.Points[m.leg-1].Sub(m.a))
		} else {
			p.laterPorts(i, false, m.run.From.Part)
		}
		if m.leg < len(path.Points)-2 {
			p.later(i, true, path.Points[m.leg+2].Sub(m.b))
		} else {
			p.laterPorts(i, true, m.run.To.Part)
		}
	}
}

// laterPorts is later for each way that pipe leaves a tee.
func (p *picture) laterPorts(i int, far bool, id string) {
	part := p.d.parts[id]
	if part == nil || part.Kind != graph.Tee {
		return
	}
	for _, port := range []string{graph.RunIn, graph.RunOut, graph.Branch} {
		if way, ok := p.d.lay.Ways[id+"."+port]; ok {
			p.later(i, far, way)
		}
	}
}

// later draws an arm from the end of a leg unless pipe of the group leaves there that way.
func (p *picture) later(i int, far bool, way graph.Vec) {
	end := p.endOf(i, far)
	for k := range p.ms {
		for _, atB := range []bool{false, true} {
			from, to := p.endOf(k, atB), p.endOf(k, !atB)
			if from.real.Sub(end.real).Len() < sameLevel && to.real.Sub(from.real).Unit().Dot(way.Unit()) > 0.99 {
				return
			}
		}
	}
	at := project(end.show)
	p.block(blockPipe, scene.Line(at, add(at, times(armMM, unit(project(way)))), scene.Stroke(penNew)).Tagged("socket"))
}

// wantCuts asks for places for the lengths the pieces are cut to.
func (p *picture) wantCuts() {
	for i := range p.ms {
		m := &p.ms[i]
		a, b := project(p.a[i]), project(p.b[i])
		for k, piece := range m.pieces {
			text := quantity.Format(piece.SawMM(), quantity.Length, p.d.in.Units)
			if piece.Measure {
				text += "*"
			}
			share := (float64(k) + 0.5) / float64(len(m.pieces))
			p.wantCallout(callout{at: along(a, b, share), clear: 1, lines: []line{{text, dimEm, false}}, tag: "cut:" + number(piece.Number),
				rank: 2, far: []float64{0.3, 1.2, 2.5, 4, 6, 9, 13}})
		}
	}
}
