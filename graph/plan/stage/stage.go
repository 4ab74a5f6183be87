package stage

import (
	"errors"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
	"dryfit/graph/route/solid"
	"dryfit/graph/rule"
	"dryfit/graph/settle"
)

// Stage is the circuit before or after the work, laid out and solved.
type Stage struct {
	Circuit   *graph.Circuit
	Layout    *route.Layout
	Bodies    *solid.Bodies        // of the layout
	Clashes   []graph.Diagnostic   // bodies that run through each other
	Blocked   []graph.Diagnostic   // joints on whose way something stands when their turn comes
	Solutions []hydraulic.Solution // one for each mode; nil where not wanted
	NoAnswer  []NoAnswer           // modes without one

	Near *Stage        // one solved that differs in a part's loss: the flows are sought from its; nil where there is none
	Like *settle.Stage // a stage of the same job, of which what is the same is taken over; nil where there is none

	solved      bool
	found       []graph.Diagnostic // while solving
	dirtySolved bool

	// Bad days: one unit shut off; filter dirty and jets turned down; of the after stage one
	// suction alone, the others of its pump blocked.
	Isolated []rule.UnitOff
	Dirty    []hydraulic.Solution
	Alone    []rule.Alone
}

// NoAnswer is a mode whose flows could not be worked out.
type NoAnswer struct {
	Mode string
	Why  quantity.Text
}

// Lay lays the stage out in space, once.
func (s *Stage) Lay() {
	if s != nil && s.Layout == nil {
		s.inOrder(laying.OfStage(s.Like.With(s.Circuit)))
	}
}

// Wait puts off the joints of pieces that are cut on site, once those are known.
func (s *Stage) Wait() {
	if lay := s.Layout.Waiting(); lay != s.Layout {
		s.inOrder(lay)
	}
}

// inOrder takes a layout whose joints are made in an order in which none is blocked, if one is found.
func (s *Stage) inOrder(lay *route.Layout) {
	s.Layout, s.Bodies = lay, solid.Of(lay)
	s.Clashes = s.Bodies.Check()
	if graph.HasErrors(s.Layout.Findings) || graph.HasErrors(s.Clashes) || !route.Assemble(s.Layout).OK {
		return // what can't be laid out or has no order is not replayed
	}
	s.Layout, s.Bodies, s.Blocked = s.Bodies.CheckUnblocked()
}

// As is the stage, as far as it is laid out and solved, of a circuit of the same parts and runs,
// of which only something else is asked.
func (s *Stage) As(c *graph.Circuit) *Stage {
	out := *s
	out.Circuit, out.Layout = c, s.Layout.As(c)
	return &out
}

// LaidOut returns the layout of a stage; nil of none.
func (s *Stage) LaidOut() *route.Layout {
	if s == nil {
		return nil
	}
	return s.Layout
}

// Solve finds the flows of the stage in each of its modes. A mode without an answer is an
// error finding and has no numbers.
func (s *Stage) Solve(name graph.Stage) []graph.Diagnostic {
	if s == nil || s.solved || s.Solutions != nil {
		return s.solving()
	}
	s.solved = true
	var ds []graph.Diagnostic
	modes := s.Circuit.AllModes()
	solutions, errs := make([]*hydraulic.Solution, len(modes)), make([]error, len(modes))
	graph.SideBySide(len(modes), func(i int) {
		solutions[i], errs[i] = spread.SolveNear(s.Layout, modes[i], name, s.Near.Solution(modes[i].Name))
	})
	for i, mode := range modes {
		solution, err := solutions[i], errs[i]
		if err != nil {
			s.NoAnswer = append(s.NoAnswer, NoAnswer{mode.Name, graph.Say("%v", err)})
			d := graph.Diagnostic{
				Pos: placeOf(mode.Pos, s.Circuit), Rule: "flow", Severity: graph.Error,
				Mode: mode.Name, Message: graph.Say("%s, mode %q: %v", name, mode.Name, err),
			}
			var beyond *hydraulic.BeyondCurveError
			if errors.As(err, &beyond) {
				d.Hint = beyond.Hint()
				if p := s.Circuit.Part(beyond.Pump); p != nil {
					d.Pos = p.Pos
				}
			}
			ds = append(ds, d)
			continue
		}
		s.Solutions = append(s.Solutions, *solution)
		ds = append(ds, solution.Notes...)
	}
	s.found = ds
	return ds
}

// AsDescribed solves the modes by the description alone, where the case that is taken by what was read is
// another; else nil. Modes without an answer are left out.
func (s *Stage) AsDescribed(name graph.Stage) (out []hydraulic.Solution) {
	if s == nil || s.Layout == nil || !s.Circuit.Fit.Changes() {
		return nil
	}
	for _, mode := range s.Circuit.AllModes() {
		if sol, err := hydraulic.Solve(s.Layout, mode, name); err == nil {
			out = append(out, *sol)
		}
	}
	return out
}

// solving returns what was found when the stage was solved.
func (s *Stage) solving() []graph.Diagnostic {
	if s == nil {
		return nil
	}
	return s.found
}

// placeOf returns the place of a mode, or that of the first pump for a mode nobody wrote.
func placeOf(pos graph.Pos, c *graph.Circuit) graph.Pos {
	if pos.IsValid() {
		return pos
	}
	for _, part := range c.Parts {
		if part.Kind == graph.Pump {
			return part.Pos
		}
	}
	return graph.Pos{File: c.File}
}
