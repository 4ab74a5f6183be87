package stream

import "dryfit/graph"

// orient returns the way of the water in every run: 1 from-to, -1 to-from, 0 it stands.
//
// The sources (pump outlets and the tub's suctions) hang on one node S, the sinks (pump
// inlets and the tub's returns) on one node T, and an edge joins S and T. A run carries
// water if it lies in the biconnected block of that edge, for just then a path without
// repeats leads from S over it to T. An st-order of the block gives the way: every node in
// it has a neighbour before and a neighbour after it, so water comes to it and leaves it.
//
// Source: R. E. Tarjan (1986), Two streamlined depth-first search algorithms, Fundamenta
// Informaticae 9, 85-94 (the st-order; from memory, proved by a property test here).
func orient(n *Net) []int8 {
	g := flowGraph(n)
	order := g.stOrder()
	way := make([]int8, len(n.Circuit.Runs))
	for _, e := range g.edges {
		if e.run < 0 || order[e.a] < 0 || order[e.b] < 0 || e.a == e.b {
			continue
		}
		way[e.run] = 1
		if order[e.a] > order[e.b] {
			way[e.run] = -1
		}
	}
	preferWritten(n, way, g, order)
	return way
}

// flow is the undirected graph of the water with its source and sink.
type flow struct {
	edges  []flowEdge
	at     [][]int // edges at each node
	source int
	sink   int
}

type flowEdge struct {
	a, b int
	run  int // -1: no run
}

func (g *flow) add(a, b, run int) {
	g.edges = append(g.edges, flowEdge{a, b, run})
	k := len(g.edges) - 1
	g.at[a] = append(g.at[a], k)
	if b != a {
		g.at[b] = append(g.at[b], k)
	}
}

// flowGraph builds the graph: the net's nodes, then S and T.
func flowGraph(n *Net) *flow {
	g := &flow{at: make([][]int, len(n.nodes)+2), source: len(n.nodes), sink: len(n.nodes) + 1}
	g.add(g.source, g.sink, -1)
	suction := suctionPorts(n)
	for v, d := range n.nodes {
		switch p := n.Circuit.Parts[d.part]; {
		case p.Kind == graph.Pump && d.port == graph.Out, p.Kind == graph.Tub && suction[v]:
			g.add(g.source, v, -1)
		case p.Kind == graph.Pump, p.Kind == graph.Tub:
			g.add(g.sink, v, -1)
		}
	}
	for _, i := range n.order {
		if n.carriesWater(i) {
			a, b := n.nodeEnds(i)
			g.add(a, b, i)
		}
	}
	return g
}

// suctionPorts tells which nodes are ports by which water leaves the tub: those nearer to a
// pump's inlet, counted in runs, than to a pump's outlet.
func suctionPorts(n *Net) []bool {
	toIn, toOut := n.distances(graph.In), n.distances(graph.Out)
	suction := make([]bool, len(n.nodes))
	for v, d := range n.nodes {
		if n.Circuit.Parts[d.part].Kind == graph.Tub {
			suction[v] = toIn[v] >= 0 && (toOut[v] < 0 || toIn[v] < toOut[v])
		}
	}
	return suction
}

// distances returns how many runs each node is away from the nearest pump's port of the
// name, pumps and tubs not passed; -1 where no way leads there.
func (n *Net) distances(port string) []int {
	dist := make([]int, len(n.nodes))
	var queue []int
	for v, d := range n.nodes {
		dist[v] = -1
		if n.Circuit.Parts[d.part].Kind == graph.Pump && d.port == port {
			dist[v] = 0
			queue = append(queue, v)
		}
	}
	for k := 0; k < len(queue); k++ {
		v := queue[k]
		if kind := n.Circuit.Parts[n.nodes[v].part].Kind; dist[v] > 0 && (kind == graph.Pump || kind == graph.Tub) {
			continue
		}
		for _, i := range n.nodes[v].runs {
			a, b := n.nodeEnds(i)
			for _, w := range []int{a, b} {
				if dist[w] < 0 {
					dist[w] = dist[v] + 1
					queue = append(queue, w)
				}
			}
		}
	}
	return dist
}

// stOrder returns the place of every node in an st-order of the block of the edge S-T, from
// 0; -1 for nodes outside of it. It does not recurse.
func (g *flow) stOrder() []int {
	size := len(g.at)
	pre, low, parent := make([]int, size), make([]int, size), make([]int, size)
	next := make([]int, size) // next edge of a node to look at
	for v := range pre {
		pre[v], parent[v] = -1, -1
	}
	up := make([]int, size) // edge to the parent
	order := []int{g.source}
	visit := func(v, edge, from int) {
		pre[v], low[v], up[v], parent[v] = len(order), len(order), edge, from
		order = append(order, v)
	}
	pre[g.source], low[g.source], up[g.source] = 0, 0, -1
	stack := []int{g.source}
	for len(stack) > 0 {
		v := stack[len(stack)-1]
		if next[v] == len(g.at[v]) {
			stack = stack[:len(stack)-1]
			if p := parent[v]; p >= 0 {
				low[p] = min(low[p], low[v])
			}
			continue
		}
		k := g.at[v][next[v]]
		next[v]++
		e := g.edges[k]
		w := e.a + e.b - v
		switch {
		case k == up[v] || w == v:
		case pre[w] < 0:
			visit(w, k, v)
			stack = append(stack, w)
		default:
			low[v] = min(low[v], pre[w])
		}
	}
	return g.list(order, pre, low, parent)
}

// list builds the st-order from the search: the nodes in preorder, each put before or after
// its parent by the sign of its low point.
func (g *flow) list(order, pre, low, parent []int) []int {
	before, after := make([]int, len(g.at)), make([]int, len(g.at))
	in := make([]bool, len(g.at))
	plus := make([]bool, len(g.at))
	for v := range before {
		before[v], after[v] = -1, -1
	}
	after[g.source], before[g.sink] = g.sink, g.source
	in[g.source], in[g.sink] = true, true
	for _, v := range order[1:] {
		p := parent[v]
		if v == g.sink || p == g.source || !in[p] || low[v] >= pre[p] {
			continue
		}
		in[v] = true
		if plus[order[low[v]]] {
			before[v], after[v] = p, after[p]
			plus[p] = false
		} else {
			before[v], after[v] = before[p], p
			plus[p] = true
		}
		if before[v] >= 0 {
			after[before[v]] = v
		}
		if after[v] >= 0 {
			before[after[v]] = v
		}
	}
	place := make([]int, len(g.at))
	for v := range place {
		place[v] = -1
	}
	for v, k := g.source, 0; v >= 0; v, k = after[v], k+1 {
		place[v] = k
	}
	return place
}
