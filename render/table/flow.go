package table

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
)

// FlowCSV prints every part and run of every mode and stage, a line each.
func FlowCSV(p *plan.Plan, _ Style) ([]byte, error) {
	var rows [][]string
	for _, stage := range []*plan.Stage{p.Before, p.After} {
		if stage == nil {
			continue
		}
		for _, sol := range stage.Solutions {
			for _, f := range sol.Parts {
				rows = append(rows, []string{cell(sol.Mode.Name), string(sol.Stage), "part", cell(f.Part.ID), string(f.Part.Kind),
					fixed(f.Flow*3600, 3), fixed(f.Drop/1000, 3), "", "", cell(f.State)})
			}
			for _, r := range sol.Runs {
				rows = append(rows, []string{cell(sol.Mode.Name), string(sol.Stage), "run", cell(r.Run.ID), "",
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
	return []byte(b.String()), nil
}

// modeText prints one mode: pumps, parts, runs.
func modeText(p *plan.Plan, sol, before *hydraulic.Solution, s Style) string {
	var b strings.Builder
	b.WriteString(s.title(plain("Mode " + sol.Mode.Name)))
	spread := p.Ranges.Of(sol.Mode.Name, sol.Stage)
	var rows [][]string
	for i, f := range sol.Parts {
		now := "-"
		if before != nil {
			if old := before.Part(f.Part.ID); old != nil {
				now = s.flow(old.Flow)
			}
		}
		rows = append(rows, []string{f.Part.ID, now, s.flow(f.Flow), partSpread(spread, i, s), s.pressure(f.Drop), partWords(f, s)})
	}
	header := []string{"part", "flow today", "flow", "range", "drop", ""}
	right := []string{"flow today", "flow", "drop"}
	b.WriteString(grid(s, header, right, rows) + "\n")
	rows = nil
	for _, r := range sol.Runs {
		side := "pressure"
		if r.Suction {
			side = "suction"
		}
		rows = append(rows, []string{r.Run.ID, r.Run.Size.String(), fixed(r.BoreMM, 1), s.flow(r.Flow), s.speed(r.Velocity), side,
			fixed(r.Reynolds, 0), s.pressure(r.Drop), s.pressure(r.StaticPa)})
	}
	b.WriteString(grid(s, []string{"run", "size", "bore mm", "flow", "velocity", "side", "Re", "drop", "pressure"},
		[]string{"bore mm", "flow", "velocity", "Re", "drop", "pressure"}, rows))
	b.WriteString(headText(p, sol, s))
	return b.String()
}

func partSpread(spread *hydraulic.ModeRanges, i int, s Style) string {
	if spread == nil || spread.Parts[i].Likely == 0 && spread.Parts[i].High == 0 {
		return ""
	}
	return s.flow(spread.Parts[i].Low) + " to " + s.flow(spread.Parts[i].High)
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
