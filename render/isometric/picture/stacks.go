package picture

import (
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/symbol"
)

// dotR is the radius of a joint's dot, mm.
const dotR = 0.85

// fieldMM is half the length of the arms of a joint made in place, along and across the pipe.
const fieldMM = 1.0

// joined is one place of joints on the drawing.
type joined struct {
	at     graph.Vec // display
	way    graph.Vec // of the pipe there, display
	joints []*route.Joint
	port   string // of the unit
}

// paintStacks draws the joints, with the bushes, reducers and transitions between them.
func (p *Picture) paintStacks() {
	var places []joined
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil {
			continue
		}
		for _, far := range []bool{false, true} {
			places = append(places, p.stackAt(i, far)...)
		}
		places = append(places, p.couplings(i)...)
	}
	if p.D.Only == nil {
		places = p.nuts(places)
	}
	for _, j := range places {
		p.paintJoint(j)
	}
}

// stackAt returns the joints at the end of a leg and draws the fittings between.
func (p *Picture) stackAt(i int, far bool) []joined {
	s := p.D.Stack(&p.Ms[i], far)
	base := s.Base
	if base == 0 {
		base = -p.slack(i, far)
	}
	way := p.B[i].Sub(p.A[i])
	var out []joined
	for k, j := range s.Joints {
		if p.D.Only != nil && !p.D.Only[j.Number] && !p.Ms[i].Run.New() {
			continue // made in the old line, later
		}
		spot := joined{at: p.onLeg(i, far, base+members.NextSpot*float64(k)), way: way, joints: []*route.Joint{j}}
		if k == 0 {
			spot.port = p.D.UnitPort(&p.Ms[i], far)
		}
		out = append(out, spot)
	}
	for _, f := range s.Fittings {
		p.paintFitting(i, f.Fitting, space.Project(p.onLeg(i, far, base+members.NextSpot*f.Spot)), far)
	}
	return out
}

// slack is how far the sign of the part in line at the end of a leg stands off that end.
func (p *Picture) slack(i int, far bool) float64 {
	end := p.Ms[i].A
	if far {
		end = p.Ms[i].B
	}
	for k := range p.Ms {
		m := &p.Ms[k]
		if m.Run == nil && (m.A.Sub(end).Len() < space.SameLevel || m.B.Sub(end).Len() < space.SameLevel) {
			s, _ := p.D.Sign(m.Part)
			return (p.B[k].Sub(p.A[k]).Len() - (s.Out - s.In)) / 2
		}
	}
	return 0
}

// paintFitting draws a bush, reducer, transition, coupling, thread adaptor or barb on a leg; far:
// at its end.
func (p *Picture) paintFitting(i int, f *route.Fitting, at scene.Point, far bool) {
	look := symbol.Look{Pen: members.PenNewSign, Thread: f.Kind == settle.ThreadAdaptor}
	kind, text := fittingSign(f.Kind)
	u := space.Unit(space.Sub(space.Project(p.B[i]), space.Project(p.A[i])))
	turned := f.From.NominalMM() < f.To.NominalMM() // drawn large to small
	switch kind {
	case graph.Barb:
		turned = !far // drawn from the hose
	case graph.Transition:
		turned, look.MetricIn = false, f.From.Metric
	}
	if turned {
		u = space.Times(-1, u)
	}
	p.sign(symbol.Of(kind, look), at, u, bars(p.Ms[i].Way(), u), "fitting:"+f.Kind)
	look.Pen = members.PenOldSign
	s := symbol.Of(kind, look)
	if text == "" {
		text = s.Legend
	}
	p.used(s, text)
}

// fittingSign is the kind whose sign stands for a fitting nobody wrote, and what the legend
// says of it; "": what it says of the kind.
func fittingSign(kind string) (graph.Kind, string) {
	switch kind {
	case "transition":
		return graph.Transition, ""
	case "barb":
		return graph.Barb, ""
	case settle.ThreadAdaptor:
		return graph.Coupling, ""
	case "coupling": // over a spigot
		return graph.Coupling, ""
	}
	return graph.Reducer, "bush or reducer"
}

