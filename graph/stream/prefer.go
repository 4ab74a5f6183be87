package stream

import "dryfit/graph"

// chain is a longest stretch of runs in which the water has no choice.
type chain struct {
	runs  []int
	a, b  int   // nodes it leads from and to
	score int64 // for the way it has: how much of what is written agrees; negative: turn it if it can be turned
}

// Weights of what is written: the arrow of a check outweighs any number of ports, a port
// any number of runs (a description holds 25,000 runs at most).
const (
	portWeight  = 1 << 17
	checkWeight = 1 << 36
)

// preferWritten turns the chains that could as well go the other way (both ends keep a way
// in and a way out, and no loop arises) where more of what is written says so. The order is
// the place of every node in an order in which water only goes on; it is kept so.
func preferWritten(n *Net, way []int8, g *flow, order []int) {
	outs, ins := make([]int, len(g.at)), make([]int, len(g.at))
	for i := range way {
		if way[i] != 0 {
			a, b := n.wayEnds(i, way)
			outs[a]++
			ins[b]++
		}
	}
	for _, e := range g.edges { // S and T give every node they touch a way in or out
		if e.run < 0 {
			if e.a == g.source {
				ins[e.b]++
			} else {
				outs[e.b]++
			}
		}
	}
	t := turner{n: n, way: way, place: order, seen: make([]int, len(order))}
	for _, c := range chains(n, way, outs, ins) {
		if c.score < 0 && outs[c.a] > 1 && ins[c.b] > 1 && c.a != c.b && t.turn(&c) {
			outs[c.a]--
			ins[c.a]++
			ins[c.b]--
			outs[c.b]++
		}
	}
}

// chains returns the chains of the runs with a way, those first that are first in order.
func chains(n *Net, way []int8, outs, ins []int) []chain {
	plain := func(v int) bool { return outs[v] == 1 && ins[v] == 1 }
	done := make([]bool, len(way))
	var list []chain
	for _, start := range n.order {
		if way[start] == 0 || done[start] {
			continue
		}
		first, _ := n.wayEnds(start, way)
		head := start
		for plain(first) { // back to where the water last had a choice
			prev := n.only(first, head, way, done)
			if prev < 0 || prev == start {
				break
			}
			head = prev
			first, _ = n.wayEnds(head, way)
		}
		c := chain{a: first}
		for i := head; i >= 0 && !done[i]; {
			done[i] = true
			c.runs = append(c.runs, i)
			if way[i] > 0 {
				c.score++
			} else {
				c.score--
			}
			_, c.b = n.wayEnds(i, way)
			if !plain(c.b) {
				break
			}
			c.score += n.portScore(c.b, i)
			i = n.only(c.b, i, way, done)
		}
		list = append(list, c)
	}
	return list
}

// wayEnds returns the nodes of a run in the way of the water.
func (n *Net) wayEnds(i int, way []int8) (from, to int) {
	from, to = n.nodeEnds(i)
	if way[i] < 0 {
		from, to = to, from
	}
	return from, to
}

// only returns the other run with a way at a node that has two; -1 where there is none left.
func (n *Net) only(v, i int, way []int8, done []bool) int {
	for _, k := range n.nodes[v].runs {
		if k != i && way[k] != 0 && !done[k] {
			return k
		}
	}
	return -1
}

// portScore weighs the part at a node that is entered by run i: for its ports as written,
// against them negative; 0 where the kind has no way of its own.
func (n *Net) portScore(v, i int) int64 {
	p := n.Circuit.Parts[n.nodes[v].part]
	if !p.Kind.TwoPort() {
		return 0
	}
	weight := int64(portWeight)
	if p.Kind == graph.CheckValve {
		weight = checkWeight
	}
	r := n.Circuit.Runs[i]
	for _, ref := range []graph.PortRef{r.From, r.To} {
		if ref.Part == p.ID && ref.Port == graph.Out {
			return -weight
		}
	}
	return weight
}
