package rule

import (
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
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
			Asks:     "In every mode water flows on the unit's line, or its pump is off and it is known that the unit stands.",
			Why:      "A pump that runs against shut valves boils the water in its own case. A unit called for heat while its pump is off goes to fault, and some controllers stop that pump while the jets run.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Needs:    NeedsFlow,
			Check:    heaterLineFlows,
		},
	}
}

func unitLimitsGiven(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		least, rated, most := v.limits(u)
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
			Message: graph.Say("%q: %d of 4 given, needs 4 (least, rated and most flow, loss); missing %s", u.ID, 4-len(missing), names(missing, func(s string) string { return s })),
			Hint:    "read them from the data sheet: flow = { least = …, rated = …, most = … } and loss = { flow = …, drop = … }",
		})
	}
}

func unitLeastFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		least, _, _ := v.limits(b.Unit)
		shutInAll(in, b, report)
		for _, m := range modesOf(in, b) {
			if least == 0 || m.flow >= least {
				continue
			}
			got, limit := v.flow(m.flow), v.flowLimit(least)
			report(hadTooLittle(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, least, m.flow, through), graph.Diagnostic{
				Pos: key(b.Unit, "flow"), Severity: graph.Error, Unit: b.Unit.ID, Related: []graph.Related{here(b.Pump)},
				Mode: m.solution.Mode.Name, Message: graph.Say("mode %q: %q gets %s; its least is %s", m.solution.Mode.Name, b.Unit.ID, got, limit) + byRow(v.part(b.Unit).Least) + v.gotBefore(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, m.flow),
				Hint: moreWater(v, b, m),
			})
		}
	}
}

// moreWater says what would give a unit its least flow; where its pump moves no water at all that comes first.
func moreWater(v *view, b branch, m running) quantity.Text {
	if pump, flow := LineFlow(v.net, m.solution, b.UnitBranch); pump != nil && flow <= standing {
		return graph.Say("no water passes its pump %q: see there first", b.Feeder(m.solution.Mode).ID)
	}
	return sheetFirst(v.part(b.Unit).Least, "flow", graph.Say("%slarger or shorter pipe to the unit, or a circulation pump for it", lessPast(b, m)))
}

// lessPast says what lets less water past the unit, as the beginning of a list; "" where
// none passes it.
func lessPast(b branch, m running) string {
	e := b.Element()
	if e == nil {
		return "a valve or a spring check in the bypass, "
	}
	if past := m.solution.Part(e.ID); past != nil && math.Abs(past.Flow) < 0.01*math.Abs(m.flow) {
		return ""
	}
	if e.Kind == graph.CheckValve {
		return fmt.Sprintf("a stronger spring in %q, ", e.ID)
	}
	return fmt.Sprintf("%q further shut, ", e.ID)
}

func unitRatedFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		least, rated, _ := v.limits(b.Unit)
		best := running{}
		for _, m := range modesOf(in, b) {
			if m.flow > best.flow {
				best = m
			}
		}
		if rated == 0 || best.solution == nil || best.flow >= rated || best.flow < least {
			continue
		}
		got, limit := v.flow(best.flow), v.flowLimit(rated)
		report(neverGot(in, b.Unit, rated), graph.Diagnostic{
			Pos: key(b.Unit, "flow"), Severity: graph.Note,
			Message: graph.Say("%q gets %s at most (mode %q), less than its rated %s%s but not less than its least", b.Unit.ID, got, best.solution.Mode.Name, limit, byRow(v.part(b.Unit).Rated)),
			Hint:    "it will heat with a larger temperature rise and a little less output",
		})
	}
}

func unitMostFlow(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		_, _, most := v.limits(b.Unit)
		for _, m := range modesOf(in, b) {
			if most == 0 || m.flow <= most {
				continue
			}
			got, limit := v.flow(m.flow), v.flowLimit(most)
			report(hadTooMuch(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, most, m.flow, through), graph.Diagnostic{
				Pos: key(b.Unit, "flow"), Severity: graph.Error, Unit: b.Unit.ID, Related: []graph.Related{here(b.Pump)},
				Mode: m.solution.Mode.Name, Message: graph.Say("mode %q: %q gets %s; its most is %s", m.solution.Mode.Name, b.Unit.ID, got, limit) + byRow(v.part(b.Unit).Most) + v.gotBefore(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, m.flow),
				Hint: sheetFirst(v.part(b.Unit).Most, "flow", "a weaker spring, a larger bypass, or an isolator set as a throttle and marked"),
			})
		}
	}
}

