package table

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

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
				rows = append(rows, []string{cell(sol.Mode.Name), string(st.name), "run", cell(r.Run.ID), "",
					fixed(r.Flow*3600, 3), fixed(r.Drop/1000, 3), fixed(r.Velocity, 3), fixed(r.Reynolds, 0), ""})
			}
		}
	}
	return writeCSV([]string{"mode", "stage", "what", "id", "kind", "flow_m3_h", "drop_kPa", "velocity_m_s", "reynolds", "state"}, rows), nil
}

// FlowText prints the summary, then every mode, before and after side by side.
func FlowText(p *plan.Plan, s Style) ([]byte, error) {
	var b strings.Builder
	if lines := SummaryLines(p, s); len(lines) > 0 {
		b.WriteString(s.title("In short"))
		for _, l := range lines {
			b.WriteString("  " + plain(l) + "\n")
		}
	}
	b.WriteString(rangesText(p.Ranges))
	if p.Advice != nil {
		b.WriteString("\n" + adviceText(p.Advice, s))
	}
	main := p.After
	if main == nil {
		main = p.Before
	}
	if main == nil {
		return []byte(b.String()), nil
	}
	for i := range main.Solutions {
		sol := &main.Solutions[i]
		var before *hydraulic.Solution
		if main != p.Before {
			before = plan.SolutionOf(p.Before, sol.Mode.Name)
		}
		b.WriteString("\n" + modeText(p, sol, before, s))
	}
	if len(main.Solutions) > 0 {
		b.WriteString(methodText(&main.Solutions[0]))
	}
	return []byte(b.String()), nil
}

// modeText prints one mode: pumps, parts, runs. Units stand in the heads of the columns.
func modeText(p *plan.Plan, sol, before *hydraulic.Solution, s Style) string {
	var b strings.Builder
	b.WriteString(s.title(plain(fmt.Sprintf("Mode %s, %s the work", sol.Mode.Name, sol.Stage))))
	b.WriteString(partsOfMode(p.Ranges.Of(sol.Mode.Name, sol.Stage), sol, before, s) + "\n")
	b.WriteString(runsOfMode(sol, s))
	b.WriteString(headText(sol, s))
	return b.String()
}

// partsOfMode prints what passes every part: today, after the work, and its range.
func partsOfMode(spread *hydraulic.ModeRanges, sol, before *hydraulic.Solution, s Style) string {
	flow, pressure := s.flowUnit(), s.pressureUnit()
	header := []string{"part", flow.name, "drop " + pressure.name, ""}
	right := []string{flow.name, "drop " + pressure.name}
	if spread != nil {
		header = slices.Insert(header, 2, "range")
	}
	if before != nil {
		header = slices.Insert(header, 1, "today")
		right = append(right, "today")
	}
	var rows [][]string
	for i, f := range sol.Parts {
		row := []string{f.Part.ID}
		if before != nil {
			today := "-"
			if old := before.Part(f.Part.ID); old != nil {
				today = flow.text(old.Flow)
			}
			row = append(row, today)
		}
		row = append(row, flow.text(f.Flow))
		if spread != nil {
			row = append(row, rangeText(spread.Parts[i], flow))
		}
		rows = append(rows, append(row, pressure.text(f.Drop), partWords(f, s)))
	}
	return grid(s, header, right, rows)
}

// rangeText prints a range of flows; nothing where there is none.
func rangeText(r hydraulic.Range, u unit) string {
	if r.High-r.Low < 1e-9 {
		return ""
	}
	return u.text(r.Low) + " to " + u.text(r.High)
}

// runsOfMode prints what passes every run.
func runsOfMode(sol *hydraulic.Solution, s Style) string {
	flow, pressure, speed := s.flowUnit(), s.pressureUnit(), s.speedUnit()
	var rows [][]string
	for _, r := range sol.Runs {
		side, limit := "", rule.PressureVelocity
		if r.Suction {
			side, limit = "suction", rule.SuctionVelocity
		}
		fast := ""
		if r.Velocity > limit {
			fast = "!"
		}
		rows = append(rows, []string{r.Run.ID, r.Run.Size.String(), fixed(r.BoreMM, 1), flow.text(r.Flow), fast + speed.text(r.Velocity),
			fixed(r.Reynolds, 0), pressure.text(r.Drop), pressure.text(r.StaticPa), side})
	}
	drop, static := "drop "+pressure.name, pressure.name+" inside"
	return grid(s, []string{"run", "size", "bore mm", flow.name, speed.name, "Re", drop, static, "side"},
		[]string{"bore mm", flow.name, speed.name, "Re", drop, static}, rows)
}

// partWords says what else is worth knowing of a part.
func partWords(f hydraulic.PartFlow, s Style) string {
	switch f.Part.Kind {
	case graph.Pump:
		return pumpWords(f, s)
	case graph.CheckValve:
		if f.State == "shut" {
			return fmt.Sprintf("shut; opens after %s more, or %s more past it", s.pressure(f.MarginPa), s.flow(f.MarginFlow))
		}
		return fmt.Sprintf("%s; shuts after %s less", f.State, s.pressure(f.MarginPa))
	case graph.HeatPump:
		if f.RiseK > 0 {
			return fmt.Sprintf("water rises %s K; %s at its inlet", fixed(f.RiseK, 1), s.pressure(f.StaticPa))
		}
		return s.pressure(f.StaticPa) + " at its inlet"
	}
	return f.State
}

func pumpWords(f hydraulic.PartFlow, s Style) string {
	if f.State == "off" {
		return "off"
	}
	words := []string{f.State, "head " + s.head(f.HeadM), "shut-off " + s.pressure(f.ShutOffPa)}
	if f.PowerW > 0 {
		words = append(words, fixed(f.PowerW, 0)+" W")
	}
	if f.NPSHKnown {
		words = append(words, "NPSH available "+s.head(f.NPSHAvailableM))
	}
	return strings.Join(words, ", ")
}

// rangesText prints how sure the answers are, and what to measure first.
func rangesText(r *hydraulic.Ranges) string {
	if r == nil {
		return ""
	}
	var b strings.Builder
	fmt.Fprintf(&b, "How sure (%d samples of what is not known exactly; nine in ten lie in the ranges)\n", r.Samples)
	for _, p := range r.Promises {
		fmt.Fprintf(&b, "  %s: %s: in %s %% of the sample\n", plain(p.Mode), plain(p.Text), fixed(p.Share*100, 0))
	}
	for i, f := range r.MeasureFirst {
		if i == 5 {
			break
		}
		lead := "  measure this first"
		if i > 0 {
			lead = "  then"
		}
		fmt.Fprintf(&b, "%s: %s: it moves %s by ±%s %% (%s)\n", lead, plain(f.What), f.Moves, fixed(f.Effect*100, 0), plain(f.Mode))
	}
	if r.Unsolved > 0 {
		fmt.Fprintf(&b, "  %d samples had no answer and are left out\n", r.Unsolved)
	}
	return b.String()
}
