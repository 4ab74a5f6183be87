package network

import (
	"cmp"
	"slices"
)

// topology is the part of the network that water can pass, with a spanning tree.
type topology struct {
	active []bool  // of each edge
	edges  []int32 // the active ones
	chords []int32 // active edges outside the tree
	order  []int32 // nodes, every parent before its children
	parent []int32 // edge to the parent; -1 for a root
	roots  []int32 // nodes without a parent
	twigs  []twig  // of order, without the roots
	comp   []int32 // number of the component of each node
	comps  int
	elim   *elimination
	whole  *general // nil until it is wanted
	passes [][]pass // the same: of each edge
}

// twig is an edge of the tree as the walks along it need it.
type twig struct {
	node, up, edge int32 // a node, its parent and the edge between them
	down           bool  // the edge goes from the parent to the node
}

// newTopology returns the topology of the active edges. The tree is one of least weight; of
// edges of equal weight the first is taken. Roots are the nodes preferred, where a
// component has one of them, else its first node.
func newTopology(nodes int, ends [][2]int32, active []bool, weight []float64, prefer []int32) *topology {
	t := &topology{active: active, parent: make([]int32, nodes), comp: make([]int32, nodes)}
	var sorted []int32
	for e := range ends {
		if active[e] {
			t.edges = append(t.edges, int32(e))
		}
	}
	sorted = slices.Clone(t.edges)
	slices.SortFunc(sorted, func(a, b int32) int {
		return cmp.Or(cmp.Compare(weight[a], weight[b]), cmp.Compare(a, b))
	})
	set := make([]int32, nodes)
	for v := range set {
		set[v] = int32(v)
	}
	find := func(v int32) int32 {
		for set[v] != v {
			set[v] = set[set[v]]
			v = set[v]
		}
		return v
	}
	inTree := make([]bool, len(ends))
	degree := make([]int32, nodes+1)
	for _, e := range sorted {
		a, b := find(ends[e][0]), find(ends[e][1])
		if a != b {
			set[max(a, b)] = min(a, b)
			inTree[e] = true
			degree[ends[e][0]+1]++
			degree[ends[e][1]+1]++
		}
	}
	for _, e := range t.edges {
		if !inTree[e] {
			t.chords = append(t.chords, e)
		}
	}
	t.hang(nodes, ends, inTree, degree, prefer)
	return t
}

// hang roots the tree and puts the nodes in order. degree[v+1] is the degree of v in the tree.
func (t *topology) hang(nodes int, ends [][2]int32, inTree []bool, degree []int32, prefer []int32) {
	for v := range nodes {
		degree[v+1] += degree[v]
	}
	at := make([]int32, degree[nodes])
	fill := slices.Clone(degree[:nodes])
	for _, e := range t.edges {
		if inTree[e] {
			for _, v := range ends[e] {
				at[fill[v]] = e
				fill[v]++
			}
		}
	}
	for v := range t.comp {
		t.comp[v] = -1
	}
	t.order = make([]int32, 0, nodes)
	root := func(v int32) {
		if t.comp[v] >= 0 {
			return
		}
		c := int32(t.comps)
		t.comps++
		t.comp[v], t.parent[v] = c, -1
		t.order = append(t.order, v)
		for k := len(t.order) - 1; k < len(t.order); k++ {
			u := t.order[k]
			for _, e := range at[degree[u]:degree[u+1]] {
				w := ends[e][0] + ends[e][1] - u
				if t.comp[w] < 0 {
					t.comp[w], t.parent[w] = c, e
					t.order = append(t.order, w)
				}
			}
		}
	}
	for _, v := range prefer {
		root(v)
	}
	for v := range nodes {
		root(int32(v))
	}
	for _, v := range t.order {
		if e := t.parent[v]; e >= 0 {
			down := ends[e][0] != v
			up := ends[e][1]
			if down {
				up = ends[e][0]
			}
			t.twigs = append(t.twigs, twig{node: v, up: up, edge: e, down: down})
		} else {
			t.roots = append(t.roots, v)
		}
	}
}
