package network

import "math"

// Limits of the iteration.
const (
	mostSteps    = 300
	aimed        = 1e-12 // of the head scale
	aimedRoughly = 1e-10
	accepted     = 1e-8 // of the head scale, where rounding allows no better
	rough        = 1e-4 // of the head scale, while states of one-way edges change
	coarse       = 1e-2 // of the head scale, for a start
)

// newton solves the topology from the chords' flows in s.q. first says that these are mere
// guesses: the first step is then that of the network with secants for laws. aim is how far
// heads may miss, of the head scale.
func (s *Solver) newton(t *topology, first bool, aim float64) *ConvergenceError {
	for _, c := range t.edges {
		if !finite(s.q[c]) {
			s.q[c] = 0
		}
	}
	if s.res == nil {
		s.res = make([]float64, len(s.ends))
	}
	s.balance(t, s.q, s.inject)
	s.eval(t)
	most, where := s.imbalance(t, s.h, s.res)
	best, since := most, 0
	before := most
	for step := 0; ; step++ {
		s.steps++
		if s.driven { // by demands alone: the heads they make are the scale
			s.hs = s.spread(t)
		}
		if most <= aim*s.hs {
			return nil
		}
		if !finite(most) || step == mostSteps || since > 40 {
			if most <= accepted*s.hs {
				return nil
			}
			return &ConvergenceError{Iterations: s.steps, Residual: most, Edge: where, Why: "heads do not close"}
		}
		exact := s.direction(t, first, s.miss(t, most, before, aim))
		before = most
		first = false
		if !s.search(t, exact) {
			if most <= accepted*s.hs {
				return nil
			}
			return &ConvergenceError{Iterations: s.steps, Residual: most, Edge: where, Why: "no step leads nearer"}
		}
		most, where = s.imbalance(t, s.h, s.res)
		if since++; most < 0.7*best {
			best, since = most, 0
		}
	}
}

// spread returns the greatest loss of an edge.
func (s *Solver) spread(t *topology) float64 {
	most := 0.0
	for _, e := range t.edges {
		most = max(most, math.Abs(s.h[e]))
	}
	return most
}

// How far a step may be from Newton's, as a share, where there are loops enough for it to
// matter: with fewer an exact step costs no more.
const (
	fewLoops  = 30
	leastMiss = 1e-9
	mostMiss  = 1e-3
)

// miss returns how nearly the next step is worth finding, from the imbalance now and before
// the last step: the square of how far that came, for a step of Newton's comes no nearer than
// that, and no nearer than what is aimed at.
//
// Source: S. C. Eisenstat, H. F. Walker (1996), SIAM J. Sci. Comput. 17(1), 16-32, choice 2,
// from memory.
func (s *Solver) miss(t *topology, now, before, aim float64) float64 {
	if len(t.chords) <= fewLoops {
		return leastMiss
	}
	share := max(now*now/(before*before), 0.1*aim*s.hs/now)
	return min(max(share, leastMiss), mostMiss)
}

// direction sets work.dir of the chords to Newton's step, missing it by a share of miss where
// that is sought by steps. It reports whether the network is convex here, so that the content
// function falls along it.
func (s *Solver) direction(t *topology, first bool, miss float64) (convex bool) {
	d := s.work.resist
	convex = true
	for _, e := range t.edges {
		switch {
		case first:
			d[e] = max(s.secant[e], s.floor[e])
		case s.joint[e] >= 0 && !s.stiff:
			d[e] = max(s.s[e], 0.2*s.secant[e]*math.Abs(s.q[e])/s.qs, s.floor[e])
		default:
			d[e] = max(s.s[e], s.floor[e])
			if s.s[e] < 0 {
				convex = false
			}
		}
	}
	if len(s.net.Joints) > 0 && !s.stiff {
		convex = false
	}
	s.aimAtBalance(t)
	if !convex && !first && len(t.chords) <= mostDense && !s.seek {
		if s.direct(t, miss) {
			return false
		}
		s.aimAtBalance(t)
	}
	if !convex && !first && s.paysToEliminate(t) {
		if t.whole == nil {
			t.whole = s.newGeneral(t)
		}
		if t.whole.factor(s, t) && s.gmres(t, miss, mostDirect, func(t *topology, x []float64) { t.whole.precondition(s, t, x) }) {
			return false
		}
		s.aimAtBalance(t)
	}
	if t.elim == nil {
		t.elim = newElimination(len(s.p), s.ends, t)
	}
	t.elim.factor(t.edges, d)
	if convex || first {
		s.precondition(t, s.work.dir)
		return convex
	}
	s.gmres(t, miss, mostKrylov, s.precondition)
	return false
}

