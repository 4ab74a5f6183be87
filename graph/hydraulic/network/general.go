package network

import "slices"

// general solves the linear system of a step with the joints' cross terms in it, by which the
// legs of a joint move each other's heads: nodes are eliminated as elimination does it, in an
// order of its own, but what one node gives another is no longer what it gets from it. Where all
// slopes rise there is no subtraction in it either; what others cost is made good by the search
// by steps that it is the preconditioner of.
type general struct {
	el    *elimination // the pattern, and what later nodes give earlier ones
	low   []float64    // what earlier nodes give later ones, slot by slot
	chord []bool
	flows [][3][3]float64 // of each joint: the flows of its legs by their losses
	into  []crossing      // of each joint
}

// crossing says where what the head of a leg's end does to the balance of another's end is added,
// by both legs and both ends; nil where it moves nothing.
type crossing [3][3][2][2]*float64

// newGeneral lays the pattern out: all nodes of a joint are neighbours.
func (s *Solver) newGeneral(t *topology) *general {
	ends, with := slices.Clone(s.ends), &topology{edges: slices.Clone(t.edges), parent: t.parent}
	for _, j := range s.net.Joints {
		var nodes []int32
		for _, e := range j.Edges {
			nodes = append(nodes, s.ends[e][0], s.ends[e][1])
		}
		slices.Sort(nodes)
		nodes = slices.Compact(nodes)
		for i, a := range nodes {
			for _, b := range nodes[i+1:] {
				with.edges = append(with.edges, int32(len(ends)))
				ends = append(ends, [2]int32{a, b})
			}
		}
	}
	g := &general{el: newElimination(len(s.p), ends, with), chord: make([]bool, len(s.ends)), flows: make([][3][3]float64, len(s.net.Joints))}
	g.low = make([]float64, len(g.el.cond))
	for _, c := range t.chords {
		g.chord[c] = true
	}
	g.into = make([]crossing, len(s.net.Joints))
	for j, legs := range s.net.Joints {
		for i, e := range legs.Edges {
			for k, o := range legs.Edges {
				for m, v := range s.ends[e] {
					for n, w := range s.ends[o] {
						g.into[j][i][k][m][n] = g.slot(t, v, w)
					}
				}
			}
		}
	}
	return g
}

// factor eliminates with the resistances of the edges that are no joint's and the present slopes
// of the joints; false where that can't be done.
func (g *general) factor(s *Solver, t *topology) bool {
	el := g.el
	clear(el.cond)
	clear(g.low)
	clear(el.g)
	for i, e := range t.edges {
		if s.joint[e] >= 0 {
			continue
		}
		c := 1 / s.work.resist[e]
		switch slot := el.slot[i]; {
		case slot >= 0:
			el.cond[slot] += c
			g.low[slot] += c
		case slot == -1:
			el.g[el.ground[i]] += c
		}
	}
	for j, legs := range s.net.Joints {
		m := s.js[j]
		for k, e := range legs.Edges {
			m[k][k] += s.floor[e]
		}
		flows, ok := inverse(m)
		if !ok {
			return false
		}
		g.flows[j] = flows
		for i := range flows {
			for k := range flows {
				g.into[j].add(i, k, flows[i][k])
			}
		}
	}
	return g.eliminate()
}

// slot is where it is added what the head at w does to the balance of v.
func (g *general) slot(t *topology, v, w int32) *float64 {
	switch {
	case v == w || t.parent[v] < 0:
		return nil
	case t.parent[w] < 0:
		return &g.el.g[v]
	case g.el.place[v] < g.el.place[w]:
		return &g.el.cond[g.el.slotOf(v, w)]
	}
	return &g.low[g.el.slotOf(v, w)]
}

// add adds a flow along one leg that the head lost along another makes, m³/s per m: it leaves its
// leg's first node, and rises with the head of the other's first.
func (c *crossing) add(i, k int, flow float64) {
	for m, ends := range c[i][k] {
		for n, to := range ends {
			switch {
			case to == nil:
			case m == n:
				*to -= flow
			default:
				*to += flow
			}
		}
	}
}

