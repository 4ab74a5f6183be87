package network

import "math"

// shifted is a law with a head added to it.
type shifted struct {
	law  Law
	head float64
}

func (l *shifted) Loss(q float64) (float64, float64) {
	h, slope := l.law.Loss(q)
	return h + l.head, slope
}

// solveBounded solves a network some laws of which fall in places. There may be several
// answers; the one with the most flow is found by starting from the laws' lower bounds,
// which give at least as much flow as any answer, and adding what a law is above its bound
// at the flow found, again and again: with one such law the flow falls to the largest
// answer and no further, or where there is none there past it to the next, on which it may
// swing (approach). From the upper bounds the least answer is found in the same way; if it is
// another, it is the one returned, for a start from rest comes to it first, and the flow says so.
func (s *Solver) solveBounded(which []int) (*Flow, error) {
	most, err := s.approach(which, func(b Bounded) Law { return b.Least() })
	if err != nil {
		f, other := s.solveFrom(nil) // from the pumps' larger flows, with the laws as they are
		if other != nil {
			return nil, err
		}
		return f, nil
	}
	steps := s.steps
	least, err := s.approach(which, func(b Bounded) Law { return b.Greatest() })
	most.Iterations = steps
	if err == nil {
		for i, q := range most.Q {
			if math.Abs(q-least.Q[i]) > 1e-5*s.qs {
				least.Two, least.Other, least.Iterations = true, most.Q, s.steps
				return least, nil
			}
		}
	}
	return most, nil
}

// mostPasses is how often a bound is brought nearer.
const mostPasses = 200

// approach adds to the bounds what the laws are above them, again and again. Where a law rises
// faster than what is round it that would swing for ever about the answer: each time it passes it,
// half as much is added from there on.
func (s *Solver) approach(which []int, bound func(Bounded) Law) (*Flow, error) {
	truth := make([]Bounded, len(which))
	near := make([]*shifted, len(which))
	last := make([]float64, len(which)) // by how much a bound was off at the pass before
	part := make([]float64, len(which)) // of that, how much it is moved by
	for k, i := range which {
		truth[k] = s.net.Edges[i].Law.(Bounded)
		near[k], part[k] = &shifted{law: bound(truth[k])}, 1
		s.law[i] = near[k]
	}
	s.size(true)
	defer func() {
		for k, i := range which {
			s.law[i] = truth[k]
		}
		s.size(true)
	}()
	var f *Flow
	for range mostPasses {
		next, err := s.solveFrom(f)
		if err != nil {
			return nil, err
		}
		f = next
		moved := 0.0
		for k, i := range which {
			q := f.Q[i]
			h, _ := truth[k].Loss(q)
			b, _ := near[k].law.Loss(q)
			off := h - b - near[k].head
			if off*last[k] < 0 {
				part[k] /= 2
			}
			last[k] = off
			moved = max(moved, math.Abs(off))
			near[k].head += part[k] * off
		}
		if moved <= 1e-11*s.hs {
			return f, nil
		}
		if moved <= 1e-2*s.hs { // near enough for Newton with the true laws
			if g := s.polish(which, truth, near, f); g != nil {
				return g, nil
			}
		}
		s.size(true)
	}
	return nil, &ConvergenceError{Iterations: s.steps, Edge: which[0], Why: "a law that falls in places finds no flow"}
}

// polish tries Newton's method with the true laws from near an answer; nil if it leads away.
func (s *Solver) polish(which []int, truth []Bounded, near []*shifted, f *Flow) *Flow {
	for k, i := range which {
		s.law[i] = truth[k]
	}
	s.size(true)
	g, err := s.solveNear(f)
	for k, i := range which {
		s.law[i] = near[k]
	}
	if err != nil {
		return nil
	}
	for i := range g.Q {
		if math.Abs(g.Q[i]-f.Q[i]) > 0.05*s.qs {
			return nil
		}
	}
	return g
}

// solveNear solves from near a flow, or not at all.
func (s *Solver) solveNear(near *Flow) (*Flow, error) {
	shut := make([]bool, len(s.ends))
	copy(s.q, near.Q)
	clear(s.q[len(near.Q):])
	copy(shut, near.Shut)
	t, err := s.settle(shut, false)
	if err != nil {
		return nil, err
	}
	return s.answer(t, shut)
}
