package hydraulic

import (
	"math"
	"slices"

	"dryfit/graph"
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
			low, high := s.alone(m, k, 0.05, value), s.alone(m, k, 0.95, value)
			effect := math.Abs(high-low) / 2 / math.Abs(likely)
			name := u.what + "\x00" + u.part
			if math.IsNaN(effect) || effect < worthSaying || effect <= best[name].Effect {
				continue
			}
			best[name] = Influence{What: u.what, Part: u.part, Mode: m.name, Effect: effect, Moves: moves}
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

// watched returns the flow that matters in a mode, and its name.
func (m *spreadMode) watched() (value func(*Solution) float64, moves string) {
	if m.unit >= 0 && math.Abs(m.after.likely.Parts[m.unit].Flow) > 1e-9 {
		return func(s *Solution) float64 { return s.Parts[m.unit].Flow }, "the unit's flow"
	}
	if jetsFlow(m.after.likely) > 0 {
		return jetsFlow, "the jets' flow"
	}
	return func(s *Solution) float64 {
		most := 0.0
		for _, p := range s.Parts {
			if p.Part.Kind == graph.Pump {
				most = max(most, p.Flow)
			}
		}
		return most
	}, "the pump's flow"
}

// alone returns the value with unknown k alone at a quantile of its spread; not a number
// where that has no answer.
func (s *spreader) alone(m *spreadMode, k int, quantile float64, value func(*Solution) float64) float64 {
	factors := make([]float64, len(s.all))
	for i := range factors {
		factors[i] = 1
	}
	factors[k] = triangular(quantile, s.all[k].low, s.all[k].high)
	sol := s.solve(m.after, factors)
	if sol == nil {
		return math.NaN()
	}
	return value(sol)
}
