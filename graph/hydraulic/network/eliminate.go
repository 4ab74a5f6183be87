package network

import "slices"

// elimination solves systems with the matrix of the nodes' conductances, the roots of the
// components being grounded. It eliminates one node after the other by turning the star of
// its conductances into a mesh between its neighbours: only sums, products and quotients of
// positive numbers, so every conductance keeps its full relative accuracy however far they
// lie apart. Nodes of least degree go first; when what is left is dense, a dense block takes
// over.
type elimination struct {
	n       int
	order   []int32 // nodes of the sparse part, as they are eliminated
	ptr     []int32 // slots of each
	nbr     []int32 // neighbour in each slot
	pairPtr []int32
	pair    []int32 // slot each pair of neighbours adds to
	slot    []int32 // of each active edge (by place in topology.edges): its slot; -1 to ground; -2 a loop of itself
	ground  []int32 // node grounded by the edge, where slot is -1
	dense   []int32 // nodes of the dense part
	base    int     // first slot of the dense part
	place   []int32 // of each node in the order of elimination, the dense part's last

	cond []float64 // conductance in each slot; after factor, over the sum for the sparse part
	g    []float64 // to ground, of each node
	sum  []float64 // of each node when it was eliminated
}

// Work is how many products one elimination of the nodes takes where the net has loops enough for their
// joints to be eliminated with the rest, once it was solved: what a step of it costs beside its laws. 0
// where it has few.
func (s *Solver) Work() int {
	most := 0
	for _, t := range s.topos {
		if len(t.chords) <= fewLoops || len(s.net.Joints) == 0 {
			continue
		}
		if t.whole == nil {
			t.whole = s.newGeneral(t)
		}
		el := t.whole.el
		size := len(el.dense)
		most = max(most, len(el.pair)+size*size*size/3)
	}
	return most
}

// mostSparse is the degree from which the rest is treated as dense.
const mostSparse = 48

func newElimination(nodes int, ends [][2]int32, t *topology) *elimination {
	el := &elimination{n: nodes, g: make([]float64, nodes), sum: make([]float64, nodes)}
	isRoot := make([]bool, nodes)
	for v := range nodes {
		isRoot[v] = t.parent[v] < 0
	}
	adj := neighbours(nodes, ends, t, isRoot)
	el.place = el.sequence(adj, isRoot)
	el.layOut(adj, ends, t, isRoot)
	return el
}

func neighbours(nodes int, ends [][2]int32, t *topology, isRoot []bool) [][]int32 {
	count := make([]int32, nodes+1)
	for _, e := range t.edges {
		a, b := ends[e][0], ends[e][1]
		if a != b && !isRoot[a] && !isRoot[b] {
			count[a+1]++
			count[b+1]++
		}
	}
	for v := range nodes {
		count[v+1] += count[v]
	}
	all := make([]int32, count[nodes])
	fill := slices.Clone(count[:nodes])
	for _, e := range t.edges {
		a, b := ends[e][0], ends[e][1]
		if a != b && !isRoot[a] && !isRoot[b] {
			all[fill[a]], all[fill[b]] = b, a
			fill[a]++
			fill[b]++
		}
	}
	adj := make([][]int32, nodes)
	for v := range nodes {
		list := all[count[v]:count[v+1]:count[v+1]]
		slices.Sort(list)
		adj[v] = slices.Compact(list)
	}
	return adj
}

// sequence finds the order of elimination; afterwards adj of an eliminated node holds the
// neighbours it then had. It returns each node's place, dense ones last.
func (el *elimination) sequence(adj [][]int32, isRoot []bool) []int32 {
	nodes := len(adj)
	place := make([]int32, nodes)
	mark := make([]int32, nodes)
	buckets := make([][]int32, mostSparse+1)
	left := 0
	push := func(v int32) {
		if d := len(adj[v]); d <= mostSparse {
			buckets[d] = append(buckets[d], v)
		}
	}
	for v := nodes - 1; v >= 0; v-- { // a bucket is used from its end: first nodes first
		place[v] = -1
		mark[v] = -1
		if !isRoot[v] {
			left++
			push(int32(v))
		}
	}
	for low := 0; low <= mostSparse; {
		b := buckets[low]
		if len(b) == 0 {
			low++
			continue
		}
		k := b[len(b)-1]
		buckets[low] = b[:len(b)-1]
		if place[k] >= 0 || len(adj[k]) != low {
			continue
		}
		place[k] = int32(len(el.order))
		el.order = append(el.order, k)
		left--
		star := adj[k]
		for _, i := range star {
			adj[i] = joinNeighbours(adj[i], star, i, k, mark)
			push(i)
			low = min(low, len(adj[i]))
		}
	}
	for v := range nodes {
		if !isRoot[v] && place[v] < 0 {
			place[v] = int32(len(el.order) + len(el.dense))
			el.dense = append(el.dense, int32(v))
		}
	}
	return place
}

// joinNeighbours returns the neighbours of i once k, whose neighbours are star, is gone.
func joinNeighbours(list, star []int32, i, k int32, mark []int32) []int32 {
	out := list[:0]
	for _, v := range list {
		if v != k {
			mark[v] = i
			out = append(out, v)
		}
	}
	for _, v := range star {
		if v != i && mark[v] != i {
			mark[v] = i
			out = append(out, v)
		}
	}
	for _, v := range out {
		mark[v] = -1
	}
	return out
}

