package hydraulic

import (
	"errors"

	"dryfit/graph"
	"dryfit/graph/hydraulic/network"
	"dryfit/graph/route"
)

// Solve returns the steady flow of a laid out circuit in a mode. The stage is carried into
// the solution; lay is the layout of that stage. The error is a *ConvergenceError where no
// flows close, a *BeyondCurveError where a pump would run past its curve, an *InputError
// where something is missing.
func Solve(lay *route.Layout, mode graph.Mode, stage graph.Stage) (*Solution, error) {
	return SolveNear(lay, mode, stage, nil)
}

// SolveNear is Solve for a circuit that differs little from one solved before, as by the spring of
// its check or the dirt in its filter: the search begins at those flows. What it finds does not hang
// on them beyond rounding; where the two nets have not the same edges, they are not used. nil: none.
func SolveNear(lay *route.Layout, mode graph.Mode, stage graph.Stage, near *Solution) (*Solution, error) {
	m, err := Build(lay, mode, stage)
	if err != nil {
		return nil, err
	}
	m.Near(near)
	return m.Solve(nil)
}

// Near has the search begin at the flows of a solution, where that is of a net with the same edges; nil: of
// none.
func (m *Model) Near(s *Solution) {
	if s != nil && s.flow != nil && len(s.flow.Q) == len(m.net.Edges) {
		m.plain = s.flow
	}
}

// Solve returns the steady flow with the inputs times the factors of p; nil for the inputs
// as they are taken. Errors are those of the function Solve.
func (m *Model) Solve(p *Perturb) (*Solution, error) {
	f, err := m.flow(p)
	if err != nil {
		return nil, err
	}
	if past := m.past(f); past != nil {
		return nil, past
	}
	if p == nil {
		m.plain = f
	}
	s := m.report(f)
	s.flow = f
	return s, nil
}

// Flows is Solve with the inputs as they are taken, of which only flows, heads, drops and
// pressures are worked out.
func (m *Model) Flows() (*Solution, error) {
	f, err := m.flow(nil)
	if err != nil {
		return nil, err
	}
	if past := m.past(f); past != nil {
		return nil, past
	}
	m.plain = f
	return m.brief(f, nil), nil
}

// Sampled is Solve for a sample of many, as the model was perturbed last: a pump may run past its
// curve, which past tells, and of the solution only flows, heads, drops and pressures are worked out.
// It is written into one of this model that is no longer wanted, if there is one.
func (m *Model) Sampled(into *Solution) (s *Solution, past bool, err error) {
	f, err := m.solver.SolveRoughly(m.plain)
	if err != nil {
		return nil, false, m.explain(err)
	}
	s = m.brief(f, into)
	s.flow = f
	return s, m.past(f) != nil, nil
}

// flow solves the network.
func (m *Model) flow(p *Perturb) (*network.Flow, error) {
	m.Perturb(p)
	f, err := m.solver.Solve(m.plain)
	if err != nil {
		return nil, m.explain(err)
	}
	return f, nil
}

// past returns the first pump that would run past the end of its curve, or nil.
func (m *Model) past(f *network.Flow) error {
	for i := range m.Parts {
		part := &m.Parts[i]
		if part.Pump == nil || part.Edges[0] < 0 {
			continue
		}
		if q, last := f.Q[part.Edges[0]], part.Pump.Last(); q > last*(1+1e-9) {
			return &BeyondCurveError{Pump: part.Part.ID, Speed: part.Speed, Flow: q, Last: last}
		}
	}
	return nil
}

// explain turns an error of the network into one that names the part or run.
func (m *Model) explain(err error) error {
	var c *network.ConvergenceError
	if !errors.As(err, &c) {
		return err
	}
	out := &ConvergenceError{Iterations: c.Iterations, Residual: c.Residual, Mass: c.Mass, Why: c.Why}
	for i := range m.Runs {
		if c.Edge >= 0 && m.Runs[i].Edge == c.Edge {
			out.Where = m.Runs[i].Run.ID
		}
	}
	for i := range m.Parts {
		for _, e := range m.Parts[i].Edges {
			if c.Edge >= 0 && e == c.Edge {
				out.Where = m.Parts[i].Part.ID
			}
		}
	}
	return out
}

// Work is what solving the model takes, in runs of a net without loops: its own runs, and where loops hang
// together in many ways the elimination of its nodes, 160 products of which take as long as the law of a
// run (measured).
func (m *Model) Work() int { return len(m.Runs) + m.solver.Work()/productsOfARun }

const productsOfARun = 160