// nuts adds the joints that belong to no run, the nuts of true-union parts, at the sockets of
// the same parts.
func (p *Picture) nuts(places []joined) []joined {
	for i := range p.D.Lay.Joints {
		j := &p.D.Lay.Joints[i]
		if j.Run != "" || !j.Located {
			continue
		}
		id, port := members.NutOf(j)
		for k := range p.Ms {
			m := &p.Ms[k]
			if m.Run != nil || m.Part.ID != id {
				continue
			}
			if port == "" { // said in the union's name
				continue
			}
			s, _ := p.D.Sign(m.Part)
			at := p.onLeg(k, port == graph.Out, (p.B[k].Sub(p.A[k]).Len()-(s.Out-s.In))/2)
			places = addJoint(places, joined{at: at, way: p.B[k].Sub(p.A[k]), joints: []*route.Joint{j}})
		}
	}
	return places
}

func addJoint(places []joined, j joined) []joined {
	for i := range places {
		if places[i].at.Sub(j.at).Len() < 0.5 {
			places[i].joints = append(places[i].joints[:len(places[i].joints):len(places[i].joints)], j.joints...)
			return places
		}
	}
	return append(places, j)
}

// paintJoint draws a joint's mark and asks for a spot for its number: a dot if it is made on
// the bench, a cross if in place; a union's nut is its sign.
func (p *Picture) paintJoint(j joined) {
	at := space.Project(j.at)
	first := j.joints[0]
	for _, k := range j.joints {
		if name := p.D.In.Cuts[k.Number]; name != "" {
			p.paintCut(j, name)
		}
	}
	switch {
	case p.overview:
		return
	case first.Kind == "union":
	case p.D.Bench[first.Number]:
		p.block(0.3, scene.Circle(at, dotR, scene.Filled(0)).Named("joint"))
		p.used(benchSign(), "joint made on the bench")
	default:
		u := space.Times(fieldMM, space.Unit(space.Project(j.way)))
		v := space.Times(fieldMM, space.Unit(bars(j.way, u)))
		p.block(0.3, fieldMark(at, u, v).Named("joint"))
		p.used(fieldSign(), "joint made in place")
	}
	lines, room := []line{{members.JointText(j.joints), members.JointEm, false}}, dotR+0.3
	if j.port != "" {
		room = 2.2
		lines = append(lines, line{j.port, members.TextEm, true})
	}
	p.wantCallout(callout{at: at, clear: room, lines: lines, name: "joint", rank: 2,
		far: []float64{0.2, 0.9, 1.8, 3.2, 5, 7.5, 10}})
}

// fieldMark is a cross whose arms lie between the pipe's way and its bars.
func fieldMark(at, u, v scene.Point) scene.Shape {
	return scene.Join(scene.Line(space.Add(at, space.Add(u, v)), space.Sub(at, space.Add(u, v)), scene.Stroke(0.35)),
		scene.Line(space.Add(at, space.Sub(u, v)), space.Sub(at, space.Sub(u, v)), scene.Stroke(0.35)))
}

func benchSign() symbol.Symbol {
	return signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 5}, scene.Stroke(PenNew)), scene.Circle(scene.Point{}, dotR, scene.Filled(0)))
}

func fieldSign() symbol.Symbol {
	return signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 5}, scene.Stroke(PenNew)),
		fieldMark(scene.Point{}, scene.Point{X: 1.2}, scene.Point{Y: 1.2}))
}

func signOf(items ...scene.Item) symbol.Symbol {
	return symbol.Symbol{Items: items, Box: scene.Bounds(items...)}
}

// paintCut draws the saw line through old pipe and asks for a spot for its name.
func (p *Picture) paintCut(j joined, name string) {
	at, v := space.Project(j.at), space.Times(3.6, bars(j.way, space.Project(j.way)))
	p.block(0.4, scene.Line(space.Sub(at, v), space.Add(at, v), scene.Dashed(members.PenNewSign, 2.4, 0.6, 0.5, 0.6)).Named("cut-line:"+name))
	p.used(signOf(scene.Line(scene.Point{X: -5}, scene.Point{X: 5}, scene.Stroke(PenOld)),
		scene.Line(scene.Point{Y: -3}, scene.Point{Y: 3}, scene.Dashed(members.PenNewSign, 2.4, 0.6, 0.5, 0.6))), "cut through old pipe")
	p.wantCallout(callout{at: space.Add(at, v), clear: 1.1, lines: []line{{name, members.PieceEm, true}}, ring: true, name: "cut", rank: 0, plain: true,
		far: []float64{1.5, 3, 4.5, 6.5, 9, 12, 16}})
}
