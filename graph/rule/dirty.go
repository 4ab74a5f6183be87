package rule

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// badDayRules judge the flows of the days on which nobody looks.
func badDayRules() []*Rule {
	return []*Rule{
		{
			Name:     "least-flow-when-dirty",
			Asks:     "With a dirty filter, and half of the jets turned down where there are some, the unit still gets its least flow.",
			Why:      "That is the tub a month after the fitter has left: a unit that only just has its flow on a clean filter trips.",
			Source:   "the unit's data sheet; the dirt by the filter's own factor, half of the jets by common practice, no source",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    leastFlowWhenDirty,
		},
		{
			Name:     "flow-past-check",
			Asks:     "With the unit shut off enough water passes the check in its bypass.",
			Why:      "The poppet of a check in the line is not taken out: while the unit is off all the water has to lift its spring, and the tub is filtered and heated by what then flows.",
			Source:   "the parts' data sheets; where they are silent half of what flows with the unit open, common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    flowPastCheck,
		},
		{
			Name:     "rise-measurable",
			Asks:     "The water warms by 1.5 K or more in the unit in the mode in which it gets least of it.",
			Why:      "A thermometer is good to 0.3 K: of a rise of 1 K nobody can tell the flow, and a wrong bypass stays unseen.",
			Source:   "heat balance, 0.86 K for each kW in 1 m³/h; the 0.3 K from memory",
			Severity: graph.Note,
			Needs:    NeedsFlow,
			Check:    riseMeasurable,
		},
	}
}

func leastFlowWhenDirty(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		least, _, _ := v.limits(b.Unit)
		clean := map[string]float64{}
		for _, m := range modesOf(in, b) {
			clean[m.solution.Mode.Name] = m.flow
		}
		for i := range in.DirtySolutions {
			s := &in.DirtySolutions[i]
			f := s.Part(b.Unit.ID)
			was, runs := clean[s.Mode.Name]
			if f == nil || least == 0 || !runs || was < least || math.Abs(f.Flow) >= least {
				continue // what is wrong on a clean filter is told by another rule
			}
			day, spare := "a dirty filter", "or a larger filter"
			if len(v.c.OfKind(graph.JetGroup)) > 0 {
				day, spare = day+" and half of the jets turned down", "a larger filter, or jets that can't be closed"
			}
			got, limit := v.flow(math.Abs(f.Flow)), v.flowLimit(least)
			d := graph.Diagnostic{
				Pos: key(b.Unit, "flow"), Severity: graph.Error, Unit: b.Unit.ID,
				Mode: s.Mode.Name, Message: graph.Say("mode %q: with %s %q gets %s; its least is %s%s, and with a clean one it gets %s", s.Mode.Name, day, b.Unit.ID, got, limit, byRow(v.part(b.Unit).Least), v.flow(was)),
				Hint: sheetFirst(v.part(b.Unit).Least, "flow", graph.Say("%slarger or shorter pipe to the unit, %s", lessPast(b, running{solution: s, flow: math.Abs(f.Flow)}), spare)),
			}
			if filter := b.up.First(graph.Filter); filter != nil {
				d.Related = []graph.Related{here(filter)}
			}
			if old := partBefore(in.BeforeDirty, b.Unit, s.Mode.Name); old != nil {
				d.Message += v.was(math.Abs(f.Flow), through(old), "it gets with such a filter", v.flow)
			}
			report(hadTooLittle(in.BeforeDirty, b.Unit, s.Mode.Name, least, math.Abs(f.Flow), through), d)
		}
	}
}

// LeastRiseK is the least rise in the unit from which a flow can be told, K: five times what
// a thermometer errs. Common practice, no source.
const LeastRiseK = 1.5

func riseMeasurable(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		var most running
		rise := 0.0
		for _, m := range modesOf(in, b) {
			if r := m.solution.Part(b.Unit.ID).RiseK; r > rise && m.flow >= standing {
				most, rise = m, r
			}
		}
		if rise == 0 || rise >= LeastRiseK {
			continue
		}
		report(b.Unit.Existing, graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Note,
			Mode: most.solution.Mode.Name, Message: graph.Say("mode %q: the water warms by %s at most in %q at %s; %s or more can be measured", most.solution.Mode.Name, v.kelvin(rise), b.Unit.ID, v.flow(most.flow), v.kelvin(LeastRiseK)),
			Hint: "prove the flow with a flow meter rather than by the rise, or send more past the unit",
		})
	}
}

func flowPastCheck(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		e := b.Element()
		if b.problem != "" || b.Pump == nil || e == nil || e.Kind != graph.CheckValve || PassesCheck(b.UnitBranch, e) {
			continue
		}
		worst, least, mode, by := math.Inf(1), 0.0, "", b.Pump
		for _, s := range unitOff(in.Isolated, b.Unit) {
			pump, got := LineFlow(v.net, &s.Solution, b.UnitBranch)
			if pump == nil {
				continue
			}
			want := WantedPastUnit(v.set, b.UnitBranch, sameMode(in.Solutions, s.Mode.Name))
			if want > 0 && got < want && got/want < worst {
				worst, least, mode, by = got/want, want, s.Mode.Name, pump
			}
		}
		if mode == "" {
			continue
		}
		before := solutionsOf(unitOff(in.BeforeIsolated, b.Unit))
		existing := b.Unit.Existing && e.Existing && hadTooLittle(before, by, mode, least, worst*least, through)
		report(existing, graph.Diagnostic{
			Pos: e.Pos, Severity: graph.Warning, Unit: b.Unit.ID, Related: []graph.Related{here(b.Unit), here(by)},
			Mode: mode, Message: graph.Say("mode %q: with %q shut off %s passes %q, and the line wants %s", mode, b.Unit.ID, v.flow(worst*least), e.ID, v.flowLimit(least)) + v.gotBefore(before, by, mode, worst*least),
			Hint: besideHint(in, e),
		})
	}
}

// unitOff are the solutions with one unit shut off.
func unitOff(list []UnitOff, unit *graph.Part) []UnitOff {
	var out []UnitOff
	for _, s := range list {
		if s.Unit == unit.ID {
			out = append(out, s)
		}
	}
	return out
}

func solutionsOf(list []UnitOff) []hydraulic.Solution {
	var out []hydraulic.Solution
	for _, s := range list {
		out = append(out, s.Solution)
	}
	return out
}
