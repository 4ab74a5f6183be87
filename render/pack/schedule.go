package pack

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/rule"
	"dryfit/graph/stream"
	"dryfit/render/drawing"
	"dryfit/render/tag"
)

// schedule is the position of every valve of the unit's branch in every state of the tub.
type schedule struct {
	Valves  []string // column heads: tags
	Roles   []string // where each stands about a unit; "" where nothing tells
	Rows    []valveRow
	Notes   []string
	Never   []string
	Setting []string // how to set the bypass
}

type valveRow struct {
	State     string
	Positions []string
	Unit      string // "on" or "off"
	Note      string
}

// duty is what a valve is there for.
type duty int

const (
	isolates duty = iota // between a tee and the unit
	bypasses             // by hand, in the line past the unit
	serves               // by hand, past the check in that line: open only while the unit is shut off
	checks               // by the water, in the line past the unit
	follows              // a check on the unit's own pipes
	empties              // a drain or a bleed
	sucks                // between tub and pump
)

// itself is what stands for a valve that no hand moves.
const itself = "works by itself"

// asSet is a throttle that stays where its first row had it set.
const asSet = "as set"

type valve struct {
	part *graph.Part
	duty duty
	name string
	hand string // what a hand does to set it
}

// valveSchedule follows the valves that stand in the circuit: the modes with the positions
// that were solved, then the states of service and winter.
func valveSchedule(p *plan.Plan, j jobIn) schedule {
	if p.After == nil {
		return schedule{}
	}
	net := p.After.Layout.Stage.Net()
	branches := net.Branches()
	names := tag.Of(p.Circuit, p.Net())
	valves := valvesOf(p.After.Circuit, net, branches, names)
	if len(valves) == 0 || len(branches) == 0 {
		return schedule{}
	}
	var s schedule
	for i, v := range valves {
		s.Valves, s.Roles = append(s.Valves, v.name), append(s.Roles, names.Role(v.part.ID))
		if valves[i].hand = drawing.AimWords(p, v.part, j.units); valves[i].hand == "" {
			valves[i].hand = drawing.Hand(p, v.part)
		}
	}
	for i, m := range plan.Summarise(p) {
		row := modeRow(p, m, valves)
		for k, at := range row.Positions {
			if i > 0 && at == s.Rows[0].Positions[k] && strings.HasPrefix(at, "set ") {
				row.Positions[k] = asSet // by what, the first row tells
			}
		}
		s.Rows = append(s.Rows, row)
	}
	for _, st := range practice.States(j.Job) {
		row := valveRow{State: st.Name, Unit: "on", Note: j.say(st.Note)}
		if !st.UnitOn {
			row.Unit = "off"
		}
		for _, v := range valves {
			row.Positions = append(row.Positions, position(st, v))
		}
		s.Rows = append(s.Rows, row)
	}
	s.Notes, s.Never = scheduleWords(branches, valves, j)
	s.Setting = j.said(practice.Setting())
	return s
}

// valvesOf lists the valves of the branches: to the units, from them, past them, drains; then
// the valves between tub and pump.
func valvesOf(c *graph.Circuit, net *stream.Net, branches []stream.Branch, names *tag.Names) []valve {
	var out []valve
	add := func(p *graph.Part, d duty) {
		if !slices.ContainsFunc(out, func(v valve) bool { return v.part == p }) {
			out = append(out, valve{part: p, duty: d, name: names.Tag(p.ID)})
		}
	}
	each := func(list []*graph.Part, byHand, check duty) {
		for _, p := range list {
			switch {
			case p.Kind.IsHandValve():
				add(p, byHand)
			case p.Kind == graph.CheckValve:
				add(p, check)
			}
		}
	}
	past := func(v *graph.Part) bool { // what leads past another unit does not shut this one off
		return slices.ContainsFunc(branches, func(b stream.Branch) bool { return slices.Contains(b.BypassParts, v) })
	}
	for _, b := range branches {
		way := slices.DeleteFunc(slices.Concat(b.ToUnitParts, b.FromUnitParts), past)
		each(way, isolates, follows)
	}
	slices.SortStableFunc(out, func(a, b valve) int { return practice.Compare(a.name, b.name) })
	for _, b := range branches {
		e := b.Element()
		for _, p := range b.BypassParts {
			by := bypasses
			if e.Kind == graph.CheckValve && rule.BesideCheck(b.UnitBranch, p, e) {
				by = serves
			}
			each([]*graph.Part{p}, by, checks)
		}
	}
	for _, b := range branches {
		for _, p := range b.StubParts {
			if p.Kind == graph.DrainValve || p.Kind == graph.AirBleed || p.Kind.IsHandValve() {
				add(p, empties)
			}
		}
	}
	for _, pump := range c.Pumps() {
		for _, p := range net.Suction(pump).Parts {
			if p.Kind.IsHandValve() {
				add(p, sucks)
			}
		}
	}
	return out
}

// modeRow is one mode of the circuit, with the positions it was solved with.
func modeRow(p *plan.Plan, m plan.ModeSummary, valves []valve) valveRow {
	row := valveRow{State: quantity.Capital(tag.Of(p.Circuit, p.Net()).Mode(m.Mode)), Unit: "on"}
	switch {
	case m.HasUnit && m.Own().Astray > 0:
		row.Unit, row.Note = "off", "the unit's pump is off"
	case m.HasUnit && m.Unit <= 0:
		row.Unit, row.Note = "off", "no water comes to the unit"
	case m.HasUnit && m.Least > 0 && m.Unit < m.Least:
		row.Unit, row.Note = "off", "the unit has too little flow and stops itself"
	case m.HasUnit && m.Most > 0 && m.Unit > m.Most:
		row.Note = "the unit has more flow than it may have"
	}
	sol := p.After.Solution(m.Mode)
	for _, v := range valves {
		row.Positions = append(row.Positions, runningPosition(v, sol))
	}
	return row
}

// runningPosition is where a valve stands while the tub runs.
func runningPosition(v valve, sol *hydraulic.Solution) string {
	said := ""
	if sol != nil {
		if f := sol.Part(v.part.ID); f != nil {
			said = f.State
		}
	}
	switch {
	case v.duty == empties:
		return "shut"
	case v.duty == checks || v.duty == follows:
		return itself
	case said == "shut":
		return "SHUT"
	case v.duty == bypasses && v.hand != "":
		return v.hand
	case said != "":
		return said
	}
	return "open"
}

// position is where a valve stands in a state of service or winter.
func position(st practice.State, v valve) string {
	switch v.duty {
	case isolates:
		if st.Isolated {
			return "SHUT"
		}
		return "open"
	case bypasses:
		if st.Isolated || st.Emptied {
			return "OPEN"
		}
		return asSet
	case serves:
		if st.Isolated || st.Emptied {
			return "OPEN"
		}
		return "SHUT"
	case empties:
		if st.Emptied {
			return "OPEN"
		}
		return "shut"
	case sucks:
		return "open"
	}
	return itself
}
