package table

import (
	"strconv"

	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// FlowCSV prints every part and run of every mode and stage, a line each. flow_m3_h is that of
// the case that is taken; where ranges were made the middle of the sample and what nine in ten
// lie between stand behind it, an end past a pump's curve is open; how many of how many samples are
// past it below and above the middle stands in beyond_low, beyond_high and samples. A mode without an answer has
// one line that says why; of a pump that holds at two flows the larger stands in flow_if_moving_m3_h.
func FlowCSV(p *plan.Plan, s form.Style) ([]byte, error) {
	var rows [][]string
	for _, st := range stages(p) {
		for _, n := range st.stage.NoAnswer {
			rows = append(rows, []string{form.Cell(n.Mode), string(st.name), "mode", "", "", "", "", "", "", "no answer", "", "", "", "", "", "", "", form.Cell(s.Say(n.Why)), ""})
		}
		for _, sol := range st.stage.Solutions {
			ranges := p.Ranges.Of(sol.Mode.Name, st.name)
			for i, f := range sol.Parts {
				row := []string{form.Cell(sol.Mode.Name), string(st.name), "part", form.Cell(f.Part.ID), string(f.Part.Kind),
					form.Fixed(f.Flow*3600, 3), form.Fixed(f.Drop/1000, 3), "", "", form.Cell(f.State)}
				var r *spread.Range
				if ranges != nil {
					r = &ranges.Parts[i]
				}
				moving := ""
				if q := movingFlow(&f); q != nil {
					moving = form.Fixed(*q, 3)
				}
				rows = append(rows, append(append(row, rangeCells(r)...), moving))
			}
			for i, r := range sol.Runs {
				velocity := form.Fixed(r.Velocity, 3)
				if r.Bare {
					velocity = ""
				}
				row := []string{form.Cell(sol.Mode.Name), string(st.name), "run", form.Cell(r.Run.ID), "",
					form.Fixed(r.Flow*3600, 3), form.Fixed(r.Drop/1000, 3), velocity, form.Fixed(r.Reynolds, 0), ""}
				var of *spread.Range
				if ranges != nil {
					of = &ranges.Runs[i]
				}
				rows = append(rows, append(append(row, rangeCells(of)...), ""))
			}
		}
	}
	return form.WriteCSV([]string{"mode", "stage", "what", "id", "kind", "flow_m3_h", "drop_kPa", "velocity_m_s", "reynolds", "state",
		"flow_middle_m3_h", "flow_low_m3_h", "flow_high_m3_h", "open",
		"beyond_low", "beyond_high", "samples", "why", "flow_if_moving_m3_h"}, rows), nil
}

// movingFlow is what would pass a part were its water moving already, m³/h: where a pump holds at two
// flows; else nil.
func movingFlow(f *hydraulic.PartFlow) *float64 {
	if q := form.M3h(f.Moving); q != 0 && q != form.M3h(f.Flow) {
		return &q
	}
	return nil
}

// rangeCells are the cells of a range of flow, and of why there is none.
func rangeCells(r *spread.Range) []string {
	if r == nil {
		return []string{"", "", "", "", "", "", "", ""}
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
	return []string{form.Fixed(r.Middle*3600, 3), form.Fixed(r.Low*3600, 3), form.Fixed(r.High*3600, 3), open,
		strconv.Itoa(r.PastLow), strconv.Itoa(r.PastHigh), strconv.Itoa(r.Of), ""}
}
