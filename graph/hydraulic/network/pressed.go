package network

import "math"

// arc is a shut edge as a bound between the components at its ends: the head of from may be
// above that of to by no more than length without opening it.
type arc struct {
	from, to int32
	length   float64
	edge     int32
}

func (s *Solver) arcs(t *topology, shut []bool) []arc {
	var out []arc
	for i, off := range shut {
		if !off {
			continue
		}
		u, v := s.ends[i][0], s.ends[i][1]
		out = append(out, arc{t.comp[u], t.comp[v], s.first[i] - (s.p[u] - s.p[v]), int32(i)})
	}
	return out
}

// pressed looks for heads of the components, each of which is joined to the others by shut
// edges only, that leave all of these shut. It returns the edges that cannot all stay so,
// else how far each component's head lies above those in s.p, and the arcs.
//
// Such heads exist if no circle of arcs has a negative length (Bellman and Ford).
func (s *Solver) pressed(t *topology, shut []bool) (open []int32, above []float64, arcs []arc) {
	s.potentials(t, s.h)
	arcs = s.arcs(t, shut)
	if len(arcs) == 0 {
		return nil, make([]float64, t.comps), nil
	}
	tol := noHead * s.hs
	for _, a := range arcs {
		if a.from == a.to && a.length < -tol {
			open = append(open, a.edge)
		}
	}
	if len(open) > 0 {
		return open, nil, arcs
	}
	above = make([]float64, t.comps)
	by := make([]int, t.comps)
	for i := range by {
		by[i] = -1
	}
	for round := 0; ; round++ {
		changed := -1
		for i, a := range arcs {
			if a.from == a.to {
				continue
			}
			if d := above[a.to] + a.length; d < above[a.from]-tol/float64(1+len(arcs)) {
				above[a.from], by[a.from] = d, i
				changed = int(a.from)
			}
		}
		if changed < 0 {
			return nil, above, arcs
		}
		if round > t.comps {
			return circle(arcs, by, changed), nil, arcs
		}
	}
}

// deadHeads sets the components that hang on the base one by pumps without flow to the heads
// these press them to, and returns which components' heads follow.
func (s *Solver) deadHeads(t *topology, arcs []arc, above []float64, base int32) []bool {
	known := make([]bool, t.comps)
	known[base] = true
	for range t.comps {
		changed := false
		for _, a := range arcs {
			if s.first[a.edge] >= 0 || !known[a.from] || a.to == base {
				continue
			}
			if d := above[a.from] - a.length; !known[a.to] || d > above[a.to] {
				above[a.to], known[a.to] = d, true
				changed = true
			}
		}
		if !changed {
			break
		}
	}
	return known
}

// circle returns the edges of a circle of negative length.
func circle(arcs []arc, by []int, c int) []int32 {
	for range by {
		if by[c] < 0 {
			return nil
		}
		c = int(arcs[by[c]].to)
	}
	var out []int32
	for at := c; ; {
		a := arcs[by[at]]
		out = append(out, a.edge)
		at = int(a.to)
		if at == c || len(out) > len(by) {
			return out
		}
	}
}

// slack returns how much more head would open a shut edge: the length of the shortest
// circle of arcs through it; +Inf where there is none.
func slack(comps int, arcs []arc, edge int32) float64 {
	var own *arc
	for i := range arcs {
		if arcs[i].edge == edge {
			own = &arcs[i]
		}
	}
	if own == nil {
		return math.Inf(1)
	}
	if own.from == own.to {
		return own.length
	}
	// the way from own.to along arcs reversed: dist[c] bounds head of own.to... below c's
	dist := make([]float64, comps)
	for i := range dist {
		dist[i] = math.Inf(1)
	}
	dist[own.to] = 0
	for range comps {
		changed := false
		for _, a := range arcs {
			// head[a.from] <= head[a.to] + length: from a.from on to a.to
			if d := dist[a.from] + a.length; d < dist[a.to] {
				dist[a.to] = d
				changed = true
			}
		}
		if !changed {
			break
		}
	}
	return own.length + dist[own.from]
}
