package isometric

import (
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/symbol"
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
func (p *picture) endings() []ending {
	var out []ending
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil {
			continue
		}
		last := m.leg == len(p.d.lay.Paths[m.path].Points)-2
		if m.leg == 0 && m.cutA == "" {
			out = append(out, p.endingAt(i, false, m.run.From))
		}
		if last && m.cutB == "" {
			out = append(out, p.endingAt(i, true, m.run.To))
		}
	}
	return out
}

func (p *picture) endingAt(i int, far bool, ref graph.PortRef) ending {
	e := ending{i: i, far: far, ref: ref, part: p.d.parts[ref.Part], at: project(p.a[i]), out: p.a[i].Sub(p.b[i])}
	if far {
		e.at, e.out = project(p.b[i]), p.b[i].Sub(p.a[i])
	}
	return e
}

// paintEnds draws what stands at the ends of drawn pipe, and the stubs of what is not drawn.
func (p *picture) paintEnds() {
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
			p.paintNozzle(e, len(p.d.stack(&p.ms[e.i], e.far).joints) > 0)
			continue
		case inLine(k):
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
	if p.d.only == nil {
		p.paintStubs()
	}
	p.paintMatches()
}

func (p *picture) hasBody(part *graph.Part) bool {
	for i := range p.ms {
		if p.ms[i].run == nil && p.ms[i].part == part {
			return true
		}
	}
	return false
}

// paintTee puts a dot where the three pipes of a tee meet, and its name.
func (p *picture) paintTee(e ending) {
	pen := penOld
	if e.part.New() {
		pen = penNew
	}
	p.items = append(p.items, scene.Circle(e.at, 0.8*pen, scene.Filled(0)).Tagged("symbol:"+e.part.ID))
	p.wantTag(e.part, e.at, 2)
}

// paintEndSign draws the sign of a part at the end of a pipe, with the share of its length
// that lies on the pipe.
func (p *picture) paintEndSign(e ending, on float64) {
	s, look := p.d.sign(e.part)
	u := unit(project(e.out))
	v := project(across(e.out).unit())
	mid := add(e.at, times((0.5-on)*(s.Out-s.In), u))
	p.sign(s, mid, u, v, "symbol:"+e.part.ID)
	p.used(symbol.Of(e.part.Kind, withPen(look)), s.Legend)
	p.wantTag(e.part, mid, extent(s))
}

// paintNozzle draws a bar across the end of a pipe, where a machine or the tub is joined, and
// says what it is unless that is said already.
func (p *picture) paintNozzle(e ending, named bool) {
	v := times(1.9, project(across(e.out).unit()))
	p.block(0.3, scene.Line(sub(e.at, v), add(e.at, v), scene.Stroke(penNewSign)).Tagged("nozzle:"+e.ref.String()))
	p.used(signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 3}, scene.Stroke(penOld)),
		scene.Line(scene.Point{X: 3, Y: -1.9}, scene.Point{X: 3, Y: 1.9}, scene.Stroke(penNewSign))), "port of machine or tub")
	if named {
		return
	}
	text := line{sheet.Fit(p.d.portName(e.ref), textEm, 45, false), textEm, false}
	p.wantCallout(callout{at: e.at, clear: 2.3, lines: []line{text}, tag: "port:" + e.ref.String(), rank: 3,
		far: []float64{0.2, 1.2, 2.4, 4, 6, 9, 13}})
}
