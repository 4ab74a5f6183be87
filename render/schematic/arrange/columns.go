package arrange

import (
	"math"
	"sort"

	"dryfit/graph"
)

// bound says that b stands at least d right of a; a nil is the tub's wall.
type bound struct {
	a, b *Node
	d    float64
}

// columns finds each node's X: as far left as the signs, labels and pipes allow, then parts
// that have room spread evenly.
func (b *builder) columns() {
	var bounds []bound
	for _, l := range b.lines {
		if !l.hang {
			bounds = append(bounds, b.bounds(l)...)
		}
	}
	b.push(bounds)
	for _, l := range b.lines {
		if !l.hang {
			b.spread(l)
		}
	}
	for _, l := range b.lines { // what shares its X with a tee
		if l.riserFrom != nil {
			l.riserFrom.At.X = l.start.At.X
		}
		if l.riserTo != nil {
			l.riserTo.At.X = l.end.At.X
		}
	}
	for _, l := range b.lines {
		l.x0, l.x1 = 0, 0
		xs := []float64{}
		for _, n := range l.row {
			xs = append(xs, n.At.X+n.Symbol.In, n.At.X+n.Symbol.Out)
		}
		for _, n := range []*Node{l.start, l.end} {
			if n != nil {
				xs = append(xs, n.At.X)
			}
		}
		if l.fromTub {
			xs = append(xs, 0)
		}
		if len(xs) > 0 {
			sort.Float64s(xs)
			l.x0, l.x1 = xs[0], xs[len(xs)-1]
		}
	}
}

// room returns the distance two neighbours in a row need: signs and the pipe between them,
// or their labels side by side.
func (b *builder) room(a, c *Node, pipe *Pipe) float64 {
	gap := leastPipe
	if pipe != nil {
		gap = max(gap, b.m.Run(pipe.Run))
		if direct(pipe.Run) {
			gap = 2
		}
	}
	signs := a.Symbol.Out - c.Symbol.In + gap*b.m.Spread
	return max(signs, (b.labelW(a)+b.labelW(c))/2+labelGap*b.m.Spread)
}

func (b *builder) labelW(n *Node) float64 { return max(n.LabelW, n.Symbol.Box.W()) }

// direct reports whether a run joins two parts without pipe.
func direct(r *graph.Run) bool { return r.HasLength && r.LengthMM == 0 && len(r.Legs) == 0 }

func (b *builder) bounds(l *line) []bound {
	var out []bound
	row := l.row
	pipeBefore := func(n *Node) *Pipe {
		for _, p := range n.ins {
			if p.line == n.line {
				return p
			}
		}
		return nil
	}
	// The turn of a branch out of the tee's upright into the row.
	side := func(host, n *Node, p *Pipe) float64 {
		gap := leastPipe
		if p != nil {
			gap = max(gap, b.m.Run(p.Run))
		}
		return max((host.Symbol.Out+n.Symbol.Out)+gap*b.m.Spread, b.labelW(n)/2+labelGap+2)
	}
	for i, n := range row {
		switch {
		case i > 0:
			out = append(out, bound{row[i-1], n, b.room(row[i-1], n, pipeBefore(n))})
		case l.fromTub:
			p := pipeBefore(n)
			d := max(-n.Symbol.In+max(leastPipe, 9)*b.m.Spread, b.labelW(n)/2+labelGap)
			if p != nil && direct(p.Run) {
				d = -n.Symbol.In
			} else if p != nil {
				d = max(d, -n.Symbol.In+b.m.Run(p.Run)*b.m.Spread)
			}
			out = append(out, bound{nil, n, d})
		case l.start != nil:
			out = append(out, bound{l.start, n, side(l.start, n, pipeBefore(n))})
		default:
			out = append(out, bound{nil, n, 12 + b.labelW(n)/2})
		}
	}
	last := l.pipes
	if l.end != nil && len(row) > 0 {
		n := row[len(row)-1]
		out = append(out, bound{n, l.end, side(l.end, n, last[len(last)-1])})
	}
	if l.start != nil && l.end != nil && len(row) == 0 {
		out = append(out, bound{l.start, l.end, max(12, b.m.Run(last[0].Run)+4) * b.m.Spread})
	}
	if l.fromTub && l.end != nil && len(row) == 0 {
		out = append(out, bound{nil, l.end, max(12, b.m.Run(last[0].Run)+4) * b.m.Spread})
	}
	return out
}