// eliminate takes out one node after the other.
func (g *general) eliminate() bool {
	el, ok := g.el, true
	take := func(v int32, cond, low []float64, node func(int) int32, slot func(i, o int) int32) {
		sum := el.g[v]
		for _, c := range cond {
			sum += c
		}
		ok = ok && sum != 0 && finite(sum)
		el.sum[v] = sum
		for i := range low {
			low[i] /= sum
		}
		for i := range cond {
			el.g[node(i)] += low[i] * el.g[v]
			for o := i + 1; o < len(cond); o++ {
				at := slot(i, o)
				el.cond[at] += low[i] * cond[o]
				g.low[at] += low[o] * cond[i]
			}
		}
		for i := range cond {
			cond[i] /= sum
		}
	}
	for k, v := range el.order {
		lo, hi, pair := el.ptr[k], el.ptr[k+1], el.pair[el.pairPtr[k]:]
		take(v, el.cond[lo:hi], g.low[lo:hi], func(i int) int32 { return el.nbr[int(lo)+i] }, func(int, int) int32 {
			at := pair[0]
			pair = pair[1:]
			return at
		})
	}
	size := len(el.dense)
	for k, v := range el.dense {
		lo, hi := el.base+k*size+k+1, el.base+(k+1)*size
		take(v, el.cond[lo:hi], g.low[lo:hi], func(i int) int32 { return el.dense[k+1+i] },
			func(i, o int) int32 { return int32(el.base + (k+1+i)*size + k + 1 + o) })
	}
	return ok
}

// solve turns the flows put in at the nodes into their heads over the roots, in place.
func (g *general) solve(b []float64) {
	el, size := g.el, len(g.el.dense)
	for k, v := range el.order {
		for s := el.ptr[k]; s < el.ptr[k+1]; s++ {
			b[el.nbr[s]] += g.low[s] * b[v]
		}
	}
	for k, v := range el.dense {
		for i := k + 1; i < size; i++ {
			b[el.dense[i]] += g.low[el.base+k*size+i] * b[v]
		}
	}
	for k := size - 1; k >= 0; k-- {
		x := b[el.dense[k]] / el.sum[el.dense[k]]
		for i := k + 1; i < size; i++ {
			x += el.cond[el.base+k*size+i] * b[el.dense[i]]
		}
		b[el.dense[k]] = x
	}
	for k := len(el.order) - 1; k >= 0; k-- {
		v := el.order[k]
		x := b[v] / el.sum[v]
		for s := el.ptr[k]; s < el.ptr[k+1]; s++ {
			x += el.cond[s] * b[el.nbr[s]]
		}
		b[v] = x
	}
}

// precondition turns the chords' imbalances in x into flows.
func (g *general) precondition(s *Solver, t *topology, x []float64) {
	b, f := s.work.b, s.work.old
	clear(b)
	for _, e := range t.edges {
		f[e] = 0
		if g.chord[e] {
			f[e] = x[e]
		}
	}
	put := func() {
		for _, e := range t.edges {
			b[s.ends[e][0]] += f[e]
			b[s.ends[e][1]] -= f[e]
		}
	}
	g.ofLosses(s, t, f)
	put()
	for _, v := range t.roots {
		b[v] = 0
	}
	g.solve(b)
	for _, v := range t.roots {
		b[v] = 0
	}
	for _, e := range t.edges {
		f[e] = b[s.ends[e][1]] - b[s.ends[e][0]]
		if g.chord[e] {
			f[e] += x[e]
		}
	}
	g.ofLosses(s, t, f)
	for _, c := range t.chords {
		x[c] = f[c]
	}
}

// ofLosses turns the heads lost along the edges into their flows.
func (g *general) ofLosses(s *Solver, t *topology, f []float64) {
	for _, e := range t.edges {
		if s.joint[e] < 0 {
			f[e] /= s.work.resist[e]
		}
	}
	for j, legs := range s.net.Joints {
		a, b, c := f[legs.Edges[0]], f[legs.Edges[1]], f[legs.Edges[2]]
		for i, e := range legs.Edges {
			m := &g.flows[j][i]
			f[e] = m[0]*a + m[1]*b + m[2]*c
		}
	}
}

// inverse of a matrix of three rows, by cofactors; false where there is none.
func inverse(m [3][3]float64) (out [3][3]float64, ok bool) {
	minor := func(i, k int) float64 {
		a, b, c, d := (i+1)%3, (i+2)%3, (k+1)%3, (k+2)%3
		return m[a][c]*m[b][d] - m[a][d]*m[b][c]
	}
	det := m[0][0]*minor(0, 0) + m[0][1]*minor(0, 1) + m[0][2]*minor(0, 2)
	for i := range out {
		for k := range out {
			out[i][k] = minor(k, i) / det
		}
	}
	return out, det != 0 && finite(1/det)
}
