package retrofit

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route"
	"dryfit/graph/route/solid"
)

// service is the loop round the spring check: a tee on either side of it, and a valve between
// their branches, shut in use and opened while the unit is shut off. Lengths mm. Common
// practice, no source.
type service struct {
	outer float64 // nipple between a tee of the unit and the loop's tee beside it
	reach float64 // how far the valve's pipe lies from the line, centre to centre
	span  float64 // centre to centre of the loop's tees
	valve body
}

// serviced reports whether the choice gets such a loop: a valve in the bypass is opened itself.
func (w work) serviced(choice Choice) bool { return w.asked.ServiceValve && choice.Bypass == "spring" }

// inLine is the work with the pipe of the line for that of the branch: what the loop is made of.
func (w work) inLine() work {
	w.branchSpec, w.branchSize = w.lineSpec, w.lineSize
	return w
}

// serviceLoop gives an assembly the loop: its tees lengthen the string, and where the valve
// between their branches is longer than the check, the nipple before the check does too.
func (w work) serviceLoop(a *assembly) {
	tee, off := w.tee(), w.inLine().stop(w.lineTee(), graph.Branch, w.lineSpec, w.lineSize)
	bend := w.inLine().elbow(graph.Vec{X: 1}, graph.Vec{Y: 1})
	s := &service{outer: draft.Nipple(tee.SocketMM, tee.SocketMM), valve: w.inline(string(graph.BallValve), w.lineSpec, w.lineSize, true)}
	s.reach = math.Ceil((off.TakeOff+draft.Nipple(off.Depth, bend.Depth)+bend.TakeOff)/10) * 10
	s.span = 2*a.half + a.first + a.element + a.second
	if short := 2*bend.TakeOff + 2*draft.Nipple(bend.Depth, s.valve.socket) + s.valve.length - s.span; short > 0 {
		a.longer = short
		a.first, s.span = a.first+short, s.span+short
	}
	a.service = s
}

// serviceMM is what the loop adds between the unit's tees, mm.
func (a assembly) serviceMM() float64 {
	if a.service == nil {
		return 0
	}
	return 2*a.service.outer + 4*a.half
}

// toElement is from the centre of the first tee to the inlet of the bypass element, mm.
func (a assembly) toElement() float64 { return a.half + a.first + a.serviceMM()/2 }

// loopAround puts the loop's two tees beside the unit's, and returns the ports the pieces to the
// check start from and end at.
func loopAround(d *draft.Draft, w work, a assembly, teeA, teeB string, water, way graph.Vec) (before, after graph.PortRef) {
	s := a.service
	d.PointTo("service-valve", "cut")
	defer d.PointTo("cut")
	first, second := d.Names.Fresh("service-tee-a"), d.Names.Fresh("service-tee-b")
	d.AddPart(first, graph.Tee, w.lineSpec, w.lineSize)
	d.AddPart(second, graph.Tee, w.lineSpec, w.lineSize)
	beside := []graph.Leg{draft.Leg(water.Scale(2*a.half + s.outer))}
	d.AddRun(draft.At(teeA, graph.RunOut), draft.At(first, graph.RunIn), w.lineSpec, w.lineSize, beside)
	d.AddRun(draft.At(second, graph.RunOut), draft.At(teeB, graph.RunIn), w.lineSpec, w.lineSize, beside)

	valve := d.AddPart(d.Names.Fresh("service"), graph.BallValve, w.lineSpec, w.lineSize)
	valve.Type = s.valve.row.Name
	valve.Valve.Position, valve.Valve.PositionSet = 0, true
	line := w.inLine()
	off := line.stop(w.lineTee(), graph.Branch, w.lineSpec, w.lineSize)
	loop := draft.NewStrand("service", draft.At(first, graph.Branch), draft.At(second, graph.Branch),
		[]graph.Leg{draft.Leg(way.Scale(s.reach)), draft.Leg(water.Scale(s.span)), draft.Leg(way.Scale(-s.reach))}, off, off, line.elbow)
	loop.Put(draft.Item{Part: valve.ID, In: graph.In, Out: graph.Out, Length: s.valve.length, Depth: s.valve.socket}, false, 1)
	for _, st := range loop.Stretches() {
		d.AddRun(st.From, st.To, w.lineSpec, w.lineSize, st.Legs)
	}
	return draft.At(first, graph.RunOut), draft.At(second, graph.RunIn)
}

// loopWay is the way the loop stands off the line: level where it can be, where neither air nor
// water is trapped in it, and the first that is clear of what stands there and of the pipes to
// the unit as they are written; the way of the branches where none is.
func (site *Site) loopWay(w work, path *route.Path, place Place, a assembly, branch graph.Vec) graph.Vec {
	line := path.Points[place.Leg].Sub(path.Points[place.Leg-1]).Unit()
	for _, v := range []graph.Vec{{Y: -1}, {X: 1}, {X: -1}, {Y: 1}, {Z: 1}, {Z: -1}} {
		if math.Abs(v.Dot(line)) < 0.02 && w.leavesRoom(v, branch, a.service.reach) && site.loopIsClear(w, path, place, a, v) {
			return v
		}
	}
	return branch
}

// leavesRoom reports whether the pipes to the unit, where they are written and leave the line the
// same way, go on beyond the loop before they turn.
func (w work) leavesRoom(way, branch graph.Vec, reach float64) bool {
	if way.Dot(branch) < 0.98 {
		return true
	}
	out, back := w.asked.ToUnit, w.asked.FromUnit
	beyond := func(l graph.Leg) bool { return l.Open || l.LengthMM() > reach+2*w.stringRadius() }
	return (len(out) == 0 || beyond(out[0])) && (len(back) == 0 || beyond(back[len(back)-1]))
}

// loopEnds are the corners of the loop away from the line, from the layout's datum.
func (a assembly) loopEnds(path *route.Path, place Place, way graph.Vec) (from, to graph.Vec) {
	start := path.Points[place.Leg-1]
	dir := path.Points[place.Leg].Sub(start).Unit()
	near := start.Add(dir.Scale(place.FromMM + a.half + a.endAdd + 2*a.half + a.service.outer))
	return near.Add(way.Scale(a.service.reach)), near.Add(dir.Scale(a.service.span)).Add(way.Scale(a.service.reach))
}

// loopIsClear reports whether the valve's pipe is clear of everything described but the leg that
// is cut.
func (site *Site) loopIsClear(w work, path *route.Path, place Place, a assembly, way graph.Vec) bool {
	if !path.Located {
		return true
	}
	from, to := a.loopEnds(path, place, way)
	pipe := solid.Capsule(from, to, w.stringRadius())
	group := site.lay.Groups[path.Run.From.String()]
	for i := range site.bodies().All {
		b := &site.bodies().All[i]
		if b.Group != group || b.Run == path.Run.ID && b.Leg == place.Leg {
			continue
		}
		for _, shape := range b.Likely {
			if solid.Distance(pipe, shape) <= 0 {
				return false
			}
		}
	}
	return true
}
