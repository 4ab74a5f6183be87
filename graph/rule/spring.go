package rule

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// checkState calls back for every check in a unit's bypass in every mode.
func checkState(in *Input, do func(v *view, b branch, m running, check *hydraulic.PartFlow)) {
	v := in.ask()
	for _, b := range v.branches {
		for _, m := range modesOf(in, b) {
			for _, p := range b.BypassParts {
				if flow := m.solution.Part(p.ID); p.Kind == graph.CheckValve && !v.part(p).IsSwing() && flow != nil {
					do(v, b, m, flow)
				}
			}
		}
	}
}

func springNotTooWeak(in *Input, report Report) {
	checkState(in, func(v *view, b branch, m running, check *hydraulic.PartFlow) {
		_, rated, _ := v.limits(b.Unit)
		if rated == 0 || check.State != "lifting" || m.flow >= rated {
			return
		}
		got, limit := v.flow(m.flow), v.flow(rated)
		report(b.Unit.Existing && check.Part.Existing, graph.Diagnostic{
			Pos: check.Part.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Unit)},
			Message: graph.Say("mode %q: %q lifts and lets %s past while %q gets %s of its rated %s", m.solution.Mode.Name, check.Part.ID, v.flow(math.Abs(check.Flow)), b.Unit.ID, got, limit),
			Hint:    graph.Say("a spring stronger than its %s, or less loss to the unit", v.pressure(v.part(check.Part).Cracking.V)),
		})
	})
}

func springNotTooStrong(in *Input, report Report) {
	checkState(in, func(v *view, b branch, m running, check *hydraulic.PartFlow) {
		_, _, most := v.limits(b.Unit)
		if most == 0 || check.State != "shut" || m.flow <= most {
			return
		}
		got, limit := v.flow(m.flow), v.flow(most)
		report(b.Unit.Existing && check.Part.Existing, graph.Diagnostic{
			Pos: check.Part.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Unit)},
			Message: graph.Say("mode %q: %q stays shut, %s below lifting, while %q gets %s and its most is %s", m.solution.Mode.Name, check.Part.ID, v.pressure(check.MarginPa), b.Unit.ID, got, limit),
			Hint:    graph.Say("a spring weaker than its %s", v.pressure(v.part(check.Part).Cracking.V)),
		})
	})
}