// paysToEliminate reports whether the joints are eliminated with the rest: where there are loops
// enough, and the net is solved again and again, as for ranges. To lay the elimination out for one
// solution takes longer than seeking its steps.
func (s *Solver) paysToEliminate(t *topology) bool {
	return !s.seek && s.times > 1 && len(t.chords) > fewLoops && len(s.net.Joints) > 0 && !s.stiff
}

// aimAtBalance sets work.dir of the chords to what is to be balanced.
func (s *Solver) aimAtBalance(t *topology) {
	for _, c := range t.chords {
		s.work.dir[c] = -s.res[c]
	}
}

// precondition turns the chords' imbalances in x into flows: the solution of the network
// whose edges have the resistances work.resist.
func (s *Solver) precondition(t *topology, x []float64) {
	b, d := s.work.b, s.work.resist
	clear(b)
	for _, c := range t.chords {
		f := x[c] / d[c]
		b[s.ends[c][0]] += f
		b[s.ends[c][1]] -= f
	}
	for _, v := range t.roots {
		b[v] = 0
	}
	t.elim.solve(b)
	for _, v := range t.roots {
		b[v] = 0
	}
	for _, c := range t.chords {
		x[c] = (x[c] - (b[s.ends[c][0]] - b[s.ends[c][1]])) / d[c]
	}
}

// move sets the flows to the old ones plus a share of the step, and reads the losses.
func (s *Solver) move(t *topology, share float64) {
	for _, e := range t.edges {
		s.q[e] = s.work.q0[e] + share*s.work.dq[e]
	}
	s.balance(t, s.q, s.inject)
	s.eval(t)
}

// search goes along the direction as far as serves, and reports whether it does.
func (s *Solver) search(t *topology, convex bool) bool {
	copy(s.work.q0, s.q)
	copy(s.work.dq, s.work.dir)
	s.balance(t, s.work.dq, nil)
	if convex {
		return s.searchConvex(t)
	}
	return s.searchResidual(t)
}

// along returns the derivative of the content function along the step at the present flows.
func (s *Solver) along(t *topology) float64 {
	s.potentials(t, s.h)
	sum := 0.0
	for _, c := range t.chords {
		sum += (s.h[c] - (s.p[s.ends[c][0]] - s.p[s.ends[c][1]])) * s.work.dq[c]
	}
	return sum
}

// searchConvex uses that the derivative of the content along the step rises all the way
// from a value below 0. Where it is not above 0 yet the content has fallen; where it is, the
// content has fallen if the sum of the derivatives at the ends of the stretches passed, each
// times its stretch, is below 0, for that sum is above the integral.
func (s *Solver) searchConvex(t *topology) bool {
	start := 0.0
	for _, c := range t.chords {
		start += s.res[c] * s.work.dq[c]
	}
	if start >= 0 {
		s.move(t, 0)
		return false
	}
	s.move(t, 1)
	g := s.along(t)
	if g <= 0 || g < 1e-9*-start {
		return true
	}
	lo, hi, glo, ghi := 0.0, 1.0, start, g
	bound := 0.0 // at least the content's change from 0 to lo
	side := 0
	for range 60 {
		m := (lo*ghi - hi*glo) / (ghi - glo)
		m = min(max(m, lo+0.02*(hi-lo)), hi-0.02*(hi-lo))
		s.move(t, m)
		g := s.along(t)
		if g <= 0 {
			bound += (m - lo) * g
			lo, glo = m, g
			if -g <= 0.3*-start {
				return true
			}
			if side < 0 {
				ghi /= 2
			}
			side = -1
			continue
		}
		if bound+(m-lo)*g < 0 && g <= 0.3*-start {
			return true
		}
		hi, ghi = m, g
		if side > 0 {
			glo /= 2
		}
		side = 1
	}
	s.move(t, lo)
	return lo > 0
}

// searchResidual goes back along the step until the sum of the squares of the imbalances
// has fallen.
func (s *Solver) searchResidual(t *topology) bool {
	start := 0.0
	for _, c := range t.chords {
		start += s.res[c] * s.res[c]
	}
	share := 1.0
	for range 30 {
		s.move(t, share)
		s.imbalance(t, s.h, s.work.tmp)
		sum := 0.0
		for _, c := range t.chords {
			sum += s.work.tmp[c] * s.work.tmp[c]
		}
		if sum < (1-1e-3*share)*start {
			return true
		}
		share /= 2
	}
	s.move(t, 0)
	return false
}
