package detail

import (
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// chain is a string of new parts in an old line, in the way of the water.
type chain struct {
	lay     *route.Layout
	net     *stream.Net
	members []member
	before  tube // the old pipe's two ends
	after   tube
	limbs   []limb
	fitted  fitted // what nobody wrote between the parts and their pipes, along the line
}

// member is one part of the string.
type member struct {
	part    *graph.Part
	fit     *settle.Part
	from    float64 // along the line from the first member: of the centre, or of its inlet's stop
	to      float64 // of the centre, or of its outlet's stop
	depthIn float64 // of the sockets
	depthTo float64
	tubes   []tube // pipe on to the next member
}

// tube is one straight pipe from end to end, both inside sockets.
type tube struct {
	from, to           float64
	depthFrom, depthTo float64
	outside            float64
	over               bool    // hose: its ends go over what they are on
	number             int     // of the piece; 0 for old pipe
	open               int     // -1 or 1: broken off at its start or end; 0 neither
	joinFrom, joinTo   int     // numbers of the joints at its ends; 0: none
	hubFrom, hubTo     float64 // outside diameter of the pipe the fittings there are made for; 0: its own
	run                string
	size               catalog.Size
	bushFrom, bushTo   bool // in a reducing bush there
	bushJoint          int  // of that bush in its socket
	old                bool
	renewed            bool // goes into an old adaptor: nothing is sawn there
}

// chains returns the strings of a layout: new parts between two ends of old pipe, all on
// straight runs.
func chains(lay *route.Layout) []chain {
	net := lay.Stage.Net()
	var out []chain
	for i := range lay.Paths {
		p := &lay.Paths[i]
		if !endsString(p.Run) || net.IsAir(p.Run) {
			continue
		}
		_, to := net.Ends(p.Run)
		if part := lay.Circuit.Part(to.Part); part == nil || !part.New() || part.Kind == graph.Tub {
			continue
		}
		c := chain{lay: lay, net: net}
		if c.walk(p, to) {
			c.branches()
			out = append(out, c)
		}
	}
	return out
}

// walk follows new parts from an old pipe to the next; false where it comes to anything
// else, or round a bend.
func (c *chain) walk(old *route.Path, at graph.PortRef) bool {
	stop, ok := stopAt(old, at)
	if !ok {
		return false
	}
	pos := 0.0
	c.begin(old, at, stop)
	seen := map[string]bool{}
	for {
		part := c.lay.Circuit.Part(at.Part)
		if part == nil || !part.New() || seen[part.ID] {
			return false
		}
		seen[part.ID] = true
		exit, ok := through(part, at.Port)
		if !ok {
			return false
		}
		m := member{part: part, fit: c.lay.Stage.Part(part.ID), from: pos, to: pos, depthIn: stop.DepthMM}
		if part.Kind != graph.Tee {
			m.to = pos + m.fit.Row.V.LengthMM
		}
		next := c.net.Joined(part.ID, exit)
		path := c.pathOf(next)
		if path == nil {
			return false
		}
		near := graph.PortRef{Part: part.ID, Port: exit}
		out, ok := stopAt(path, near)
		if !ok {
			return false
		}
		m.depthTo = out.DepthMM
		if endsString(next) {
			c.end(path, near, out, m.to)
			c.members = append(c.members, m)
			return true
		}
		if len(path.Points) != 2 && (len(path.Points) > 0 || path.LengthMM > 0) {
			return false
		}
		far := next.Other(near)
		m.tubes = c.tubes(path, near, m.to, 1)
		c.members = append(c.members, m)
		pos = m.to + path.LengthMM
		at = far
		c.fit(path, near, m.to, 1)
		c.fit(path, far, pos, -1)
		if stop, ok = stopAt(path, far); !ok {
			return false
		}
	}
}

// begin draws the old pipe the string begins at, up to a stop at its end.
func (c *chain) begin(old *route.Path, at graph.PortRef, stop route.End) {
	c.before = tube{run: old.Run.ID, size: old.Run.Size, joinTo: c.oldJoint(old.Run.ID, at), to: -stop.TakeOffMM, depthTo: stop.DepthMM, outside: outside(old), open: -1, old: true, bushTo: isBush(stop), over: old.Run.Spec.Flexible() && stop.Kind == "barb"}
	if c.before.bushTo {
		c.before.bushJoint = c.bushJoint(old, at)
	}
	c.renew(&c.before, old, at)
	c.fit(old, at, 0, -1)
	c.before.from = c.before.to - stop.DepthMM - oldShare*c.before.outside
}

// end draws the pipe the string ends at, from a stop at its near end, at pos along the string.
func (c *chain) end(path *route.Path, near graph.PortRef, stop route.End, pos float64) {
	next := path.Run
	c.after = tube{run: next.ID, size: next.Size, joinFrom: c.oldJoint(next.ID, near), from: pos + stop.TakeOffMM, depthFrom: stop.DepthMM, outside: outside(path), open: 1, old: true, bushFrom: isBush(stop), over: next.Spec.Flexible() && stop.Kind == "barb"}
	if c.after.bushFrom {
		c.after.bushJoint = c.bushJoint(path, near)
	}
	c.renew(&c.after, path, near)
	c.fit(path, near, pos, 1)
	c.after.to = c.after.from + stop.DepthMM + oldShare*c.after.outside
}

// endsString reports whether the string ends at a run: at old pipe, or at new that goes into an
// old adaptor.
func endsString(r *graph.Run) bool { return !r.New() || len(r.AdaptorsKept) > 0 }

// renew makes an end of the string that of the new pipe that goes into an old adaptor.
func (c *chain) renew(t *tube, path *route.Path, end graph.PortRef) {
	if !path.Run.New() {
		return
	}
	t.old, t.renewed = false, true
	toEnd := path.Run.To.Same(end)
	for _, i := range path.Pieces {
		p := &c.lay.Pieces[i]
		if p.Spec != path.Run.Spec || p.Size != path.Run.Size { // a nipple of the adaptors
			continue
		}
		joint := p.From.Joint
		if toEnd {
			joint = p.To.Joint
		}
		if t.number == 0 || toEnd { // the one next to the string
			t.number = p.Number
			if t.open < 0 {
				t.joinTo = joint
			} else {
				t.joinFrom = joint
			}
		}
	}
}

// fit adds what stands between a port and its pipe in the line.
func (c *chain) fit(path *route.Path, at graph.PortRef, from, way float64) {
	f := c.fittedAt(path, at, from, way)
	c.fitted.pieces = append(c.fitted.pieces, f.pieces...)
	c.fitted.adaptors = append(c.fitted.adaptors, f.adaptors...)
}

// oldShare is how much of the old pipe is shown outside its socket, in its diameters.
const oldShare = 1.1

// through is the port by which the line leaves a part entered at a port; false at a branch
// and in parts that are not in line.
func through(p *graph.Part, port string) (string, bool) {
	switch {
	case p.Kind == graph.Tee && port == graph.RunIn:
		return graph.RunOut, true
	case p.Kind == graph.Tee && port == graph.RunOut:
		return graph.RunIn, true
	case p.Kind == graph.Tee || !inLine(p.Kind):
		return "", false
	case port == graph.In:
		return graph.Out, true
	}
	return graph.In, true
}

// inLine reports whether a kind stands in a straight pipe.
func inLine(k graph.Kind) bool {
	switch k {
	case graph.Union, graph.Coupling, graph.SlipCoupling, graph.Reducer, graph.Transition, graph.CheckValve, graph.Barb, graph.FlowSwitch, graph.ThermometerPocket, graph.Strainer:
		return true
	}
	return k.IsHandValve()
}

// stopAt returns what a path meets at one of its ends.
func stopAt(p *route.Path, at graph.PortRef) (route.End, bool) {
	n := len(p.Stops)
	switch {
	case n < 2:
		return route.End{}, false
	case p.Run.From.Same(at):
		return p.Stops[0], true
	}
	return p.Stops[n-1], true
}

// tubes places the pieces of the leg of a path next to a port, along an axis on which the
// port's centre or stop lies at from; way is the sense of the axis, away from the port.
func (c *chain) tubes(path *route.Path, near graph.PortRef, from, way float64) []tube {
	back := path.Run.To.Same(near)
	leg, legs := 1, len(path.Points)-1
	if legs < 1 {
		return nil // joined directly
	}
	if back {
		leg = legs
	}
	length := path.Points[leg].Sub(path.Points[leg-1]).Len()
	dir := path.Points[leg].Sub(path.Points[leg-1]).Unit()
	var out []tube
	at := -1.0
	for _, p := range c.longs(path) {
		if p.Leg != leg {
			continue
		}
		if at < 0 {
			at = p.From.TakeOffMM
		}
		start := at
		if path.Located {
			start = p.Start.Sub(path.Points[leg-1]).Dot(dir)
		}
		at = start + p.CutMM + couplingGap(path)
		t := tube{from: start, to: start + p.CutMM, depthFrom: p.From.DepthMM, depthTo: p.To.DepthMM,
			outside: outside(path), number: p.Number,
			bushFrom: isBush(p.From), bushTo: isBush(p.To), joinFrom: p.From.Joint, joinTo: p.To.Joint, run: path.Run.ID, size: p.Size,
			over: p.Spec.Flexible() && (p.From.Kind == "barb" || p.To.Kind == "barb")}
		if mm := c.lay.Stage.PipeRow(p.Spec, p.Size).OutsideMM; mm > 0 {
			t.outside = mm
		}
		if back {
			t.from, t.to = length-t.to, length-t.from
			t.depthFrom, t.depthTo = t.depthTo, t.depthFrom
			t.bushFrom, t.bushTo = t.bushTo, t.bushFrom
			t.joinFrom, t.joinTo = t.joinTo, t.joinFrom
		}
		t.from, t.to = from+way*t.from, from+way*t.to
		out = append(out, t)
	}
	if back {
		slices.Reverse(out)
	}
	if n := len(out); n > 0 && out[0].bushFrom {
		out[0].bushJoint = c.bushJoint(path, near)
	}
	return out
}

func couplingGap(path *route.Path) float64 {
	for _, f := range path.Fittings {
		if f.Kind == "coupling" {
			return f.Row.LengthMM
		}
	}
	return 0
}

func isBush(e route.End) bool { return e.Kind == "reducing-bush" }

// outside is the outside diameter of a path's pipe, mm.
func outside(p *route.Path) float64 {
	if p.Run.MeasuredOutsideMM > 0 {
		return p.Run.MeasuredOutsideMM
	}
	if p.Pipe.OutsideMM > 0 {
		return p.Pipe.OutsideMM
	}
	return p.Run.Size.NominalMM()
}

// pathOf is where a run lies; nil where there is no run, or it is not laid out.
func (c *chain) pathOf(r *graph.Run) *route.Path {
	if r == nil {
		return nil
	}
	return c.lay.Path(r.ID)
}

// oldJoint is the number of the joint where old pipe meets a port of a new part; 0: none.
func (c *chain) oldJoint(run string, at graph.PortRef) int {
	for _, j := range c.lay.Joints {
		if j.Run == run && j.Remains && strings.HasSuffix(j.A, at.String()) {
			return j.Number
		}
	}
	return 0
}

// nuts are the numbers of the joints that open inside a part: a union, or both nuts of a
// valve.
func (c *chain) nuts(id string) []int {
	var out []int
	for _, j := range c.lay.Joints {
		if j.Kind == "union" && (j.A == id || j.A == id+".in") {
			out = append(out, j.Number)
		}
	}
	return out
}
