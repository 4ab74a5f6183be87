package rule

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// bypassRules say what lets the line's water pass the unit by.
func bypassRules() []*Rule {
	return []*Rule{
		{
			Name:     "unit-has-bypass",
			Asks:     "A bypass leads past the unit.",
			Why:      "Without one all the pump gives goes through the unit, the jets lose what it costs, and the tub is out of use whenever the unit is.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Error,
			Check:    unitHasBypass,
		},
		{
			Name:     "bypass-between-its-tees",
			Asks:     "The two tees are tees of one line, with nothing between them but the bypass, and nothing else branches off between them or on the unit's pipes.",
			Why:      "Whatever stands between the tees loses the water the unit takes, and a branch there upsets the share that was set.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Error,
			Check:    bypassBetweenItsTees,
		},
		{
			Name:     "bypass-fits-pump",
			Asks:     "A pump with two or more speeds, or pumps on one line that don't always run together, have a spring check in the bypass, a constant pump a throttle valve.",
			Why:      "Two fixed resistances share the flow in nearly the same ratio at every speed: the throttle that protects the unit at high speed starves it at low. A spring stays shut at low and lifts at high; on a constant pump it only costs head and can't be set.",
			Source:   "common practice, no source; the ratio follows from square-law losses",
			Severity: graph.Warning,
			Check:    bypassFitsPump,
		},
		{
			Name:     "way-round-when-isolated",
			Asks:     "With both isolators of the unit shut the pump still has a way to the tub at its lowest speed.",
			Why:      "The unit comes off in summer and for service, and the tub has to run without it: a bypass valve left shut, or a spring stronger than the low speed's shut-off head, stops all the water.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Check:    wayRoundWhenIsolated,
		},
		{
			Name:     "parallel-units-alike",
			Asks:     "Units in parallel have equal pipes, within a tenth of their length.",
			Why:      "The water takes the shorter way, and the unit on the longer one gets too little.",
			Source:   "heat pump manuals ask for equal runs; the tenth is common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check:    parallelUnitsAlike,
		},
	}
}

func unitHasBypass(in *Input, report Report) {
	for _, b := range in.ask().branches {
		if b.problem == "" {
			continue
		}
		d := graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Error,
			Message: graph.Say("%s; it needs 1", b.problem),
			Hint:    "put a tee before and a tee after the unit's pipes in one straight stretch of the line, and the bypass between them",
		}
		if b.Pump != nil {
			d.Related = append(d.Related, here(b.Pump))
		}
		report(b.Unit.Existing, d)
	}
}

// passable lists the kinds that may stand in a bypass or on a unit's pipes without changing
// what the water is there for.
func passable(k graph.Kind) bool {
	return k.IsHandValve() || slices.Contains([]graph.Kind{graph.CheckValve, graph.Tee, graph.Union, graph.Coupling,
		graph.SlipCoupling, graph.Reducer, graph.Transition, graph.Barb, graph.DrainValve, graph.AirBleed,
		graph.Cap, graph.ThermometerPocket, graph.FlowSwitch, graph.PressureSwitch, graph.PressureGauge}, k)
}

func bypassBetweenItsTees(in *Input, report Report) {
	v := in.ask()
	mine := branchRuns(v)
	for _, b := range v.branches {
		if b.problem != "" {
			continue
		}
		for _, end := range []*graph.Part{b.TeeIn, b.TeeOut} {
			if end.Kind != graph.Tee {
				report(b.Unit.Existing, graph.Diagnostic{
					Pos: b.Unit.Pos, Severity: graph.Error, Related: []graph.Related{here(end)},
					Message: graph.Say("the water to %q leaves or meets the line at %s %q: 0 tees there, needs 1", b.Unit.ID, end.Kind, end.ID),
					Hint:    "cut the two tees into one straight stretch of the line",
				})
			}
		}
		for _, p := range b.BypassParts {
			if passable(p.Kind) {
				continue
			}
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: p.Pos, Severity: graph.Error, Related: []graph.Related{here(b.TeeIn), here(b.TeeOut), here(b.Unit)},
				Message: graph.Say("%s %q stands between the tees %q and %q of %q: 1 part there beside the bypass, needs 0", p.Kind, p.ID, b.TeeIn.ID, b.TeeOut.ID, b.Unit.ID),
				Hint:    graph.Say("bring both tees to the same side of %q", p.ID),
			})
		}
		for _, p := range slices.Concat(b.BypassParts, b.ToUnitParts, b.FromUnitParts) {
			for _, r := range v.net.At(p) {
				if !v.net.Flows(r) || mine[b.TeeIn.ID+">"+b.TeeOut.ID][r.ID] {
					continue
				}
				report(b.Unit.Existing && p.Existing, graph.Diagnostic{
					Pos: p.Pos, Severity: graph.Error, Related: []graph.Related{hereRun(r), here(b.TeeIn), here(b.TeeOut)},
					Message: graph.Say("run %q branches off at %q, between the tees %q and %q of %q: 1 branch there, needs 0", r.Said(), p.ID, b.TeeIn.ID, b.TeeOut.ID, b.Unit.ID),
					Hint:    "bring the branch outside the two tees",
				})
			}
		}
	}
}

// branchRuns returns the runs that belong between each pair of tees: those of every unit
// that hangs on it.
func branchRuns(v *view) map[string]map[string]bool {
	mine := map[string]map[string]bool{}
	for _, b := range v.branches {
		if b.problem != "" {
			continue
		}
		tees := b.TeeIn.ID + ">" + b.TeeOut.ID
		if mine[tees] == nil {
			mine[tees] = map[string]bool{}
		}
		for _, r := range slices.Concat(b.BypassRuns, b.ToUnitRuns, b.FromUnitRuns) {
			mine[tees][r.ID] = true
		}
	}
	return mine
}

