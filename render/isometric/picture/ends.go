package picture

import (
	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
	"dryfit/render/tag"
)

// ending is the end of drawn pipe at a port.
type ending struct {
	i    int  // member
	far  bool // at its b
	ref  graph.PortRef
	part *graph.Part
	at   scene.Point
	out  graph.Vec // display way out of the pipe, into the part
}

// endings lists where drawn pipe ends at ports.
func (p *Picture) endings() []ending {
	var out []ending
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil {
			continue
		}
		last := m.Last == len(p.D.Lay.Paths[m.Path].Points)-2
		later := func(at graph.PortRef) bool { // what stands in the old line is not on the bench
			part := p.D.Parts[at.Part]
			return p.D.Only != nil && !m.Run.New() && (part == nil || !part.New())
		}
		if m.Leg == 0 && m.CutA == "" && !later(m.Run.From) {
			out = append(out, p.endingAt(i, false, m.Run.From))
		}
		if last && m.CutB == "" && !later(m.Run.To) {
			out = append(out, p.endingAt(i, true, m.Run.To))
		}
	}
	return out
}

func (p *Picture) endingAt(i int, far bool, ref graph.PortRef) ending {
	e := ending{i: i, far: far, ref: ref, part: p.D.Parts[ref.Part], at: space.Project(p.A[i]), out: p.A[i].Sub(p.B[i])}
	if far {
		e.at, e.out = space.Project(p.B[i]), p.B[i].Sub(p.A[i])
	}
	return e
}

// paintEnds draws what stands at the ends of drawn pipe, and the stubs of what is not drawn.
func (p *Picture) paintEnds() {
	done := map[string]bool{}
	for _, e := range p.endings() {
		if e.part == nil {
			continue
		}
		switch k := e.part.Kind; {
		case k == graph.Tee:
			if !done[e.part.ID] {
				p.paintTee(e)
			}
		case k == graph.HeatPump:
			p.paintNozzle(e, len(p.D.Stack(&p.Ms[e.i], e.far).Joints) > 0)
			continue
		case members.InLine(k):
			if !p.hasBody(e.part) && !done[e.part.ID] {
				p.paintEndSign(e, 0.5)
			}
		case k.OnePort():
			p.paintEndSign(e, 0)
		default:
			p.paintNozzle(e, false)
		}
		done[e.part.ID] = true
	}
	if p.D.Only == nil {
		p.paintStubs()
		p.paintBroken()
	}
	p.paintMatches()
}

func (p *Picture) hasBody(part *graph.Part) bool {
	for i := range p.Ms {
		if p.Ms[i].Run == nil && p.Ms[i].Part == part {
			return true
		}
	}
	return false
}

// paintTee puts a dot where the three pipes of a tee meet, and its name.
func (p *Picture) paintTee(e ending) {
	pen := PenOld
	if e.part.New() {
		pen = PenNew
	}
	p.Items = append(p.Items, scene.Circle(e.at, 0.8*pen, scene.Filled(0)).Named("symbol:"+e.part.ID))
	p.wantTag(e.part, e.at, 2)
}

// paintEndSign draws the sign of a part at the end of a pipe, with the share of its length
// that lies on the pipe.
func (p *Picture) paintEndSign(e ending, on float64) {
	s, look := p.D.Sign(e.part)
	u := space.Unit(space.Project(e.out))
	v := bars(e.out, u)
	mid := space.Add(e.at, space.Times((0.5-on)*(s.Out-s.In), u))
	p.sign(s, mid, u, v, "symbol:"+e.part.ID)
	p.used(symbol.Of(e.part.Kind, withPen(look)), s.Legend)
	p.wantTag(e.part, mid, extent(s))
}

// paintNozzle draws a bar across the end of a pipe, where a machine or the tub is joined, and
// says what it is unless that is said already.
func (p *Picture) paintNozzle(e ending, named bool) {
	v := space.Times(1.9, bars(e.out, space.Project(e.out)))
	p.block(0.3, scene.Line(space.Sub(e.at, v), space.Add(e.at, v), scene.Stroke(members.PenNewSign)).Named("nozzle:"+e.ref.String()))
	p.used(signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 3}, scene.Stroke(PenOld)),
		scene.Line(scene.Point{X: 3, Y: -1.9}, scene.Point{X: 3, Y: 1.9}, scene.Stroke(members.PenNewSign))), "port of machine or tub")
	if named {
		return
	}
	p.wantCallout(callout{at: e.at, clear: 2.3, lines: p.portLines("", e.ref), name: "port:" + e.ref.String(), rank: 3,
		far: []float64{0.2, 1.2, 2.4, 4, 6, 9, 13}})
}

// portLines names a port in two lines: the part, and which port of it.
func (p *Picture) portLines(before string, ref graph.PortRef) []line {
	return []line{{sheet.Fit(before+p.D.Names.Short(ref.Part), members.TextEm, 45, false), members.TextEm, false},
		{sheet.Fit(tag.PortWord(ref.Port), members.TextEm, 45, false), members.TextEm, false}}
}
