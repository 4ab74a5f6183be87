package rule

import (
	"fmt"
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// flowRules judge the unit's flow, which is the promise of the whole job, and how the
// bypass keeps it. They read the solved modes.
func flowRules() []*Rule {
	return []*Rule{
		{
			Name:     "unit-limits-given",
			Asks:     "The unit's least, rated and most flow and its loss are given.",
			Why:      "Without them nothing can be promised: the unit's flow against its limits is what the job turns on.",
			Source:   "follows from the computation",
			Severity: graph.Warning,
			Check:    unitLimitsGiven,
		},
		{
			Name:     "unit-least-flow",
			Asks:     "Whenever the unit's pump runs and its isolators are open, the unit gets its least flow.",
			Why:      "Below it the flow switch trips, or the water in the exchanger gets too hot.",
			Source:   "the unit's data sheet",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    unitLeastFlow,
		},
		{
			Name:     "unit-rated-flow",
			Asks:     "The unit gets its rated flow in at least one mode.",
			Why:      "Between least and rated it works, with a little less output and a larger temperature rise.",
			Source:   "the unit's data sheet",
			Severity: graph.Note,
			Needs:    NeedsFlow,
			Check:    unitRatedFlow,
		},
		{
			Name:     "unit-most-flow",
			Asks:     "The unit never gets more than its most flow.",
			Why:      "Above it the water wears the exchanger and shakes its tubes.",
			Source:   "the unit's data sheet",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    unitMostFlow,
		},
		{
			Name:     "spring-not-too-weak",
			Asks:     "The spring in the bypass stays shut while the unit gets less than its rated flow.",
			Why:      "A spring that lifts early lets past what the unit still wants; one that lifts while the unit has its rated flow is a good job.",
			Source:   "follows from the computation",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    springNotTooWeak,
		},
		{
			Name:     "spring-not-too-strong",
			Asks:     "The check in the bypass lifts when the unit gets more than its most flow.",
			Why:      "A spring that never lifts drives all the high speed through the unit.",
			Source:   "follows from the computation",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    springNotTooStrong,
		},
		{
			Name:     "heater-line-flows",
			Asks:     "Water flows on the unit's line in every mode, or it is known that the unit stands in that mode.",
			Why:      "A unit called for heat without flow goes to fault, and some controllers stop the heater's pump while the jets run.",
			Source:   "common practice, no source",
			Severity: graph.Note,
			Needs:    NeedsFlow,
			Check:    heaterLineFlows,
		},
	}
}

// standing is the flow below which water counts as standing, m³/s: a litre an hour.
const standing = 1e-3 / 3600

// limits returns the least, rated and most flow of a unit, m³/s: the description's, else
// those of the catalogue row it names; 0 where not known.
func limits(c *graph.Circuit, u *graph.Part) (least, rated, most float64) {
	if u.Unit != nil {
		least, rated, most = u.Unit.Least, u.Unit.Rated, u.Unit.Most
	}
	if u.Type == "" {
		return least, rated, most
	}
	r := row(c, u)
	pick := func(own, row float64) float64 {
		if own > 0 {
			return own
		}
		return row
	}
	return pick(least, r.Least), pick(rated, r.Rated), pick(most, r.Most)
}

func unitLimitsGiven(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		least, rated, most := limits(v.c, u)
		var missing []string
		for _, x := range []struct {
			name string
			ok   bool
		}{
			{"least flow", least > 0}, {"rated flow", rated > 0}, {"most flow", most > 0},
			{"loss", u.Loss != nil || u.Type != ""},
		} {
			if !x.ok {
				missing = append(missing, x.name)
			}
		}
		if len(missing) == 0 {
			continue
		}
		report(u.Existing, graph.Diagnostic{
			Pos: u.Pos, Severity: graph.Warning,
			Message: fmt.Sprintf("%q: %d of 4 given, needs 4 (least, rated and most flow, loss); missing %s", u.ID, 4-len(missing), names(missing, func(s string) string { return s })),
			Hint:    "read them from the data sheet: flow = { least = …, rated = …, most = … } and loss = { flow = …, drop = … }",
		})
	}
}

// running is one mode in which the unit's pump runs and the unit is not shut off by hand.
type running struct {
	solution *hydraulic.Solution
	flow     float64 // through the unit, m³/s, either way
}

// modesOf returns the modes in which a unit is meant to have flow.
func modesOf(in *Input, b branch) []running {
	var out []running
	for i := range in.Solutions {
		s := &in.Solutions[i]
		flow := s.Part(b.Unit.ID)
		if flow == nil || !pumpRuns(s, b) || isolated(s, b) {
			continue
		}
		out = append(out, running{s, math.Abs(flow.Flow)})
	}
	return out
}

// pumpRuns reports whether the unit's pump runs in the mode.
func pumpRuns(s *hydraulic.Solution, b branch) bool {
	if b.Pump == nil {
		return false
	}
	if _, on := s.Mode.Speeds[b.Pump.ID]; on {
		return true
	}
	p := s.Part(b.Pump.ID)
	return p != nil && p.State != "" && p.State != "off"
}

// isolated reports whether the mode shuts a hand valve in the unit's pipes.
func isolated(s *hydraulic.Solution, b branch) bool {
	to, from := b.Isolators()
	for _, list := range [][]*graph.Part{to, from} {
		for _, p := range list {
			if position(s.Mode, p) == 0 {
				return true
			}
		}
	}
	return false
}

