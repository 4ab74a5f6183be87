package spread

import (
	"math"

	"dryfit/graph/hydraulic"
)

// Moved is a flow that what may be off moves.
type Moved int

// The flows.
const (
	UnitsFlow Moved = iota // what most unknowns move
	JetsFlow               // where the unit has no water
	PumpsFlow              // where there is no unit with water, and no jets
)

// String names the flow: "the unit's flow".
func (m Moved) String() string { return m.Of("") }

// Of names the flow, that of a unit by the unit's name; "" where there is only the one.
func (m Moved) Of(unit string) string {
	switch {
	case m == JetsFlow:
		return "the jets' flow"
	case m == PumpsFlow:
		return "the pump's flow"
	case unit != "":
		return "the flow of " + unit
	}
	return "the unit's flow"
}

// watchedIn lists the units whose flow is watched in a mode, by their index after the work: the one the
// job is about first, and every other that gets water but those that were there and get what they get
// today, for the work does not meet their water; those too where there is nothing else, as where the job's
// own has no place.
func (s *spreader) watchedIn(m *spreadMode) (out []int) {
	if m.unit >= 0 && m.runs(m.unit) > hydraulic.Standing {
		out = append(out, m.unit)
	}
	var apart []int
	for _, o := range s.others {
		at, ok := m.after.model.PartAt[o.ID]
		switch {
		case !ok || m.runs(at) <= hydraulic.Standing:
		case o.Existing && m.asToday(o.ID, m.runs(at)):
			apart = append(apart, at)
		default:
			out = append(out, at)
		}
	}
	if len(out) == 0 {
		return apart
	}
	return out
}

// asToday reports whether a part gets what it gets before the work.
func (m *spreadMode) asToday(id string, flow float64) bool {
	if m.before == nil {
		return false
	}
	at, ok := m.before.model.PartAt[id]
	return ok && math.Abs(flow-math.Abs(m.before.likely.Parts[at].Flow)) <= sameJets*flow
}

// named is a unit's id where there are several; "" of the only one.
func (s *spreader) named(id string) string {
	if len(s.others) == 0 {
		return ""
	}
	return id
}
