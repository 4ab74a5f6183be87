package spread

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// worthSaying is the least effect of an unknown that is worth a line, as a share.
const worthSaying = 0.005

// influences says how far each unknown alone moves the unit's flow (the jets' where there is
// no unit, else the pump's), what matters most first; an unknown is named once, in the mode
// in which it moves most.
func (s *spreader) influences() []Influence {
	best := map[string]Influence{}
	for _, m := range s.modes {
		value, moves := m.watched()
		likely := value(m.after.likely)
		if likely == 0 {
			continue
		}
		for k, u := range s.all {
			low, high := s.alone(m, k, 0.05), s.alone(m, k, 0.95)
			if low == nil || high == nil {
				continue
			}
			half := func(of func(*hydraulic.Solution) float64) float64 {
				if at := of(m.after.likely); at != 0 {
					return math.Abs(of(high)-of(low)) / 2 / math.Abs(at)
				}
				return 0
			}
			name := u.what + "\x00" + u.part
			f, told := best[name]
			if !told {
				f = Influence{What: u.what, Part: u.part, Mode: m.name, Moves: moves, Span: u.span, Adds: u.adds,
					Key: u.used.key, Value: u.used.value, Source: u.used.source, Reading: u.reading(m.after.model), Given: u.used.given, Guess: u.used.guess}
			}
			if e := half(value); e > f.Effect+alike {
				f.Mode, f.Effect, f.Moves = m.name, e, moves
			}
			if m.unit >= 0 {
				if e := half(func(s *hydraulic.Solution) float64 { return s.Parts[m.unit].Flow }); e > f.Unit+alike {
					f.Unit, f.UnitMode = e, m.name
				}
			}
			if e := half(jetsFlow); e > f.Jets+alike {
				f.Jets, f.JetsMode = e, m.name
			}
			f.Head = max(f.Head, half(pumpHead))
			best[name] = f
		}
	}
	out := make([]Influence, 0, len(best))
	for _, u := range s.all {
		if f, ok := best[u.what+"\x00"+u.part]; ok {
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, compareInfluence)
	return out
}

// worth leaves out what moves too little to be told.
func worth(all []Influence) []Influence {
	var out []Influence
	for _, f := range all {
		if f.Effect >= worthSaying {
			out = append(out, f)
		}
	}
	return out
}

// pumpHead is the greatest head of a running pump, m.
func pumpHead(s *hydraulic.Solution) float64 {
	most := 0.0
	for _, p := range s.Parts {
		most = max(most, p.HeadM)
	}
	return most
}

// watched returns the flow that matters in a mode, and its name.
func (m *spreadMode) watched() (value func(*hydraulic.Solution) float64, moves string) {
	if m.unit >= 0 && math.Abs(m.after.likely.Parts[m.unit].Flow) > 1e-9 {
		return func(s *hydraulic.Solution) float64 { return s.Parts[m.unit].Flow }, "the unit's flow"
	}
	if jetsFlow(m.after.likely) > 0 {
		return jetsFlow, "the jets' flow"
	}
	return func(s *hydraulic.Solution) float64 {
		most := 0.0
		for _, p := range s.Parts {
			if p.Part.Kind == graph.Pump {
				most = max(most, p.Flow)
			}
		}
		return most
	}, "the pump's flow"
}

// alone returns the solution with unknown k alone at a quantile of its spread; nil where
// that has no answer.
func (s *spreader) alone(m *spreadMode, k int, quantile float64) *hydraulic.Solution {
	values := make([]float64, len(s.all))
	for i := range values {
		values[i] = s.all[i].asDescribed()
	}
	values[k] = s.all[k].value(quantile)
	sol, _ := s.solve(m.after, values)
	return sol
}

// alike is how near two effects count as one: far more than what the last digits of a solution
// differ by from one machine to another, so that the first mode stands on all of them.
const alike = 1e-6
