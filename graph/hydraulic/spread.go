package hydraulic

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// Spread solves a circuit again over a fixed sample of what is not known exactly: the same
// sample before and after the work, so that the two can be compared point by point. before
// may be nil; where it is after itself there is nothing to compare. unit is the id of the
// unit whose flow is the promise; "" where there is none. Modes that have no likely answer
// are left out.
func Spread(before, after *route.Layout, unit string) *Ranges {
	s := newSpread(before, after, unit)
	for i := range sampleSize {
		s.point(i)
	}
	out := &Ranges{Samples: sampleSize, Unsolved: s.unsolved}
	for _, m := range s.modes {
		out.Modes = append(out.Modes, m.ranges()...)
		out.Promises = append(out.Promises, m.promises(s.unitPart)...)
	}
	out.MeasureFirst = s.influences()
	return out
}

// spreader holds the work in progress.
type spreader struct {
	modes    []*spreadMode
	all      []unknown
	unitPart *graph.Part
	unsolved int
}

// spreadMode is one mode with its models and what the sample gave so far.
type spreadMode struct {
	name          string
	before, after *spreadStage // before may be nil
	unit          int          // index of the unit in after's parts; -1
	jetsChange    []float64
}

// spreadStage is one stage in one mode.
type spreadStage struct {
	model              *Model
	likely             *Solution
	parts, drops, runs [][]float64 // by index: every sample's value
}

func newSpread(before, after *route.Layout, unit string) *spreader {
	s := &spreader{unitPart: unitOf(after, unit)}
	var models []*Model
	for _, mode := range after.Circuit.AllModes() {
		m := &spreadMode{name: mode.Name, unit: -1, after: newSpreadStage(after, mode, graph.After)}
		if m.after == nil {
			continue
		}
		models = append(models, m.after.model)
		if before != nil && before != after {
			if m.before = newSpreadStage(before, mode, graph.Before); m.before != nil {
				models = append(models, m.before.model)
			}
		}
		for i, p := range after.Circuit.Parts {
			if p.ID == unit && p.Kind == graph.HeatPump {
				m.unit = i
			}
		}
		s.modes = append(s.modes, m)
	}
	s.all = unknowns(models)
	return s
}

// newSpreadStage returns nil where the mode has no likely answer.
func newSpreadStage(lay *route.Layout, mode graph.Mode, stage graph.Stage) *spreadStage {
	model, err := Build(lay, mode, stage)
	if err != nil {
		return nil
	}
	likely, err := model.Solve(nil)
	if err != nil {
		return nil
	}
	n, k := len(likely.Parts), len(likely.Runs)
	return &spreadStage{model: model, likely: likely, parts: make([][]float64, n), drops: make([][]float64, n), runs: make([][]float64, k)}
}

// point solves every mode at point i of the sample.
func (s *spreader) point(i int) {
	factors := make([]float64, len(s.all))
	for k, u := range s.all {
		factors[k] = triangular(samplePoint(i, k+1), u.low, u.high)
	}
	for _, m := range s.modes {
		after := s.solve(m.after, factors)
		if after == nil {
			s.unsolved++
			continue
		}
		if m.before == nil {
			m.after.keep(after)
			continue
		}
		before := s.solve(m.before, factors)
		if before == nil {
			s.unsolved++
			continue
		}
		m.after.keep(after)
		m.before.keep(before)
		if then := jetsFlow(before); then > 0 {
			m.jetsChange = append(m.jetsChange, jetsFlow(after)/then-1)
		}
	}
}

// solve returns the solution with the factors on the unknowns; nil where there is none.
func (s *spreader) solve(st *spreadStage, factors []float64) *Solution {
	p := &Perturb{}
	for k, u := range s.all {
		u.set(st.model, p, factors[k])
	}
	sol, err := st.model.Solve(p)
	if err != nil {
		return nil
	}
	return sol
}

func (st *spreadStage) keep(sol *Solution) {
	for i := range sol.Parts {
		st.parts[i] = append(st.parts[i], sol.Parts[i].Flow)
		st.drops[i] = append(st.drops[i], sol.Parts[i].Drop)
	}
	for i := range sol.Runs {
		st.runs[i] = append(st.runs[i], sol.Runs[i].Flow)
	}
}

// ranges returns the ranges of the mode's stages, before first.
func (m *spreadMode) ranges() []ModeRanges {
	var out []ModeRanges
	for _, st := range []*spreadStage{m.before, m.after} {
		if st == nil {
			continue
		}
		r := ModeRanges{Mode: m.name, Stage: st.model.Stage}
		for i := range st.parts {
			r.Parts = append(r.Parts, rangeOf(st.parts[i], st.likely.Parts[i].Flow))
			r.Drops = append(r.Drops, rangeOf(st.drops[i], st.likely.Parts[i].Drop))
		}
		for i := range st.runs {
			r.Runs = append(r.Runs, rangeOf(st.runs[i], st.likely.Runs[i].Flow))
		}
		if st == m.after && len(m.jetsChange) > 0 {
			r.HasJets = true
			r.JetsChange = rangeOf(m.jetsChange, jetsFlow(m.after.likely)/jetsFlow(m.before.likely)-1)
		}
		out = append(out, r)
	}
	return out
}

// rangeOf returns the twentieth below and above, and the likely value between them.
func rangeOf(values []float64, likely float64) Range {
	if len(values) == 0 {
		return Range{likely, likely, likely}
	}
	sorted := slices.Sorted(slices.Values(values))
	at := func(share float64) float64 { return sorted[int(math.Round(share*float64(len(sorted)-1)))] }
	return Range{Low: min(at(0.05), likely), Likely: likely, High: max(at(0.95), likely)}
}

// promises says in what share of the sample each promise of the mode holds. A unit that
// gets no water even in the likely case (its pump is off) is promised nothing.
func (m *spreadMode) promises(unit *graph.Part) []Promise {
	var out []Promise
	if m.unit >= 0 && unit != nil && unit.Unit != nil && m.after.likely.Parts[m.unit].Flow > 1e-9 {
		flows, u := m.after.parts[m.unit], unit.Unit
		for _, q := range []struct {
			words string
			limit float64
			least bool
		}{
			{"the unit gets at least its least flow", u.Least, true},
			{"the unit gets at least its rated flow", u.Rated, true},
			{"the unit gets at most its most flow", u.Most, false},
		} {
			if q.limit > 0 {
				out = append(out, Promise{m.name, graph.Say("%s, %s", q.words, quantity.Flow.Of(q.limit)),
					shareOf(flows, func(v float64) bool { return q.least && v >= q.limit || !q.least && v <= q.limit })})
			}
		}
	}
	for i, p := range m.after.likely.Parts {
		if p.Part.Kind != graph.CheckValve {
			continue
		}
		open := p.Flow > 0
		out = append(out, Promise{m.name, graph.Say("%s is %s", p.Part.ID, p.State),
			shareOf(m.after.parts[i], func(v float64) bool { return (v > 0) == open })})
	}
	if len(m.jetsChange) > 0 {
		out = append(out, Promise{m.name, "the jets lose less than a tenth of today's flow",
			shareOf(m.jetsChange, func(v float64) bool { return v > -0.1 })})
	}
	return out
}

func shareOf(values []float64, holds func(float64) bool) float64 {
	n := 0
	for _, v := range values {
		if holds(v) {
			n++
		}
	}
	return float64(n) / float64(max(len(values), 1))
}

// jetsFlow is the flow through all jet groups, m³/s.
func jetsFlow(s *Solution) float64 {
	flow, _ := s.JetsFlow()
	return flow
}
