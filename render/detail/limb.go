package detail

import (
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// limb is the first leg of the pipe at a tee's branch, up to the next part or bend.
type limb struct {
	tee    int // member
	tubes  []tube
	end    float64     // where the next part's stop or centre lies, from the tee's centre
	length float64     // of the leg
	part   *graph.Part // next; nil: a bend
	fit    *settle.Part
	port   string    // of the next part
	bend   route.End // where part is nil
	next   graph.Vec // way of the pipe after the bend
	piece  int       // that follows the bend; 0: none
	way    graph.Vec // of the leg
	stop   route.End // at the next part
	joint  int       // of that piece in the bend
	beyond *tube     // pipe on from the next part, broken off; hose with no part before it
	fitted fitted    // what nobody wrote between the parts and their pipes
}

// branches fills in the limbs.
func (c *chain) branches() {
	for i, m := range c.members {
		if m.part.Kind != graph.Tee {
			continue
		}
		run := c.net.Joined(m.part.ID, graph.Branch)
		path := c.pathOf(run)
		if path == nil || !run.New() || len(path.Points) < 2 {
			continue
		}
		near := graph.PortRef{Part: m.part.ID, Port: graph.Branch}
		l := limb{tee: i, fitted: c.fittedAt(path, near, 0, 1)}
		if path.Run.Spec.Flexible() {
			c.hose(&l, path, near)
			c.limbs = append(c.limbs, l)
			continue
		}
		l.tubes = c.tubes(path, near, 0, 1)
		n := len(path.Points)
		first, second, far := path.Points[0], path.Points[1], run.To
		bend, after := 1, 2
		if run.To.Same(near) {
			first, second, far = path.Points[n-1], path.Points[n-2], run.From
			bend, after = n-2, n-3
		}
		l.way = second.Sub(first).Unit()
		l.length = second.Sub(first).Len()
		l.end = l.length
		if n == 2 {
			l.part, l.port = c.lay.Circuit.Part(far.Part), far.Port
			l.stop, _ = stopAt(path, far)
			if l.part != nil {
				l.fit = c.lay.Stage.Part(l.part.ID)
				l.fitted.add(c.fittedAt(path, far, l.end, -1))
				c.goOn(&l, far)
			}
		} else {
			l.bend = path.Stops[bend]
			l.next = path.Points[after].Sub(second).Unit()
			l.piece, l.joint = c.afterBend(path, bend, after)
		}
		c.limbs = append(c.limbs, l)
	}
}

// goOn adds the pipe beyond the next part of a limb.
func (c *chain) goOn(l *limb, at graph.PortRef) {
	exit, ok := through(l.part, at.Port)
	if !ok {
		return
	}
	next := c.net.Joined(l.part.ID, exit)
	path := c.pathOf(next)
	if path == nil {
		return
	}
	stop, ok := stopAt(path, graph.PortRef{Part: l.part.ID, Port: exit})
	if !ok {
		return
	}
	from := l.end + stop.TakeOffMM
	if l.part.Kind != graph.Tee {
		from = l.end + l.fit.Row.V.LengthMM + stop.TakeOffMM
	}
	l.fitted.add(c.fittedAt(path, graph.PortRef{Part: l.part.ID, Port: exit}, from-stop.TakeOffMM, 1))
	l.beyond = c.brokenOff(path, graph.PortRef{Part: l.part.ID, Port: exit}, stop, from)
}

// hose lets a branch of hose go on out of the sheet: it bends as it likes.
func (c *chain) hose(l *limb, path *route.Path, near graph.PortRef) {
	stop, ok := stopAt(path, near)
	if !ok {
		return
	}
	l.way = path.Points[1].Sub(path.Points[0]).Unit()
	if n := len(path.Points); path.Run.To.Same(near) {
		l.way = path.Points[n-2].Sub(path.Points[n-1]).Unit()
	}
	l.end = stop.TakeOffMM
	l.beyond = c.brokenOff(path, near, stop, l.end)
}

// brokenOff is the pipe at a port, from where it starts to just outside its socket.
func (c *chain) brokenOff(path *route.Path, near graph.PortRef, stop route.End, from float64) *tube {
	t := tube{run: path.Run.ID, size: path.Run.Size, from: from, to: from + stop.DepthMM + 0.6*outside(path), depthFrom: stop.DepthMM, outside: outside(path),
		open: 1, bushFrom: isBush(stop), over: stop.Kind == "barb"}
	pieces := c.longs(path)
	switch {
	case len(pieces) == 0:
	case path.Run.From.Same(near):
		if p := pieces[0]; p.Leg == 1 {
			t.number, t.joinFrom = p.Number, p.From.Joint
		}
	default:
		p := pieces[len(pieces)-1]
		t.number, t.joinFrom = p.Number, p.To.Joint
	}
	return &t
}

func (f *fitted) add(more fitted) {
	f.pieces, f.adaptors = append(f.pieces, more.pieces...), append(f.adaptors, more.adaptors...)
}

// lineWay is the way of the line in space; zero where it is not known.
func (c *chain) lineWay() graph.Vec {
	if way := c.newWay(); way.Len() > 0 {
		return way
	}
	for _, t := range []tube{c.before, c.after} { // parts joined directly: the old pipe tells
		for i := range c.lay.Paths {
			p := &c.lay.Paths[i]
			if p.Run.ID != t.run || len(p.Points) < 2 {
				continue
			}
			n := len(p.Points)
			first := p.Points[1].Sub(p.Points[0]).Unit()
			last := p.Points[n-1].Sub(p.Points[n-2]).Unit()
			against := c.net.Against(p.Run)
			switch {
			case against && t.open < 0:
				return first.Scale(-1)
			case against:
				return last.Scale(-1)
			case t.open < 0:
				return last
			}
			return first
		}
	}
	return graph.Vec{}
}

// newWay is the way of the first new pipe between the parts.
func (c *chain) newWay() graph.Vec {
	for _, m := range c.members {
		for _, r := range c.net.Leaving(m.part) {
			p := c.pathOf(r)
			if p == nil || len(p.Points) != 2 {
				continue
			}
			from, _ := c.net.Ends(r)
			if from.Part != m.part.ID || from.Port == graph.Branch {
				continue
			}
			way := p.Points[1].Sub(p.Points[0]).Unit()
			if c.net.Against(r) {
				way = way.Scale(-1)
			}
			return way
		}
	}
	return graph.Vec{}
}

// afterBend returns the number of the piece that leaves a bend, and of its joint there.
func (c *chain) afterBend(path *route.Path, bend, after int) (piece, joint int) {
	leg := after // legs count from 1: leg k ends at point k
	if after < bend {
		leg = bend
	}
	for _, p := range c.longs(path) {
		if p.Leg != leg {
			continue
		}
		if after > bend { // the first of the leg
			return p.Number, p.From.Joint
		}
		piece, joint = p.Number, p.To.Joint // the last of it
	}
	return piece, joint
}