// position returns how far a hand valve is open in a mode, 0 to 1.
func position(m graph.Mode, p *graph.Part) float64 {
	if pos, said := m.Positions[p.ID]; said {
		return float64(pos)
	}
	if p.Valve != nil && p.Valve.PositionSet {
		return float64(p.Valve.Position)
	}
	return 1
}

func unitLeastFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		least, _, _ := limits(v.c, b.Unit)
		for _, m := range modesOf(in, b) {
			if least == 0 || m.flow >= least {
				continue
			}
			report(b.Unit.Existing, graph.Diagnostic{
				Pos: key(b.Unit, "flow"), Severity: graph.Error, Related: []graph.Related{here(b.Pump)},
				Message: fmt.Sprintf("mode %q: %q gets %s; its least is %s", m.solution.Mode.Name, b.Unit.ID, v.flow(m.flow), v.flow(least)),
				Hint:    "a stronger spring or a smaller opening of the bypass, larger or shorter pipe to the unit, or a circulation pump for it",
			})
		}
	}
}

func unitRatedFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		least, rated, _ := limits(v.c, b.Unit)
		best := running{}
		for _, m := range modesOf(in, b) {
			if m.flow > best.flow {
				best = m
			}
		}
		if rated == 0 || best.solution == nil || best.flow >= rated || best.flow < least {
			continue
		}
		report(b.Unit.Existing, graph.Diagnostic{
			Pos: key(b.Unit, "flow"), Severity: graph.Note,
			Message: fmt.Sprintf("%q gets %s at most (mode %q), less than its rated %s but not less than its least", b.Unit.ID, v.flow(best.flow), best.solution.Mode.Name, v.flow(rated)),
			Hint:    "it will heat with a larger temperature rise and a little less output",
		})
	}
}

func unitMostFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		_, _, most := limits(v.c, b.Unit)
		for _, m := range modesOf(in, b) {
			if most == 0 || m.flow <= most {
				continue
			}
			report(b.Unit.Existing, graph.Diagnostic{
				Pos: key(b.Unit, "flow"), Severity: graph.Error, Related: []graph.Related{here(b.Pump)},
				Message: fmt.Sprintf("mode %q: %q gets %s; its most is %s", m.solution.Mode.Name, b.Unit.ID, v.flow(m.flow), v.flow(most)),
				Hint:    "a weaker spring, a larger bypass, or an isolator set as a throttle and marked",
			})
		}
	}
}

// checkState calls back for every check in a unit's bypass in every mode.
func checkState(in *Input, do func(v *view, b branch, m running, check *hydraulic.PartFlow)) {
	v := in.ask()
	for _, b := range v.branches {
		for _, m := range modesOf(in, b) {
			for _, p := range b.BypassParts {
				if flow := m.solution.Part(p.ID); p.Kind == graph.CheckValve && !isSwing(v.c, p) && flow != nil {
					do(v, b, m, flow)
				}
			}
		}
	}
}

func springNotTooWeak(in *Input, report Report) {
	checkState(in, func(v *view, b branch, m running, check *hydraulic.PartFlow) {
		_, rated, _ := limits(v.c, b.Unit)
		if rated == 0 || check.State != "lifting" || m.flow >= rated {
			return
		}
		report(b.Unit.Existing && check.Part.Existing, graph.Diagnostic{
			Pos: check.Part.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Unit)},
			Message: fmt.Sprintf("mode %q: %q lifts and lets %s past while %q gets %s of its rated %s", m.solution.Mode.Name, check.Part.ID, v.flow(math.Abs(check.Flow)), b.Unit.ID, v.flow(m.flow), v.flow(rated)),
			Hint:    fmt.Sprintf("a spring stronger than its %s, or less loss to the unit", v.pressure(crackingPa(v.c, check.Part))),
		})
	})
}

func springNotTooStrong(in *Input, report Report) {
	checkState(in, func(v *view, b branch, m running, check *hydraulic.PartFlow) {
		_, _, most := limits(v.c, b.Unit)
		if most == 0 || check.State != "shut" || m.flow <= most {
			return
		}
		report(b.Unit.Existing && check.Part.Existing, graph.Diagnostic{
			Pos: check.Part.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Unit)},
			Message: fmt.Sprintf("mode %q: %q stays shut, %s below lifting, while %q gets %s and its most is %s", m.solution.Mode.Name, check.Part.ID, v.pressure(check.MarginPa), b.Unit.ID, v.flow(m.flow), v.flow(most)),
			Hint:    fmt.Sprintf("a spring weaker than its %s", v.pressure(crackingPa(v.c, check.Part))),
		})
	})
}

func heaterLineFlows(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.Pump == nil {
			continue
		}
		for i := range in.Solutions {
			s := &in.Solutions[i]
			flow := s.Part(b.Pump.ID)
			if flow == nil || math.Abs(flow.Flow) > standing {
				continue
			}
			report(b.Unit.Existing, graph.Diagnostic{
				Pos: or(s.Mode.Pos, b.Unit.Pos), Severity: graph.Note, Related: []graph.Related{here(b.Pump), here(b.Unit)},
				Message: fmt.Sprintf("mode %q: %s through pump %q, so %q stands; it heats only while that pump runs", s.Mode.Name, v.flow(math.Abs(flow.Flow)), b.Pump.ID, b.Unit.ID),
				Hint:    "see that the controller keeps that pump on while heat is wanted: its set point above the unit's does it",
			})
		}
	}
}
