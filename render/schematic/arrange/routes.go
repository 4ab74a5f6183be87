package arrange

import (
	"math"

	"dryfit/render/scene"
)

// carryLeft is where a pipe from the row above turns down to go on in the next, mm.
const carryLeft = 6.0

// routes gives every pipe its way: level in its row, upright at a tee.
func (b *builder) routes() {
	detour := 0.0
	for _, l := range b.lines {
		for i, p := range l.pipes {
			p.Points = tidy(b.route(l, i, p, &detour))
		}
	}
}

func (b *builder) route(l *line, i int, p *Pipe, detour *float64) []scene.Point {
	if l.hang {
		return []scene.Point{b.edge(p.From, p.To.At), b.edge(p.To, p.From.At)}
	}
	if p == l.carry {
		a, c := outEnd(p.From), inEnd(p.To)
		return []scene.Point{a, {X: l.carryX, Y: a.Y}, {X: l.carryX, Y: l.carryY}, {X: carryLeft, Y: l.carryY}, {X: carryLeft, Y: c.Y}, c}
	}
	var out []scene.Point
	// Where it leaves.
	switch {
	case p.From == b.d.Tub && b.d.Tub != nil:
		out = append(out, scene.Point{X: 0, Y: l.y})
	case l.start == p.From && i == 0:
		switch {
		case p.From.BarUp+p.From.BarDown > 0 && l.kind != bridge:
			out = append(out, scene.Point{X: p.From.At.X + p.From.Symbol.Out, Y: l.y})
		case math.Abs(p.From.At.Y-l.y) < 0.01:
			out = append(out, outEnd(p.From))
		default:
			out = append(out, p.From.At, scene.Point{X: p.From.At.X, Y: l.y})
		}
	case p.From == l.riserFrom:
		out = append(out, outEnd(p.From), scene.Point{X: p.From.At.X, Y: l.y})
	default:
		out = append(out, outEnd(p.From))
	}
	// Where it comes to.
	switch {
	case p.To == b.d.Tub && b.d.Tub != nil:
		if l.wall != nil && p.From == l.wall {
			return []scene.Point{outEnd(p.From), {X: l.mouthX, Y: b.d.TubBox.MaxY}}
		}
		out = append(out, scene.Point{X: l.turnX, Y: l.y}, scene.Point{X: l.turnX, Y: l.track},
			scene.Point{X: l.mouthX, Y: l.track}, scene.Point{X: l.mouthX, Y: b.d.TubBox.MaxY})
		return out
	case p.To == l.wall && l.wall != nil:
		out = append(out, scene.Point{X: l.turnX, Y: l.y}, scene.Point{X: l.turnX, Y: l.track},
			scene.Point{X: l.mouthX, Y: l.track}, inEnd(p.To))
		return out
	case p.To == l.riserFrom:
		// from the tee straight up
		return []scene.Point{out[0], inEnd(p.To)}
	case p.To == l.riserTo:
		out = append(out, scene.Point{X: p.To.At.X, Y: l.y}, inEnd(p.To))
	case l.end == p.To && i == len(l.pipes)-1:
		switch {
		case p.From == l.riserTo:
			out = append(out, p.To.At)
		case p.To.BarUp+p.To.BarDown > 0 && l.kind != bridge:
			out = append(out, scene.Point{X: p.To.At.X + p.To.Symbol.In, Y: l.y})
		case math.Abs(p.To.At.Y-l.y) < 0.01:
			out = append(out, inEnd(p.To))
		default:
			out = append(out, scene.Point{X: p.To.At.X, Y: l.y}, p.To.At)
		}
	default:
		out = append(out, inEnd(p.To))
	}
	return aroundBackward(out, detour)
}

// aroundBackward leads a pipe that would run left through its own row over an upright of its
// own and a level above the row.
func aroundBackward(pts []scene.Point, detour *float64) []scene.Point {
	for k := 1; k < len(pts); k++ {
		a, c := pts[k-1], pts[k]
		if math.Abs(a.Y-c.Y) > 0.01 || c.X >= a.X-0.01 {
			continue
		}
		*detour += 2
		y := a.Y - 9 - *detour
		out := append([]scene.Point{}, pts[:k]...)
		out = append(out, scene.Point{X: a.X + 3, Y: a.Y}, scene.Point{X: a.X + 3, Y: y}, scene.Point{X: c.X - 3, Y: y}, scene.Point{X: c.X - 3, Y: c.Y})
		return append(out, pts[k:]...)
	}
	return pts
}

// outEnd and inEnd are the pipe ends of a node's sign.
func outEnd(n *Node) scene.Point { return n.end(n.Symbol.Out) }
func inEnd(n *Node) scene.Point  { return n.end(n.Symbol.In) }

func (n *Node) end(d float64) scene.Point {
	v := n.Way.Vector()
	return scene.Point{X: n.At.X + v.X*d, Y: n.At.Y + v.Y*d}
}

// edge is where the pipe between a node on a dead end and its neighbour touches the node.
func (b *builder) edge(n *Node, to scene.Point) scene.Point {
	if n.Role == Hanging {
		in, out := inEnd(n), outEnd(n)
		if dist(in, to) < dist(out, to) {
			return in
		}
		return out
	}
	return n.At // a tee, or hidden below the sign
}

func dist(a, b scene.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// tidy takes out points that repeat or lie on the way.
func tidy(pts []scene.Point) []scene.Point {
	var out []scene.Point
	for _, p := range pts {
		if n := len(out); n > 0 && dist(out[n-1], p) < 0.01 {
			continue
		}
		for n := len(out); n > 1 && onWay(out[n-2], out[n-1], p); n = len(out) {
			out = out[:n-1]
		}
		out = append(out, p)
	}
	if len(out) == 1 {
		out = append(out, out[0])
	}
	return out
}

// onWay reports whether b lies on the straight from a to c, not turning back.
func onWay(a, b, c scene.Point) bool {
	cross := (b.X-a.X)*(c.Y-b.Y) - (b.Y-a.Y)*(c.X-b.X)
	dot := (b.X-a.X)*(c.X-b.X) + (b.Y-a.Y)*(c.Y-b.Y)
	return math.Abs(cross) < 1e-6 && dot >= 0
}
