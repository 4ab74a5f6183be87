package table

import (
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
)

// FlowCSV prints every part and run of every mode and stage, a line each. flow_m3_h is that of
// the case as described; where ranges were made the middle of the sample and what nine in ten
// lie between stand behind it, an end past a pump's curve is open. A mode without an answer has
// one line that says why.
func FlowCSV(p *plan.Plan, s Style) ([]byte, error) {
	var rows [][]string
	for _, st := range stages(p) {
		for _, n := range st.stage.NoAnswer {
			rows = append(rows, []string{cell(n.Mode), string(st.name), "mode", "", "", "", "", "", "", "no answer", "", "", "", "", cell(s.say(n.Why))})
		}
		for _, sol := range st.stage.Solutions {
			ranges := p.Ranges.Of(sol.Mode.Name, st.name)
			for i, f := range sol.Parts {
				row := []string{cell(sol.Mode.Name), string(st.name), "part", cell(f.Part.ID), string(f.Part.Kind),
					fixed(f.Flow*3600, 3), fixed(f.Drop/1000, 3), "", "", cell(f.State)}
				var r *spread.Range
				if ranges != nil {
					r = &ranges.Parts[i]
				}
				rows = append(rows, append(row, rangeCells(r)...))
			}
			for i, r := range sol.Runs {
				velocity := fixed(r.Velocity, 3)
				if r.Bare {
					velocity = ""
				}
				row := []string{cell(sol.Mode.Name), string(st.name), "run", cell(r.Run.ID), "",
					fixed(r.Flow*3600, 3), fixed(r.Drop/1000, 3), velocity, fixed(r.Reynolds, 0), ""}
				var of *spread.Range
				if ranges != nil {
					of = &ranges.Runs[i]
				}
				rows = append(rows, append(row, rangeCells(of)...))
			}
		}
	}
	return writeCSV([]string{"mode", "stage", "what", "id", "kind", "flow_m3_h", "drop_kPa", "velocity_m_s", "reynolds", "state",
		"flow_middle_m3_h", "flow_low_m3_h", "flow_high_m3_h", "open", "why"}, rows), nil
}

// rangeCells are the cells of a range of flow, and of why there is none.
func rangeCells(r *spread.Range) []string {
	if r == nil {
		return []string{"", "", "", "", ""}
	}
	open := ""
	switch {
	case r.OpenLow && r.OpenHigh:
		open = "both"
	case r.OpenLow:
		open = "low"
	case r.OpenHigh:
		open = "high"
	}
	return []string{fixed(r.Middle*3600, 3), fixed(r.Low*3600, 3), fixed(r.High*3600, 3), open, ""}
}