func bypassFitsPump(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.problem != "" || b.Pump == nil {
			continue
		}
		e := b.Element()
		rates := b.Rates
		pump := ratesOf(b, rates)
		d := graph.Diagnostic{Pos: b.TeeIn.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Pump), here(b.Unit)}}
		switch {
		case e == nil:
			d.Message = graph.Say("the bypass of %q between %q and %q is bare pipe; %s, so it needs %s", b.Unit.ID, b.TeeIn.ID, b.TeeOut.ID, pump, graph.A(wanted(rates)))
			d.Hint = "without one most of the water passes the unit by"
		case rates > 1 && e.Kind != graph.CheckValve:
			d.Pos = e.Pos
			d.Message = graph.Say("%s, and the bypass of %q a throttle, %s %q; it needs a spring check", pump, b.Unit.ID, e.Kind, e.ID)
			d.Hint = "a throttle splits every speed in nearly the same ratio: set for the high speed it starves the unit at low; a spring stays shut at low and lifts at high"
		case rates > 1 && v.part(e).IsSwing():
			d.Pos = e.Pos
			d.Message = graph.Say("%s, and the check %q in the bypass of %q is a swing check, cracking pressure about 0; it needs a spring check", pump, e.ID, b.Unit.ID)
			d.Hint = "a swing check opens at once and lets the water pass the unit by at low speed"
		case rates <= 1 && e.Kind == graph.CheckValve && !hasThrottle(b):
			d.Pos = e.Pos
			d.Message = graph.Say("%s, and the bypass of %q a spring check, %q; it needs a throttle valve", pump, b.Unit.ID, e.ID)
			d.Hint = "at one speed a valve does the same, can be set by the temperature rise, and costs no cracking pressure"
		default:
			continue
		}
		report(b.Unit.Existing && (e == nil || e.Existing), d)
	}
}

// ratesOf says in how many ways the pumps of a unit feed it.
func ratesOf(b branch, rates int) quantity.Text {
	if len(b.Beside) > 0 {
		return graph.Say("pumps %s feed the line, in %s", partNames(b.Feeds()), quantity.Counted(rates, "way"))
	}
	speeds := b.Pump.SpeedNames()
	out := graph.Say("pump %q has %s", b.Pump.ID, quantity.Counted(len(speeds), "speed"))
	if len(speeds) > 1 {
		out += graph.Say(" (%s)", strings.Join(speeds, ", "))
	}
	return out
}

func wanted(rates int) string {
	if rates > 1 {
		return "spring check"
	}
	return "throttle valve"
}

func hasThrottle(b branch) bool {
	return slices.ContainsFunc(b.BypassParts, func(p *graph.Part) bool { return p.Kind.IsHandValve() })
}

func parallelUnitsAlike(in *Input, report Report) {
	v := in.ask()
	first := map[string]branch{}
	for _, b := range v.branches {
		if b.problem != "" {
			continue
		}
		tees := b.TeeIn.ID + ">" + b.TeeOut.ID
		other, seen := first[tees]
		if !seen {
			first[tees] = b
			continue
		}
		mine, theirs := ownLength(in, b, other), ownLength(in, other, b)
		if max(mine, theirs)-min(mine, theirs) <= 0.1*max(mine, theirs) {
			continue
		}
		report(b.Unit.Existing && other.Unit.Existing, graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Warning, Related: []graph.Related{here(other.Unit)},
			Message: graph.Say("units %q and %q are in parallel with %s and %s of pipe of their own; they need the same within a tenth", b.Unit.ID, other.Unit.ID, v.length(mine), v.length(theirs)),
			Hint:    "tee the units so that the one with the shorter way to it has the longer way back",
		})
	}
}

// ownLength sums the runs of one unit's pipes that are not the other's too.
func ownLength(in *Input, b, other branch) float64 {
	shared := map[string]bool{}
	for _, r := range slices.Concat(other.ToUnitRuns, other.FromUnitRuns) {
		shared[r.ID] = true
	}
	own := slices.DeleteFunc(slices.Concat(b.ToUnitRuns, b.FromUnitRuns), func(r *graph.Run) bool { return shared[r.ID] })
	return lengthOf(in, own)
}

func wayRoundWhenIsolated(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		to, from := b.Isolators()
		if b.problem != "" || b.Pump == nil || len(to)+len(from) == 0 {
			continue
		}
		shut := func(p *graph.Part) bool { return slices.Contains(to, p) || slices.Contains(from, p) || p == b.Unit }
		drawnShut := func(p *graph.Part) bool {
			return shut(p) || p.Kind.IsHandValve() && p.Opening() == 0
		}
		led := slices.DeleteFunc(b.Feeds(), func(p *graph.Part) bool { return v.net.WayToTub(p, shut) == nil }) // else a matter of the arrows or of other rules
		d := graph.Diagnostic{Severity: graph.Warning}
		at := slices.IndexFunc(led, func(p *graph.Part) bool { return v.net.WayToTub(p, drawnShut) == nil })
		if e := b.Element(); at >= 0 && e != nil {
			d.Pos, d.Related = key(e, "position"), []graph.Related{here(b.Unit)}
			d.Message = graph.Say("with the isolators of %q (%s) shut pump %q has no way to the tub: %q stands at 0 %%, and has to be opened first", b.Unit.ID, partNames(slices.Concat(to, from)), led[at].ID, e.ID)
			d.Hint = graph.Say("hang a tag on the isolators: open %q before either is shut", e.ID)
			report(b.Unit.Existing && e.Existing, d)
			continue
		}
		for _, pump := range led {
			springTooStrong(in, b, pump, shut, report)
		}
	}
}