// layOut gives every pair of neighbours its slot.
func (el *elimination) layOut(adj [][]int32, ends [][2]int32, t *topology, isRoot []bool) {
	byPlace := func(a, b int32) int { return int(el.place[a] - el.place[b]) }
	el.ptr = make([]int32, len(el.order)+1)
	for k, v := range el.order {
		slices.SortFunc(adj[v], byPlace)
		el.nbr = append(el.nbr, adj[v]...)
		el.ptr[k+1] = int32(len(el.nbr))
	}
	el.base = len(el.nbr)
	size := len(el.dense)
	el.cond = make([]float64, el.base+size*size)
	el.pairPtr = make([]int32, len(el.order)+1)
	for k := range el.order {
		star := el.star(k)
		for i := range star {
			for j := i + 1; j < len(star); j++ {
				el.pair = append(el.pair, el.slotOf(star[i], star[j]))
			}
		}
		el.pairPtr[k+1] = int32(len(el.pair))
	}
	el.slot, el.ground = make([]int32, len(t.edges)), make([]int32, len(t.edges))
	for i, e := range t.edges {
		a, b := ends[e][0], ends[e][1]
		switch {
		case a == b || isRoot[a] && isRoot[b]:
			el.slot[i] = -2
		case isRoot[a]:
			el.slot[i], el.ground[i] = -1, b
		case isRoot[b]:
			el.slot[i], el.ground[i] = -1, a
		default:
			el.slot[i] = el.slotOf(a, b)
		}
	}
}

// slotOf is the slot of two neighbours.
func (el *elimination) slotOf(a, b int32) int32 {
	pa, pb := el.place[a], el.place[b]
	if pa > pb {
		pa, pb = pb, pa
	}
	if k := int(pa) - len(el.order); k >= 0 {
		return int32(el.base + k*len(el.dense) + int(pb) - len(el.order))
	}
	lo, hi := el.ptr[pa], el.ptr[pa+1]
	for lo < hi {
		m := (lo + hi) / 2
		if el.place[el.nbr[m]] < pb {
			lo = m + 1
		} else {
			hi = m
		}
	}
	return lo
}

// factor eliminates with the resistances (m per m³/s, above 0) of the active edges.
func (el *elimination) factor(edges []int32, resistance []float64) {
	clear(el.cond)
	clear(el.g)
	for i, e := range edges {
		switch s := el.slot[i]; {
		case s >= 0:
			el.cond[s] += 1 / resistance[e]
		case s == -1:
			el.g[el.ground[i]] += 1 / resistance[e]
		}
	}
	for k, v := range el.order {
		lo, hi := el.ptr[k], el.ptr[k+1]
		sum := el.g[v]
		for _, c := range el.cond[lo:hi] {
			sum += c
		}
		el.sum[v] = sum
		pair := el.pair[el.pairPtr[k]:el.pairPtr[k+1]]
		for s := lo; s < hi; s++ {
			share := el.cond[s] / sum
			el.g[el.nbr[s]] += share * el.g[v]
			rest := el.cond[s+1 : hi]
			to := pair[:len(rest)]
			pair = pair[len(rest):]
			for o, c := range rest {
				el.cond[to[o]] += share * c
			}
		}
		for s := lo; s < hi; s++ {
			el.cond[s] /= sum
		}
	}
	size := len(el.dense)
	for k, v := range el.dense {
		row := el.cond[el.base+k*size : el.base+(k+1)*size]
		sum := el.g[v]
		for _, c := range row[k+1:] {
			sum += c
		}
		el.sum[v] = sum
		for i := k + 1; i < size; i++ {
			share := row[i] / sum
			if share == 0 {
				continue
			}
			el.g[el.dense[i]] += share * el.g[v]
			from := row[i+1:]
			target := el.cond[el.base+i*size+i+1:][:len(from)]
			for j, c := range from {
				target[j] += share * c
			}
		}
		for i := k + 1; i < size; i++ {
			row[i] /= sum
		}
	}
}

// star is the neighbours of the k-th node of the sparse part when it is eliminated.
func (el *elimination) star(k int) []int32 { return el.nbr[el.ptr[k]:el.ptr[k+1]] }

// solve turns the flows put in at the nodes (m³/s) into their heads over the roots (m), in
// place.
func (el *elimination) solve(b []float64) {
	lo := int32(0)
	for k, v := range el.order {
		hi, at := el.ptr[k+1], b[v]
		cond := el.cond[lo:hi]
		star := el.nbr[lo:hi][:len(cond)]
		for i, c := range cond {
			b[star[i]] += c * at
		}
		lo = hi
	}
	size := len(el.dense)
	for k, v := range el.dense {
		row := el.cond[el.base+k*size:]
		for i := k + 1; i < size; i++ {
			b[el.dense[i]] += row[i] * b[v]
		}
	}
	for k := size - 1; k >= 0; k-- {
		v := el.dense[k]
		row := el.cond[el.base+k*size:]
		x := b[v] / el.sum[v]
		for i := k + 1; i < size; i++ {
			x += row[i] * b[el.dense[i]]
		}
		b[v] = x
	}
	hi := el.ptr[len(el.order)]
	for k := len(el.order) - 1; k >= 0; k-- {
		lo, v := el.ptr[k], el.order[k]
		x := b[v] / el.sum[v]
		cond := el.cond[lo:hi]
		star := el.nbr[lo:hi][:len(cond)]
		for i, c := range cond {
			x += c * b[star[i]]
		}
		b[v] = x
		hi = lo
	}
}
