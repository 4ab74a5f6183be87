package plan

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan/stage"
)

// Likely is Summarise with what was read on the tub taken at its word, and what every paper and every
// file for other programs says in short: where that contradicts the case as described, flows and the
// change of the jets are the middle of what fits it, and AsDescribed of a unit tells the other. With a
// throttle in a unit's bypass they are those of it set by its own reading. Where nothing was read, or it
// is as described, it is Summarise.
func Likely(p *Plan) []ModeSummary {
	all := Summarise(p)
	if !p.Ranges.Contradicted() {
		return all
	}
	for i := range all {
		m := &all[i]
		after := middlesOf(p.Ranges, p.After, m.Mode, graph.After)
		if after == nil {
			continue
		}
		for k := range m.Beside {
			after.take(&m.Beside[k])
		}
		after.takePump(m)
		if m.HasUnit {
			own := m.Units()[m.ahead]
			after.take(&own)
			m.Unit, m.RiseK, m.Bypass, m.CheckState, m.asDescribed = own.Flow, own.RiseK, own.Bypass, own.State, own.AsDescribed
		}
		if m.HasToday && after.of.HasJets {
			m.JetsToday *= middlesOf(p.Ranges, p.Before, m.Mode, graph.Before).jetsShare()
			m.Jets = m.JetsToday * (1 + after.of.JetsChange.Middle)
		} else if m.HasJets {
			m.Jets *= after.jetsShare()
		}
	}
	return all
}

// middles are the middles of one mode's ranges.
type middles struct {
	ranges *spread.Ranges
	of     *spread.ModeRanges
	sol    *hydraulic.Solution // as described
}

// middlesOf is nil where the mode has no answer, or nothing was sampled.
func middlesOf(r *spread.Ranges, st *stage.Stage, mode string, when graph.Stage) *middles {
	m := &middles{r, r.Of(mode, when), st.Solution(mode)}
	if m.of == nil || m.sol == nil || m.of.Of == 0 || len(m.of.Parts) != len(m.sol.Parts) {
		return nil
	}
	return m
}

// flow is the middle of what passes a part.
func (m *middles) flow(id string) float64 {
	k := slices.IndexFunc(m.sol.Parts, func(f hydraulic.PartFlow) bool { return f.Part.ID == id })
	return hydraulic.Passing(math.Abs(m.of.Parts[k].Middle))
}

// take has a unit get the middle of its range.
func (m *middles) take(u *UnitSummary) {
	if u.Astray > 0 { // what passes it is nothing it gets
		return
	}
	u.AsDescribed, u.Flow = u.Flow, m.flow(u.ID)
	if set := m.ranges.SetIn(m.of.Mode, u.ID); set != nil {
		u.Flow = hydraulic.Passing(set.Unit.Middle)
	}
	if u.Flow > 0 {
		u.RiseK *= u.AsDescribed / u.Flow // the same heat in other water
	}
	if u.Past == "" {
		return
	}
	u.Bypass = m.flow(u.Past)
	for i := range m.ranges.Promises {
		if q := &m.ranges.Promises[i]; q.Kind == spread.CheckState && q.Mode == m.of.Mode && q.Part == u.Past && q.Sure() < 0.5 {
			u.State = "" // it mostly stands otherwise than as described
		}
	}
}

// takePump has the pump that moves most get the middle of its range.
func (m *middles) takePump(of *ModeSummary) {
	described := of.Pump
	of.Pump = 0
	for i := range m.sol.Parts {
		if f := &m.sol.Parts[i]; f.Part.Kind == graph.Pump && f.State != "off" {
			of.Pump = max(of.Pump, hydraulic.Passing(m.of.Parts[i].Middle))
		}
	}
	if of.Moving <= described+hydraulic.Standing { // it holds at one flow only
		of.Moving = of.Pump
	}
}

// jetsShare is the middle of what the jets get over what they get as described; 1 where they get nothing.
func (m *middles) jetsShare() float64 {
	described, middle := 0.0, 0.0
	if m != nil {
		for i := range m.sol.Parts {
			if f := &m.sol.Parts[i]; f.Part.Kind == graph.JetGroup && !f.Apart {
				described, middle = described+math.Abs(f.Flow), middle+math.Abs(m.of.Parts[i].Middle)
			}
		}
	}
	if described == 0 {
		return 1
	}
	return middle / described
}