func heaterLineFlows(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.Pump == nil {
			continue
		}
		for i := range in.Solutions {
			s := &in.Solutions[i]
			pump := b.Pump
			if on := b.Feeder(s.Mode); on != nil {
				pump = on
			}
			flow, unit := s.Part(pump.ID), s.Part(b.Unit.ID)
			idle := unit != nil && unit.Idle()
			if flow == nil || !idle && moves(s, b) || s.OtherWater() {
				continue
			}
			d := graph.Diagnostic{
				Pos: or(s.Mode.Pos, b.Unit.Pos), Severity: graph.Note, Related: []graph.Related{here(b.Pump), here(b.Unit)},
				Of: []string{b.Pump.ID}, Mode: s.Mode.Name, Message: graph.Say("mode %q: pump %q is off, %s in its line, so %q stands; it heats only while that pump runs", s.Mode.Name, b.Pump.ID, v.flow(0), b.Unit.ID),
				Hint: "see that the controller keeps that pump on while heat is wanted: its set point above the unit's does it",
			}
			if len(b.Beside) > 0 {
				d.Message = graph.Say("mode %q: the pumps %s are off, %s in their line, so %q stands; it heats only while one of them runs", s.Mode.Name, partNames(b.Feeds()), v.flow(0), b.Unit.ID)
				d.Hint = "see that the controller keeps one of them on while heat is wanted: its set point above the unit's does it"
			}
			if idle {
				d.Message = graph.Say("mode %q: pump %q is off, so %q stands, though %s of another pump's water passes it; it heats only while its own pump runs", s.Mode.Name, b.Pump.ID, b.Unit.ID, v.flow(math.Abs(unit.Flow)))
			}
			existing := b.Unit.Existing
			if !idle && runsIn(s, pump) {
				d.Severity, d.Of, d.Related = graph.Error, []string{pump.ID}, []graph.Related{here(pump), here(b.Unit)}
				existing = existing && hadTooLittle(in.BeforeSolutions, pump, s.Mode.Name, standing, standing, through)
				why, hint := v.shutIn(s, b, flow)
				if shut := ShutInLine(s.Mode, b.UnitBranch); len(shut) > 0 && s.HeldBy(pump.ID) == nil && flow.Moving <= standing {
					if _, inMode := s.Mode.Positions[shut[0].ID]; !inMode {
						d.Pos = key(shut[0], "position")
					}
				}
				d.Message, d.Hint = graph.Say("mode %q: pump %q runs and %s passes it: ", s.Mode.Name, pump.ID, v.flow(0))+why+v.gotBefore(in.BeforeSolutions, pump, s.Mode.Name, 0), hint
			}
			report(existing, d)
		}
	}
}

// moves reports whether water passes one of the pumps that feed a unit.
func moves(s *hydraulic.Solution, b branch) bool {
	return slices.ContainsFunc(b.Feeds(), func(p *graph.Part) bool {
		f := s.Part(p.ID)
		return f != nil && math.Abs(f.Flow) > standing
	})
}

// shutIn says why no water passes a unit's pump that runs, and what would let it.
func (v *view) shutIn(s *hydraulic.Solution, b branch, pump *hydraulic.PartFlow) (why, hint quantity.Text) {
	hint = "a spring that opens below the pump's head at no flow"
	held := s.HeldBy(pump.Part.ID)
	switch {
	case pump.Moving > standing:
		return graph.Say("from rest it does not open the spring in its way; it would hold %s only if its water was moving already", v.flow(pump.Moving)), hint
	case held == nil && len(ShutInLine(s.Mode, b.UnitBranch)) > 0:
		shut := ShutInLine(s.Mode, b.UnitBranch)
		return graph.Say("%s shut in its line", stand(shut, false)), openAgain([]graph.Mode{s.Mode}, shut)
	case held == nil:
		return "every way to the tub is shut, 1 has to be open", "open the bypass before the unit's isolators are shut, and hang a tag on them that says so"
	case isolated(s, b):
		hint += ", or open the unit's isolators"
	}
	return graph.Say("the spring of %q opens at %s, and the pump holds %s at no flow", held.Part.ID, v.pressure(held.Spring.Pa), v.pressure(pump.ShutOffPa)), hint
}

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

// stoodSo reports whether unit and check are old, and the check stood as it does in a mode before the
// work too, or nobody knows.
func stoodSo(in *Input, b branch, m running, check *hydraulic.PartFlow) bool {
	if !b.Unit.Existing || !check.Part.Existing {
		return false
	}
	was := partBefore(in.BeforeSolutions, check.Part, m.solution.Mode.Name)
	return was == nil || was.State == check.State
}

func springNotTooWeak(in *Input, report Report) {
	checkState(in, func(v *view, b branch, m running, check *hydraulic.PartFlow) {
		_, rated, _ := v.limits(b.Unit)
		if rated == 0 || check.State != "lifting" || m.flow >= rated {
			return
		}
		got, limit := v.flow(m.flow), v.flowLimit(rated)
		existing := stoodSo(in, b, m, check) && hadTooLittle(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, rated, m.flow, through)
		report(existing, graph.Diagnostic{
			Pos: check.Part.Pos, Severity: graph.Warning, Unit: b.Unit.ID, Related: []graph.Related{here(b.Unit)},
			Mode: m.solution.Mode.Name, Message: graph.Say("mode %q: %q lifts and lets %s past while %q gets %s of its rated %s", m.solution.Mode.Name, check.Part.ID, v.flow(math.Abs(check.Flow)), b.Unit.ID, got, limit) + v.gotBefore(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, m.flow),
			Hint: graph.Say("a spring stronger than its %s, or less loss to the unit", v.pressure(v.part(check.Part).Cracking.V)),
		})
	})
}

func springNotTooStrong(in *Input, report Report) {
	checkState(in, func(v *view, b branch, m running, check *hydraulic.PartFlow) {
		_, _, most := v.limits(b.Unit)
		if most == 0 || check.State != "shut" || m.flow <= most {
			return
		}
		got, limit := v.flow(m.flow), v.flowLimit(most)
		by := check.Spring.Between()
		if a, means := check.Spring.Margin(check.MarginPa, check.State); means {
			by = graph.Say("%s below lifting", a)
		}
		existing := stoodSo(in, b, m, check) && hadTooMuch(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, most, m.flow, through)
		report(existing, graph.Diagnostic{
			Pos: check.Part.Pos, Severity: graph.Warning, Unit: b.Unit.ID, Related: []graph.Related{here(b.Unit)},
			Mode: m.solution.Mode.Name, Message: graph.Say("mode %q: %q stays shut, %s, while %q gets %s and its most is %s", m.solution.Mode.Name, check.Part.ID, by, b.Unit.ID, got, limit) + v.gotBefore(in.BeforeSolutions, b.Unit, m.solution.Mode.Name, m.flow),
			Hint: graph.Say("a spring weaker than its %s", v.pressure(v.part(check.Part).Cracking.V)),
		})
	})
}
