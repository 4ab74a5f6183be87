package arrange

import (
	"math"
	"sort"
)

// bound says that b stands at least d right of a; a nil is the tub's wall.
type bound struct {
	a, b *Node
	d    float64
}

// columns finds each node's X. Both ends of what the signs, labels and pipes allow are
// worked out, everything as far left as it goes and as far right; halfway between the two
// all bounds hold as well, and what has room stands in the middle of it. Then the parts
// between two tees are spread evenly.
func (b *builder) columns() {
	var bounds []bound
	for _, l := range b.lines {
		if !l.hang {
			l.bounds = b.bounds(l)
			bounds = append(bounds, l.bounds...)
		}
	}
	order := b.push(bounds)
	latest := b.pull(bounds, order)
	for i, n := range order {
		n.At.X = (n.At.X + latest[i]) / 2
	}
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
		gap = max(gap, b.lengthOf(pipe))
		if pipe.Run.Direct() {
			gap = 2
		}
	}
	signs := a.Symbol.Out - c.Symbol.In + gap*b.m.Spread
	return max(signs, (b.labelW(a)+b.labelW(c))/2+labelGap*b.m.Spread)
}

func (b *builder) labelW(n *Node) float64 { return max(n.LabelW, n.Symbol.Box.W()) }

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
			gap = max(gap, b.lengthOf(p))
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
			if p != nil && p.Run.Direct() {
				d = -n.Symbol.In
			} else if p != nil {
				d = max(d, -n.Symbol.In+b.lengthOf(p)*b.m.Spread)
			}
			out = append(out, bound{nil, n, d})
		case l.start != nil:
			out = append(out, bound{l.start, n, side(l.start, n, pipeBefore(n))})
		default:
			gap := leastPipe
			if l.carry != nil {
				gap = max(gap, b.lengthOf(l.carry))
			}
			out = append(out, bound{nil, n, max(carryLeft+gap*b.m.Spread-n.Symbol.In, carryLeft+b.labelW(n)/2)})
		}
	}
	last := l.pipes
	if l.end != nil && len(row) > 0 {
		n := row[len(row)-1]
		out = append(out, bound{n, l.end, side(l.end, n, last[len(last)-1])})
	}
	if l.start != nil && l.end != nil && len(row) == 0 {
		out = append(out, bound{l.start, l.end, max(12, b.lengthOf(last[0])+4) * b.m.Spread})
	}
	if l.fromTub && l.end != nil && len(row) == 0 {
		out = append(out, bound{nil, l.end, max(12, b.lengthOf(last[0])+4) * b.m.Spread})
	}
	return out
}

// push moves every node right until all bounds hold: longest paths in the order of the
// water, which it returns. Where the bounds go round in a ring the node Graphviz put
// leftmost goes first, and what it would have to wait for is forgotten.
func (b *builder) push(bounds []bound) []*Node {
	after := map[*Node][]bound{}
	waits := map[*Node]int{}
	for _, n := range b.d.Nodes {
		n.At.X = 0
	}
	for _, c := range bounds {
		switch c.a {
		case c.b:
		case nil:
			c.b.At.X = max(c.b.At.X, c.d)
		default:
			after[c.a] = append(after[c.a], c)
			waits[c.b]++
		}
	}
	todo := append([]*Node{}, b.d.Nodes...)
	sort.SliceStable(todo, func(i, j int) bool { return b.xs[todo[i]] < b.xs[todo[j]] })
	var ready, order []*Node
	for _, n := range todo {
		if waits[n] == 0 {
			ready = append(ready, n)
		}
	}
	done := map[*Node]bool{}
	for next := 0; len(order) < len(todo); {
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
		order = append(order, n)
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
	return order
}

// pull returns how far right each node can stand without moving the last of its line.
func (b *builder) pull(bounds []bound, order []*Node) []float64 {
	place := map[*Node]int{}
	for i, n := range order {
		place[n] = i
	}
	before := map[*Node][]bound{} // by a
	for _, c := range bounds {
		if c.a != nil && place[c.a] < place[c.b] {
			before[c.a] = append(before[c.a], c)
		}
	}
	latest := make([]float64, len(order))
	for i := len(order) - 1; i >= 0; i-- {
		n := order[i]
		latest[i] = n.At.X
		if list := before[n]; len(list) > 0 {
			latest[i] = math.Inf(1)
			for _, c := range list {
				latest[i] = min(latest[i], latest[place[c.b]]-c.d)
			}
			latest[i] = max(latest[i], n.At.X)
		}
		if n.line != nil && n.line.fixedStart(n) {
			latest[i] = n.At.X
		}
	}
	return latest
}

// fixedStart reports whether a node is a fitting in the tub's wall, which stays there.
func (l *line) fixedStart(n *Node) bool {
	return l.fromTub && len(l.row) > 0 && l.row[0] == n && l.pipes[0].Run.Direct()
}

// spread shares the room between two fixed places of a row evenly among the pipes there.
// Fixed are the parts where other lines start or end.
func (b *builder) spread(l *line) {
	isFixed := func(n *Node) bool {
		return n == nil || n.host || n.line != l || l.fixedStart(n)
	}
	x := func(n *Node) float64 {
		if n == nil {
			return 0
		}
		return n.At.X
	}
	for i := 0; i < len(l.bounds); {
		j, sum := i, 0.0
		for ; j < len(l.bounds); j++ {
			sum += l.bounds[j].d
			if isFixed(l.bounds[j].b) {
				break
			}
		}
		if j == len(l.bounds) {
			return // the end of the row is free
		}
		from := l.bounds[i].a
		slack := (x(l.bounds[j].b) - x(from) - sum) / float64(j-i+1)
		if slack > 0 && (isFixed(from)) && !l.looseStart(i) {
			at := x(from)
			for k := i; k < j; k++ {
				at += l.bounds[k].d + slack
				l.bounds[k].b.At.X = at
			}
		}
		i = j + 1
	}
}

// looseStart reports whether a row begins nowhere: no pipe holds its first part.
func (l *line) looseStart(i int) bool { return i == 0 && !l.fromTub && l.start == nil }
