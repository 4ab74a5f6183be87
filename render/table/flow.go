package table

import "dryfit/graph/plan"

// FlowCSV prints every part and run of every mode and stage, a line each.
func FlowCSV(p *plan.Plan, _ Style) ([]byte, error) {
	var rows [][]string
	for _, st := range stages(p) {
		for _, sol := range st.stage.Solutions {
			for _, f := range sol.Parts {
				rows = append(rows, []string{cell(sol.Mode.Name), string(st.name), "part", cell(f.Part.ID), string(f.Part.Kind),
					fixed(f.Flow*3600, 3), fixed(f.Drop/1000, 3), "", "", cell(f.State)})
			}
			for _, r := range sol.Runs {
				velocity := fixed(r.Velocity, 3)
				if r.Bare {
					velocity = ""
				}
				rows = append(rows, []string{cell(sol.Mode.Name), string(st.name), "run", cell(r.Run.ID), "",
					fixed(r.Flow*3600, 3), fixed(r.Drop/1000, 3), velocity, fixed(r.Reynolds, 0), ""})
			}
		}
	}
	return writeCSV([]string{"mode", "stage", "what", "id", "kind", "flow_m3_h", "drop_kPa", "velocity_m_s", "reynolds", "state"}, rows), nil
}