// push moves every node right until all bounds hold: longest paths in the order of the
// water. Where the bounds go round in a ring the node Graphviz put leftmost goes first, and
// what it would have to wait for is forgotten.
func (b *builder) push(bounds []bound) {
	after := map[*Node][]bound{}
	waits := map[*Node]int{}
	for _, c := range bounds {
		if c.a == c.b {
			continue
		}
		if c.a == nil {
			c.b.At.X = max(c.b.At.X, c.d)
			continue
		}
		after[c.a] = append(after[c.a], c)
		waits[c.b]++
	}
	todo := append([]*Node{}, b.d.Nodes...)
	sort.SliceStable(todo, func(i, j int) bool { return b.xs[todo[i]] < b.xs[todo[j]] })
	var ready []*Node
	for _, n := range todo {
		if waits[n] == 0 {
			ready = append(ready, n)
		}
	}
	done := map[*Node]bool{}
	next := 0
	for len(done) < len(todo) {
		if len(ready) == 0 {
			for done[todo[next]] {
				next++
			}
			ready = append(ready, todo[next])
		}
		n := ready[0]
		ready = ready[1:]
		if done[n] {
			continue
		}
		done[n] = true
		for _, c := range after[n] {
			if done[c.b] {
				continue
			}
			c.b.At.X = max(c.b.At.X, n.At.X+c.d)
			if waits[c.b]--; waits[c.b] == 0 {
				ready = append(ready, c.b)
			}
		}
	}
}

// spread sets the parts between two fixed places of a row evenly into the room they have.
// Fixed are the parts where other lines start or end.
func (b *builder) spread(l *line) {
	type fixed struct {
		x    float64
		node *Node
	}
	var from *fixed
	if l.start != nil && l.start.line != l {
		from = &fixed{l.start.At.X, l.start}
	} else if l.fromTub {
		from = &fixed{0, nil}
	}
	var free []*Node
	settle := func(to *Node) {
		defer func() { free = nil }()
		if from == nil || len(free) == 0 {
			return
		}
		left := from.x
		if from.node != nil {
			left += from.node.Symbol.Out
		}
		if from.node == nil && direct(l.pipes[0].Run) && free[0] == l.row[0] {
			left = free[0].At.X + free[0].Symbol.Out // a fitting in the wall stays there
			free = free[1:]
			if len(free) == 0 {
				return
			}
		}
		have := to.At.X + to.Symbol.In - left
		for _, n := range free {
			have -= n.Symbol.Out - n.Symbol.In
		}
		gap := have / float64(len(free)+1)
		// Labels need their room: spread only where every part moves right.
		x := left
		var at []float64
		for _, n := range free {
			x += gap - n.Symbol.In
			at = append(at, x)
			x += n.Symbol.Out
		}
		for i, n := range free {
			if at[i] < n.At.X-0.01 {
				b.shift(free, to)
				return
			}
		}
		for i, n := range free {
			n.At.X = at[i]
		}
	}
	for _, n := range l.row {
		if n.host {
			settle(n)
			from = &fixed{n.At.X, n}
			continue
		}
		free = append(free, n)
	}
	if l.end != nil && l.end.line != l {
		settle(l.end)
	}
}

// shift moves the parts right by equal shares of the room before the fixed place.
func (b *builder) shift(free []*Node, to *Node) {
	last := free[len(free)-1]
	slack := to.At.X - last.At.X - max(last.Symbol.Out-to.Symbol.In+leastPipe, (b.labelW(last)+b.labelW(to))/2+labelGap)
	if slack <= 0 || math.IsNaN(slack) {
		return
	}
	for i, n := range free {
		n.At.X += slack * float64(i+1) / float64(len(free)+1)
	}
}
