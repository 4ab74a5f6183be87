package rule

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// isolateRules say how the unit is closed off and taken out, and what must stay open.
func isolateRules() []*Rule {
	return []*Rule{
		{
			Name:     "unit-isolators",
			Asks:     "A hand valve stands in each of the unit's two pipes, between the tee and the unit.",
			Why:      "The unit has to come off with the tub full; without valves the tub drains through the open union.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Warning,
			Check:    unitIsolators,
		},
		{
			Name:     "unit-unions",
			Asks:     "A union stands in each of the unit's two pipes, next to the unit: no isolator between.",
			Why:      "The joint that opens has to be on the unit's side of the valve that shuts, and made last, so that no strain comes on the unit's ports.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Warning,
			Check:    unitUnions,
		},
		{
			Name:     "pump-not-shut-in",
			Asks:     "No single new hand valve can shut the pump's way to the tub.",
			Why:      "A pump that is shut in boils the water in its own case, and an element that is still on boils it in the tube.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    pumpNotShutIn,
		},
	}
}

// side is one of a unit's two pipes, its parts from the unit outwards.
type side struct {
	name  string // in words
	port  string // of the unit
	tee   *graph.Part
	parts []*graph.Part
	runs  []*graph.Run
}

// sides returns the two pipes of a unit.
func (b branch) sides() []side {
	to := side{name: "to", port: graph.In, tee: b.TeeIn, parts: slices.Clone(b.ToUnitParts), runs: b.ToUnitRuns}
	slices.Reverse(to.parts)
	return []side{to, {name: "from", port: graph.Out, tee: b.TeeOut, parts: b.FromUnitParts, runs: b.FromUnitRuns}}
}

func unitIsolators(in *Input, report Report) {
	for _, b := range in.ask().branches {
		if b.problem != "" {
			continue
		}
		for _, s := range b.sides() {
			if slices.ContainsFunc(s.parts, func(p *graph.Part) bool { return p.Kind.IsHandValve() }) {
				continue
			}
			report(b.Unit.Existing, graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: graph.Warning, Related: []graph.Related{here(s.tee)},
				Message: graph.Say("0 hand valves in the pipe %s %q, between it and %q; needs 1", s.name, b.Unit.ID, s.tee.ID),
				Hint:    "add a ball valve there",
			})
		}
	}
}

func unitUnions(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.problem != "" {
			continue
		}
		for _, s := range b.sides() {
			d := graph.Diagnostic{Severity: graph.Warning, Related: []graph.Related{here(b.Unit)}}
			union, valve := firstUnion(v, s.parts), firstValve(s.parts)
			switch {
			case union < 0:
				d.Pos = b.Unit.Pos
				d.Message = graph.Say("0 unions in the pipe %s %q, between it and %q; needs 1, next to the unit", s.name, b.Unit.ID, s.tee.ID)
				d.Hint = graph.Say("add a union at %q.%s, or make the isolator there a true-union valve", b.Unit.ID, s.port)
				d.Related = []graph.Related{here(s.tee)}
			case valve >= 0 && valve < union:
				d.Pos = s.parts[union].Pos
				d.Message = graph.Say("isolator %q stands between %q and its union %q: 1 valve there, needs 0", s.parts[valve].ID, b.Unit.ID, s.parts[union].ID)
				d.Hint = "swap the two"
				d.Related = append(d.Related, here(s.parts[valve]))
			default:
				continue
			}
			report(b.Unit.Existing, d)
		}
	}
}

func firstUnion(v *view, parts []*graph.Part) int {
	return slices.IndexFunc(parts, func(p *graph.Part) bool { return v.part(p).Opens() })
}

func firstValve(parts []*graph.Part) int {
	return slices.IndexFunc(parts, func(p *graph.Part) bool { return p.Kind.IsHandValve() })
}

func pumpNotShutIn(in *Input, report Report) {
	v := in.ask()
	for _, pump := range v.c.Pumps() {
		var valves, old []*graph.Part
		line := v.net.Downstream(pump)
		for _, p := range line.Parts {
			if !p.Kind.IsHandValve() {
				continue
			}
			if p.New() {
				valves = append(valves, p)
			} else {
				old = append(old, p)
			}
		}
		open := func(shut ...*graph.Part) bool {
			return v.net.WayToTub(pump, func(p *graph.Part) bool { return slices.Contains(shut, p) }) != nil
		}
		if len(valves) == 0 || !open() {
			continue
		}
		alone := 0
		for _, valve := range valves {
			if open(valve) {
				continue
			}
			alone++
			report(false, graph.Diagnostic{
				Pos: valve.Pos, Severity: graph.Error, Related: []graph.Related{here(pump)},
				Message: graph.Say("%s %q by itself can shut pump %q in: 0 ways to the tub past it, needs 1", valve.Kind, valve.ID, pump.ID),
				Hint:    "move it into the unit's branch or the bypass, or take it out",
			})
		}
		if alone == 0 && open(old...) && !open(slices.Concat(valves, old)...) {
			report(false, graph.Diagnostic{
				Pos: valves[0].Pos, Severity: graph.Note, Related: []graph.Related{here(pump)},
				Message: graph.Say("together %s (%s) can shut pump %q in: 0 ways to the tub are left then, needs 1", quantity.Counted(len(valves), "new valve"), partNames(valves), pump.ID),
				Hint:    "one way has to stay open while the pump or the element is on: hang a tag on each that says so",
			})
		}
	}
}
