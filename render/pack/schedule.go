package pack

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/stream"
	"dryfit/render/tag"
)

// schedule is the position of every valve of the unit's branch in every state of the tub.
type schedule struct {
	Valves  []string // column heads: tag, and id where it is not the same
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
	checks               // by the water, in the line past the unit
	follows              // a check on the unit's own pipes
	empties              // a drain or a bleed
)

type valve struct {
	part *graph.Part
	duty duty
	name string
}

// state is a state of the tub in which a fitter sets the valves himself. Positions are
// common practice, no source.
type state struct {
	name, note string
	unit       string // "on" or "off"
	isolated   bool   // the unit is shut off
	lifted     bool   // the poppet of the bypass check is out
	emptied    bool   // the drains are open
}

func serviceStates() []state {
	return []state{
		{name: "First flush", unit: "off", isolated: true, lifted: true, note: "10 to 30 minutes, then clean the filter"},
		{name: "Unit being serviced, or off in summer", unit: "off", isolated: true, lifted: true, note: "empty the branch or flush it weekly: it is a dead leg"},
		{name: "Winter, tub in use", unit: "on", note: "as in heating; the pump must not stop"},
		{name: "Winter, unit laid up, tub in use", unit: "off", isolated: true, lifted: true, emptied: true, note: "undo the unions, blow the branch out, caps loosely on"},
		{name: "Whole tub laid up", unit: "off", lifted: true, emptied: true, note: "blow everything out"},
	}
}

// valveSchedule follows the valves that stand in the circuit: the modes with the positions
// that were solved, then the states of service and winter.
func valveSchedule(p *plan.Plan) schedule {
	if p.After == nil {
		return schedule{}
	}
	branches := unitBranches(p.After.Circuit)
	valves := valvesOf(branches, tag.Tags(p.Circuit))
	if len(valves) == 0 {
		return schedule{}
	}
	var s schedule
	for _, v := range valves {
		s.Valves = append(s.Valves, v.name)
	}
	for _, m := range plan.Summarise(p) {
		s.Rows = append(s.Rows, modeRow(p, m, valves))
	}
	aside := asideOf(branches)
	for _, st := range serviceStates() {
		row := valveRow{State: st.name, Unit: st.unit, Note: st.note}
		for _, v := range valves {
			row.Positions = append(row.Positions, st.position(v, aside))
		}
		s.Rows = append(s.Rows, row)
	}
	s.Notes, s.Never = scheduleWords(branches, valves)
	s.Setting = settingWords(valves)
	return s
}

// unitBranches returns the branch of every unit that has water.
func unitBranches(c *graph.Circuit) []*stream.UnitBranch {
	net := stream.NewNet(c)
	var out []*stream.UnitBranch
	for _, u := range c.Units() {
		if b, _ := net.UnitBranch(u); b != nil {
			out = append(out, b)
		}
	}
	return out
}

// valvesOf lists the valves of the branches: to the units, from them, past them, drains.
func valvesOf(branches []*stream.UnitBranch, tags map[string]string) []valve {
	var out []valve
	add := func(p *graph.Part, d duty) {
		if slices.ContainsFunc(out, func(v valve) bool { return v.part == p }) {
			return
		}
		name := tags[p.ID]
		switch {
		case name == "":
			name = p.ID
		case !strings.EqualFold(name, p.ID):
			name += " " + p.ID
		}
		out = append(out, valve{p, d, name})
	}
	for _, b := range branches {
		for _, parts := range [][]*graph.Part{b.ToUnitParts, b.FromUnitParts} {
			for _, p := range parts {
				switch {
				case p.Kind.IsHandValve():
					add(p, isolates)
				case p.Kind == graph.CheckValve:
					add(p, follows)
				}
			}
		}
	}
	for _, b := range branches {
		for _, p := range b.BypassParts {
			switch {
			case p.Kind.IsHandValve():
				add(p, bypasses)
			case p.Kind == graph.CheckValve:
				add(p, checks)
			}
		}
	}
	for _, b := range branches {
		for _, p := range b.StubParts {
			if p.Kind == graph.DrainValve || p.Kind == graph.AirBleed || p.Kind.IsHandValve() {
				add(p, empties)
			}
		}
	}
	return out
}

// modeRow is one mode of the circuit, with the positions it was solved with.
func modeRow(p *plan.Plan, m plan.ModeSummary, valves []valve) valveRow {
	row := valveRow{State: "Mode " + m.Mode, Unit: "on"}
	switch {
	case m.HasUnit && m.Unit <= 0:
		row.Unit, row.Note = "off", "no water comes to the unit"
	case m.HasUnit && m.Least > 0 && m.Unit < m.Least:
		row.Unit, row.Note = "off", "the unit has too little flow and stops itself"
	case m.HasUnit && m.Most > 0 && m.Unit > m.Most:
		row.Note = "the unit has more flow than it may have"
	}
	sol := plan.SolutionOf(p.After, m.Mode)
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
	case said == "shut" && v.duty != checks && v.duty != follows:
		return "SHUT"
	case v.duty == bypasses && v.part.Valve != nil && v.part.Valve.Kv > 0:
		return fmt.Sprintf("set, Kv %.2f m3/h", v.part.Valve.Kv)
	case said != "":
		return said
	case v.duty == isolates:
		return "open"
	}
	return "by the water"
}

func (st state) position(v valve, aside bool) string {
	switch v.duty {
	case isolates:
		if st.isolated {
			return "SHUT"
		}
		return "open"
	case bypasses:
		if st.isolated || st.emptied {
			return "OPEN"
		}
		return "as set"
	case checks:
		if st.lifted && !aside && v.part.Check != nil && v.part.Check.Style != "swing" {
			return "poppet out"
		}
		return "by the water"
	case empties:
		if st.emptied {
			return "OPEN"
		}
		return "shut"
	}
	return "by the water"
}
