package pack

import (
	"dryfit/graph"
	"dryfit/graph/plan"
)

// schedule is the normal position of every valve in every state of the tub.
type schedule struct {
	Valves []string   // column heads: tag or id
	Rows   []valveRow // a row a state
}

type valveRow struct {
	State     string
	Positions []string
	Unit      string // "on" or "off"
	Note      string
}

// valveSchedule follows the bypass that stands in the circuit. Positions are common
// practice, no source; those of normal running come from the description.
func valveSchedule(p *plan.Plan) schedule {
	if p.After == nil {
		return schedule{}
	}
	branch, _ := graph.FindUnitBranch(p.After.Circuit)
	if branch == nil {
		return schedule{}
	}
	bypass := map[string]bool{}
	for _, q := range branch.BypassParts {
		bypass[q.ID] = true
	}
	var valves []*graph.Part
	for _, group := range [][]*graph.Part{branch.ToUnitParts, branch.FromUnitParts, branch.BypassParts} {
		for _, q := range group {
			if q.Kind.IsHandValve() || q.Kind == graph.CheckValve {
				valves = append(valves, q)
			}
		}
	}
	var s schedule
	for _, q := range valves {
		s.Valves = append(s.Valves, q.ID)
	}
	states := []struct {
		name, unit, note string
		isolators        string
		valve, check     string
	}{
		{"Heating, low speed", "on", "", "open", "set", "as its spring"},
		{"Jets, high speed", "on", "unit's flow at most its limit", "open", "set", "lifts"},
		{"First flush", "off", "10 to 30 minutes, then clean the filter", "SHUT", "open", "poppet out"},
		{"Unit being serviced, or off in summer", "off", "drain the branch or flush it weekly: it is a dead leg", "SHUT", "open", "poppet out"},
		{"Winter, tub in use", "on", "the pump must not stop", "open", "set", "as its spring"},
		{"Winter, unit laid up", "off", "drains open, blow the branch out", "SHUT", "open", "poppet out"},
		{"Whole tub laid up", "off", "blow everything out", "open", "open", "poppet out"},
	}
	for _, st := range states {
		row := valveRow{State: st.name, Unit: st.unit, Note: st.note}
		for _, q := range valves {
			switch {
			case q.Kind == graph.CheckValve:
				row.Positions = append(row.Positions, st.check)
			case bypass[q.ID]:
				row.Positions = append(row.Positions, st.valve)
			default:
				row.Positions = append(row.Positions, st.isolators)
			}
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}
