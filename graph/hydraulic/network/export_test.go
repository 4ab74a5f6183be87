package network

import "math"

// SeekSteps has the solver seek each step as if its joints could not be eliminated.
func (s *Solver) SeekSteps() { s.seek = true }

// DirectMiss eliminates the joints at the solution found last, puts flows along the chords through
// the slopes there and gets them back: it returns by how much of the largest they are missed, and
// how many chords there are; -1 where it can't be eliminated.
func (s *Solver) DirectMiss(flow func() float64) (miss float64, chords int) {
	for _, t := range s.topos {
		if len(t.chords) <= chords {
			continue
		}
		chords = len(t.chords)
		s.eval(t)
		for _, e := range t.edges {
			s.work.resist[e] = max(s.s[e], s.floor[e])
		}
		g := s.newGeneral(t)
		if !g.factor(s, t) {
			return -1, chords
		}
		x, want, most := make([]float64, len(s.ends)), make([]float64, len(s.ends)), 0.0
		for _, c := range t.chords {
			x[c] = flow()
			want[c], most = x[c], max(most, math.Abs(x[c]))
		}
		s.apply(t, x)
		g.precondition(s, t, x)
		miss = 0
		for _, c := range t.chords {
			miss = max(miss, math.Abs(x[c]-want[c])/most)
		}
	}
	return miss, chords
}

// LoopsMiss is DirectMiss of a net of few loops, by their matrix; miss is infinite where that does not
// serve, and chords 0 where there are none or too many.
func (s *Solver) LoopsMiss(flow func() float64) (miss float64, chords int) {
	for _, t := range s.topos {
		if len(t.chords) <= chords || len(t.chords) > mostDense {
			continue
		}
		chords, miss = len(t.chords), 0
		s.eval(t)
		x, want, most := make([]float64, len(s.ends)), make([]float64, len(s.ends)), 0.0
		for _, c := range t.chords {
			x[c] = flow()
			want[c], most = x[c], max(most, math.Abs(x[c]))
		}
		s.apply(t, x)
		for _, c := range t.chords {
			s.res[c] = -x[c]
		}
		s.aimAtBalance(t)
		if !s.direct(t, leastMiss) {
			miss = math.Inf(1)
			continue
		}
		for _, c := range t.chords {
			miss = max(miss, math.Abs(s.work.dir[c]-want[c])/most)
		}
	}
	return miss, chords
}
