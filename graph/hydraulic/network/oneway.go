package network

import "math"

// Tolerances at the threshold of a one-way edge, where both its states are right: as shares
// of the flow and of the head scale. A head that far beyond the threshold opens it by no
// more than that flow, so one state is always accepted.
const (
	noFlow = 1e-10
	noHead = 1e-9
)

// topologyOf returns the topology without the edges that are shut.
func (s *Solver) topologyOf(shut []bool, key string) *topology {
	if t, ok := s.topos[key]; ok {
		return t
	}
	active := make([]bool, len(s.ends))
	weight := make([]float64, len(s.ends))
	for i := range active {
		active[i] = !shut[i]
		weight[i] = s.secant[i]
		if s.oneWay[i] {
			weight[i] = math.Inf(1) // rather a chord
		}
	}
	t := newTopology(len(s.p), s.ends, active, weight, s.prefer)
	if len(s.topos) > 64 {
		clear(s.topos)
	}
	s.topos[key] = t
	return t
}

// feasible reports whether the demands of every component can be met, which takes a fixed
// head or demands that add up to nothing.
func (s *Solver) feasible(t *topology) bool {
	if s.net.Demand == nil {
		return true
	}
	sum := make([]float64, t.comps)
	for v := range s.p {
		sum[t.comp[v]] += s.inject[v]
	}
	for c, d := range sum {
		if math.Abs(d) <= 1e-12*s.qs {
			continue
		}
		if s.extra > 0 && int(t.comp[s.net.Nodes]) == c {
			continue
		}
		return false
	}
	return true
}

// settle finds the states of the one-way edges and the flows that go with them, from the
// states in shut and the flows in s.q.
//
// With the states given the network is smooth and solved to the last digits; an edge that
// then is open against its flow is shut, one that is pressed beyond its threshold is opened,
// and so on. Should states come round again, the states are read from a network in which
// those edges are steep walls, whose solution is unique where losses rise; and after that
// only one edge is changed at a time.
func (s *Solver) settle(shut []bool, first bool) (*topology, *ConvergenceError) {
	seen := map[string]bool{}
	walls, single := false, false
	aim := s.aim
	if first {
		aim = rough // while states change; then to the last digits
	}
	for range s.mostRounds() {
		key := stateKey(shut, s.oneWay)
		if seen[key] {
			switch {
			case aim == rough:
				aim = s.aim
				clear(seen)
			case !walls:
				walls = true
				if err := s.wall(shut); err != nil {
					return nil, err
				}
				clear(seen)
				continue
			case !single:
				single = true
				clear(seen)
			}
		}
		seen[key] = true
		t := s.topologyOf(shut, key)
		if !s.feasible(t) {
			return nil, &ConvergenceError{Iterations: s.steps, Edge: -1, Why: "a demand cannot be met"}
		}
		for i, off := range shut {
			if off {
				s.q[i] = 0
			}
		}
		if err := s.smooth(t, first, aim); err != nil {
			if walls {
				return nil, err
			}
			walls = true
			if s.wall(shut) != nil {
				return nil, err
			}
			first = false
			clear(seen)
			continue
		}
		first = false
		if s.flip(t, shut, single) {
			continue
		}
		if aim == s.aim {
			return t, nil
		}
		aim = s.aim
		clear(seen)
	}
	return nil, &ConvergenceError{Iterations: s.steps, Edge: -1, Why: "the one-way edges find no state"}
}

// mostRounds is how often settle looks at the states: more often where there are more of them.
func (s *Solver) mostRounds() int {
	most := 12
	for _, w := range s.oneWay {
		if w {
			most += 4
		}
	}
	return most
}

// stateKey writes the states of the one-way edges.
func stateKey(shut, oneWay []bool) string {
	key := make([]byte, 0, 16)
	for i, w := range oneWay {
		if w {
			if shut[i] {
				key = append(key, 's')
			} else {
				key = append(key, 'o')
			}
		}
	}
	return string(key)
}

// flip changes the states that are wrong and reports whether there were any.
func (s *Solver) flip(t *topology, shut []bool, single bool) bool {
	changed := false
	worst, at := 0.0, -1
	for i, w := range s.oneWay {
		if w && !shut[i] && s.q[i] <= noFlow*s.qs {
			if single {
				if bad := 1 + -s.q[i]/s.qs; bad > worst {
					worst, at = bad, i
				}
				continue
			}
			shut[i] = true
			changed = true
		}
	}
	if changed {
		return true // the heads at its ends hang on the water it let pass
	}
	if at >= 0 {
		shut[at] = true
		return true
	}
	open, _, _ := s.pressed(t, shut)
	for _, e := range open {
		shut[e] = false
		if s.q[e] == 0 {
			s.q[e] = 1e-3 * s.qs
		}
		if single {
			return true
		}
	}
	return len(open) > 0
}

// smooth solves a topology with its joints, by Newton or, where that fails, by passes in
// which the joints' losses are frozen.
func (s *Solver) smooth(t *topology, first bool, aim float64) *ConvergenceError {
	if first && len(s.net.Joints) > 0 {
		clear(s.frozen)
		clear(s.frozenQ)
		s.stiff, s.steep = true, 1
		err := s.newton(t, true, coarse)
		s.stiff = false
		if err != nil {
			return err
		}
		first = false
	}
	start := append([]float64(nil), s.q...)
	err := s.newton(t, first, aim)
	if err == nil || len(s.net.Joints) == 0 {
		return err
	}
	copy(s.q, start)
	for pass := range 60 {
		s.balance(t, s.q, s.inject)
		old := append([]float64(nil), s.q...)
		s.freeze()
		s.stiff, s.steep = true, 1
		e := s.newton(t, false, aimed)
		s.stiff = false
		if e != nil {
			return err
		}
		for i := range s.q {
			s.q[i] = old[i] + 0.5*(s.q[i]-old[i])
		}
		if pass%6 == 5 {
			keep := append([]float64(nil), s.q...)
			if s.newton(t, false, aim) == nil {
				return nil
			}
			copy(s.q, keep)
		}
	}
	return err
}

// freeze keeps the joints' losses at the present flows.
func (s *Solver) freeze() {
	for _, j := range s.net.Joints {
		var q [3]float64
		for k, e := range j.Edges {
			q[k] = s.q[e]
		}
		h, _ := j.Law.Loss(q)
		for k, e := range j.Edges {
			s.frozen[e], s.frozenQ[e] = h[k], q[k]
		}
	}
}

// wall reads the states from the network in which one-way edges are steep walls and the
// joints' losses frozen at the present flows.
func (s *Solver) wall(shut []bool) *ConvergenceError {
	open := make([]bool, len(shut))
	t := s.topologyOf(open, stateKey(open, s.oneWay))
	for i := range s.q {
		if !finite(s.q[i]) {
			s.q[i] = s.flow0[i]
		}
	}
	defer func() { s.stiff = false }()
	for _, steep := range []float64{10, 1e3, 1e5} {
		s.balance(t, s.q, s.inject)
		s.freeze()
		s.stiff, s.steep = true, steep
		if err := s.newton(t, false, 1e-9); err != nil {
			return err
		}
		s.stiff = false
	}
	for i, w := range s.oneWay {
		if w {
			shut[i] = s.q[i] <= 0
		}
	}
	return nil
}
