package spread

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// worthSaying is the least effect of an unknown that is worth a line, as a share.
const worthSaying = 0.005

// influences says how far each unknown alone moves the unit's flow, of several that of the one it moves
// most (the jets' where there is no unit, else the pump's), what matters most first; an unknown is named
// once, in the mode in which it moves most. Of a very large circuit those alone are moved whose indices are in moved
// (worthMoving); of the others nothing is said but that they are there.
func (s *spreader) influences(moved []int) []Influence {
	best := map[string]Influence{}
	effects := make([][]effect, len(s.modes)) // by mode and unknown
	graph.SideBySide(len(s.modes), func(n int) {
		if m := s.modes[n]; m.narrowed {
			effects[n] = s.left(m)
		} else {
			effects[n] = s.effects(m, moved)
		}
	})
	for n, m := range s.modes {
		_, moves := m.watched()
		apart := m.jetsApart()
		for k, e := range effects[n] {
			if !e.known {
				continue
			}
			if apart && moves == JetsFlow {
				e.value = 0
			}
			u := &s.all[k]
			name := u.what + "\x00" + u.part
			f, told := best[name]
			if !told {
				f = u.influence()
				f.Mode, f.Moves, f.Reading, f.UnitIn = m.name, moves, s.settling(u, m.after.model), map[UnitIn]float64{}
				_, tried := slices.BinarySearch(moved, k)
				f.Untried = !tried && !m.narrowed
				f.ToBeSet = u.setting() && u.planned(m.after.model)
			}
			if e.value > f.Effect+alike {
				f.Mode, f.Effect, f.Moves = m.name, e.value, moves
			}
			for i, moved := range e.units {
				id := m.after.likely.Parts[m.units[i]].Part.ID
				f.UnitIn[UnitIn{id, m.name}] = moved
				if moved > f.Unit+alike {
					f.Unit, f.UnitMode, f.UnitID = moved, m.name, s.named(id)
				}
			}
			if e.jets > f.Jets+alike {
				f.Jets = e.jets
			}
			if !apart && e.jets > f.Met+alike {
				f.Met, f.MetMode = e.jets, m.name
			}
			f.Head = max(f.Head, e.head)
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

// effect is how far an unknown alone moves things in a mode, each as a share of what is likely.
type effect struct {
	known             bool // both its ends have an answer, or nobody asked
	value, jets, head float64
	units             []float64 // of each unit that is watched
}

// effects works out what each unknown that is moved moves in a mode; nil where what is watched stands still,
// which what the solver leaves in a line whose pump is off does too: a share of that says nothing.
func (s *spreader) effects(m *spreadMode, moved []int) []effect {
	values, _ := m.watched()
	likely := m.moving()
	if math.Abs(values[0](likely)) <= hydraulic.Standing {
		return nil
	}
	out := make([]effect, len(s.all))
	for k := range out {
		_, found := slices.BinarySearch(moved, k)
		out[k].known = !found
	}
	for _, k := range moved {
		low, high := s.alone(m, k, 0.05, 0), s.alone(m, k, 0.95, 1)
		if low == nil || high == nil {
			continue
		}
		half := func(of func(*hydraulic.Solution) float64, nothing float64) float64 {
			if at := math.Abs(of(likely)); at > nothing {
				return math.Abs(of(high)-of(low)) / 2 / at
			}
			return 0
		}
		out[k] = effect{known: true, jets: half(jetsFlow, 0), head: half(pumpHead, 0)}
		for _, value := range values {
			out[k].moves(half(value, hydraulic.Standing), len(m.units) > 0)
		}
	}
	return out
}

// moving is the case that is taken; where its water stands, for the pump can't lift it from rest, what
// would pass were it moving already: a share of nothing says nothing.
func (m *spreadMode) moving() *hydraulic.Solution {
	likely := m.after.likely
	moves := func(p hydraulic.PartFlow) bool { return p.Part.Kind == graph.Pump && p.Flow == 0 && p.Moving > 0 }
	if !slices.ContainsFunc(likely.Parts, moves) {
		return likely
	}
	out := *likely
	out.Parts = slices.Clone(likely.Parts)
	for i := range out.Parts {
		p := &out.Parts[i]
		p.Flow, p.Fed = p.Moving, p.Moving
	}
	return &out
}

// moves takes up a flow that is watched, a unit's or another.
func (e *effect) moves(share float64, unit bool) {
	if e.value = max(e.value, share); unit {
		e.units = append(e.units, share)
	}
}

// watched returns the flows that matter in a mode, those of the units that are watched or one other, and
// which they are.
func (m *spreadMode) watched() (values []func(*hydraulic.Solution) float64, moves Moved) {
	for _, i := range m.units {
		values = append(values, func(s *hydraulic.Solution) float64 { return s.Parts[i].Flow })
	}
	if len(values) > 0 {
		return values, UnitsFlow
	}
	if jetsFlow(m.moving()) > 0 {
		return []func(*hydraulic.Solution) float64{jetsFlow}, JetsFlow
	}
	return []func(*hydraulic.Solution) float64{func(s *hydraulic.Solution) float64 {
		most := 0.0
		for _, p := range s.Parts {
			if p.Part.Kind == graph.Pump && !p.Apart {
				most = max(most, p.Flow)
			}
		}
		return most
	}}, PumpsFlow
}

// alone returns the solution with unknown k alone at a quantile of its spread; nil where
// that has no answer. It stands until the next one in the same room.
func (s *spreader) alone(m *spreadMode, k int, quantile float64, room int) *hydraulic.Solution {
	values := make([]float64, len(s.all))
	for i := range values {
		values[i] = s.all[i].takenAs()
	}
	values[k] = s.all[k].value(quantile)
	return s.solve(m.after, values, room).sol
}

// alike is how near two effects count as one: far more than what the last digits of a solution
// differ by from one machine to another, so that the first mode stands on all of them.
const alike = 1e-6
