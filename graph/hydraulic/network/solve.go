package network

import (
	"fmt"
	"math"
	"slices"
)

// Solve returns the flows of a network.
func Solve(n *Network) (*Flow, error) {
	s, err := NewSolver(n)
	if err != nil {
		return nil, err
	}
	return s.Solve(nil)
}

// Solve solves the network as its laws are now. near is a solution to start from, of the
// same network with other laws; nil: none. The error is a *ConvergenceError, also where the
// flows found do not close to 1e-9 of the flow and 1e-6 of the head.
func (s *Solver) Solve(near *Flow) (*Flow, error) {
	return s.solve(near, aimed)
}

// SolveRoughly is Solve for one of many samples of what is not known: to a ten thousand millionth of
// the heads, no further.
func (s *Solver) SolveRoughly(near *Flow) (*Flow, error) { return s.solve(near, aimedRoughly) }

func (s *Solver) solve(near *Flow, aim float64) (*Flow, error) {
	s.prepare()
	s.steps, s.aim = 0, aim
	s.times++
	var bounded []int
	for i, l := range s.law {
		if _, ok := l.(Bounded); ok {
			bounded = append(bounded, i)
		}
	}
	if len(bounded) > 0 {
		s.size(true)
		return s.solveBounded(bounded)
	}
	s.size(near == nil || !s.sized)
	return s.solveFrom(near)
}

// solveFrom solves with the laws in s.law.
func (s *Solver) solveFrom(near *Flow) (*Flow, error) {
	shut := make([]bool, len(s.ends))
	if near != nil && len(near.Q) == len(s.net.Edges) {
		copy(s.q, near.Q)
		clear(s.q[len(near.Q):])
		copy(shut, near.Shut)
		if t, err := s.settle(shut, false); err == nil {
			return s.answer(t, shut)
		}
		clear(shut)
		s.size(true)
	}
	driven := s.extra > 0 || s.net.Demand != nil
	for i, w := range s.oneWay {
		if w && s.first[i] < 0 {
			driven = true
		}
	}
	if !driven { // nothing moves the water: every one-way edge is shut
		copy(shut, s.oneWay)
	}
	for i := range s.q {
		s.q[i] = 0
		if i < len(s.net.Edges) {
			s.q[i] = s.net.Edges[i].Start
		}
		s.flow0[i] = s.q[i]
	}
	start := slices.Clone(shut)
	t, cerr := s.settle(shut, true)
	if cerr != nil && len(s.net.Joints) > 0 {
		t = s.lead(start)
		copy(shut, start)
	}
	if t == nil {
		return nil, cerr
	}
	return s.answer(t, shut)
}

// lead goes from a network whose joints have plain square laws, one for each leg, which is
// convex, to the true one by steps; nil if the way breaks off.
func (s *Solver) lead(shut []bool) *topology {
	defer func() { s.plain = 0 }()
	clear(s.q)
	for i := range s.net.Edges {
		s.q[i] = s.net.Edges[i].Start
	}
	var t *topology
	for _, plain := range []float64{1, 0.8, 0.6, 0.4, 0.2, 0.1, 0} {
		s.plain = plain
		var err *ConvergenceError
		if t, err = s.settle(shut, plain == 1); err != nil {
			return nil
		}
	}
	return t
}

// answer checks the flows and hands them out.
func (s *Solver) answer(t *topology, shut []bool) (*Flow, error) {
	n := s.net
	edges := len(n.Edges)
	numbers, truths := make([]float64, 3*edges+n.Nodes), make([]bool, edges+n.Nodes)
	f := &Flow{
		Q: numbers[:edges:edges], Loss: numbers[edges : 2*edges : 2*edges], Slack: numbers[2*edges : 3*edges : 3*edges], Head: numbers[3*edges:],
		Shut: truths[:edges:edges], Known: truths[edges:],
		Iterations: s.steps, FlowScale: s.qs, HeadScale: s.hs,
	}
	for i, off := range shut {
		if off {
			s.q[i] = 0
		}
	}
	s.eval(t)
	_, above, arcs := s.pressed(t, shut)
	if above == nil {
		above = make([]float64, t.comps)
	}
	base := t.comp[s.prefer[0]]
	zero := s.p[s.prefer[0]] + above[base]
	known := s.deadHeads(t, arcs, above, base)
	for v := range f.Head {
		f.Head[v] = s.p[v] + above[t.comp[v]] - zero
		f.Known[v] = known[t.comp[v]]
	}
	copy(f.Q, s.q)
	copy(f.Shut, shut)
	for i := range f.Loss {
		f.Loss[i] = s.h[i]
		if shut[i] {
			f.Loss[i] = f.Head[n.Edges[i].From] - f.Head[n.Edges[i].To]
			f.Slack[i] = slack(t.comps, arcs, int32(i))
		}
	}
	return f, s.verify(f, t)
}

// verify closes the balances of mass at every node and of head over every edge from the
// flows handed out alone.
func (s *Solver) verify(f *Flow, t *topology) error {
	bal := make([]float64, len(s.p))
	copy(bal, s.inject)
	most := 0.0
	for i, q := range s.q {
		if !t.active[i] {
			continue
		}
		bal[s.ends[i][0]] -= q
		bal[s.ends[i][1]] += q
		most = max(most, math.Abs(q))
		if !finite(q) {
			return &ConvergenceError{Iterations: s.steps, Edge: i, Residual: math.Inf(1), Why: "a flow is not a number"}
		}
	}
	for v, b := range bal {
		if t.parent[v] >= 0 || t.comp[v] != t.comp[s.prefer[0]] || s.extra == 0 {
			f.Residual = max(f.Residual, math.Abs(b))
		}
	}
	where := -1
	for _, e := range t.edges {
		d := math.Abs(s.p[s.ends[e][0]] - s.p[s.ends[e][1]] - s.h[e])
		if d > f.EnergyError || d != d {
			f.EnergyError, where = d, int(e)
		}
	}
	for i, w := range s.oneWay {
		if w && s.q[i] < 0 {
			return &ConvergenceError{Iterations: s.steps, Edge: i, Why: "water goes against a one-way edge"}
		}
	}
	if !(f.Residual <= 1e-9*most) && f.Residual > 1e-18 || !(f.EnergyError <= 1e-6*s.hs) && f.EnergyError > 1e-12 {
		return &ConvergenceError{Iterations: s.steps, Residual: f.EnergyError, Mass: f.Residual, Edge: where,
			Why: fmt.Sprintf("the balances do not close (largest flow %.3g m³/s, head %.3g m)", most, s.hs)}
	}
	return nil
}
