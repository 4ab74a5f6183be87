package detail

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/route"
)

// limb is the first leg of the pipe at a tee's branch, up to the next part or bend.
type limb struct {
	tee    int // member
	tubes  []tube
	end    float64     // where the next part's stop or centre lies, from the tee's centre
	length float64     // of the leg
	part   *graph.Part // next; nil: a bend
	fit    route.PartFit
	port   string    // of the next part
	bend   route.End // where part is nil
	turn   int       // of the bend: -1 against the line, 1 along it, 0 out of the plane
	way    graph.Vec // of the leg
	stop   route.End // at the next part
	beyond *tube     // pipe on from the next part, broken off
}

// branches fills in the limbs.
func (c *chain) branches() {
	line := c.lineWay()
	for i, m := range c.members {
		if m.part.Kind != graph.Tee {
			continue
		}
		run := c.net.Joined(m.part.ID, graph.Branch)
		path := pathOf(c.lay, run)
		if path == nil || !run.New() || len(path.Points) < 2 {
			continue
		}
		near := graph.PortRef{Part: m.part.ID, Port: graph.Branch}
		l := limb{tee: i, tubes: c.tubes(path, near, 0, 1)}
		n := len(path.Points)
		first, second, far := path.Points[0], path.Points[1], run.To
		bend, after := 1, 2
		if run.To.Part == near.Part && run.To.Port == near.Port {
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
				l.fit = c.lay.Fits[l.part.ID]
				c.goOn(&l, far)
			}
		} else {
			l.bend = path.Stops[bend]
			turn := path.Points[after].Sub(second).Unit().Dot(line)
			if math.Abs(turn) > 0.7 {
				l.turn = int(math.Copysign(1, turn))
			}
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
	path := pathOf(c.lay, next)
	if path == nil {
		return
	}
	stop, ok := stopAt(path, graph.PortRef{Part: l.part.ID, Port: exit})
	if !ok {
		return
	}
	from := l.end + stop.TakeOffMM
	if l.part.Kind != graph.Tee {
		from = l.end + l.fit.Row.LengthMM + stop.TakeOffMM
	}
	t := tube{from: from, to: from + stop.DepthMM + 0.6*outside(path), depthFrom: stop.DepthMM, outside: outside(path), open: 1, bushFrom: isBush(stop)}
	for _, i := range path.Pieces {
		p := &c.lay.Pieces[i]
		if p.From.Joint != 0 && p.Leg == 1 && path.Run.From.Part == l.part.ID {
			t.number = p.Number
			break
		}
		if path.Run.To.Part == l.part.ID {
			t.number = p.Number // the last of them
		}
	}
	l.beyond = &t
}

// lineWay is the way of the line in space; zero where it is not known.
func (c *chain) lineWay() graph.Vec {
	for _, m := range c.members {
		for _, r := range c.net.Leaving(m.part) {
			p := pathOf(c.lay, r)
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

// folded reports whether the branches point different ways, so that one plane cannot show
// them as they are.
func (c *chain) folded() bool {
	for _, l := range c.limbs {
		if l.way.Dot(c.limbs[0].way) < 0.95 {
			return true
		}
	}
	return false
}
