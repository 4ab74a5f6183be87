package rule

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// placeRules say where in the water's way the unit stands.
func placeRules() []*Rule {
	return []*Rule{
		{
			Name:     "unit-on-heater-line",
			Asks:     "The unit stands on the line of the pump that heats today, or of a pump of its own.",
			Why:      "Only that line runs when heat is wanted; a jet pump's line is off most of the day.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    unitOnHeaterLine,
		},
		{
			Name:     "unit-on-pressure-side",
			Asks:     "The unit stands after its pump, not between the tub and the pump's inlet.",
			Why:      "On the suction side its loss makes the pump cavitate, air leaks in, and the suction fittings no longer share the flow they were rated for.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    unitOnPressureSide,
		},
		{
			Name:     "nothing-new-on-suction",
			Asks:     "Nothing new stands between the tub and the inlet of a pump that was there.",
			Why:      "A valve or a narrow place there runs the pump dry, and turns the whole pull on the other suction fitting, where a bather can be held.",
			Source:   "common practice, no source; entrapment: EN 17125 and ANSI/APSP-16 ask that suction fittings keep their rated flow (from memory)",
			Severity: graph.Error,
			Check:    nothingNewOnSuction,
		},
		{
			Name:     "unit-after-filter",
			Asks:     "The water has passed a filter before it comes to the unit.",
			Why:      "Debris blocks the exchanger, and a blocked exchanger can't be cleaned on site.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Error,
			Check:    unitAfterFilter,
		},
		{
			Name:     "unit-after-element",
			Asks:     "The unit stands after the element heater.",
			Why:      "The controller's sensor at the element then reads the tub's own water, and the unit's back pressure keeps a pressure switch closed. Both orders are met in the field, so this only warns.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Check:    unitAfterElement,
		},
		{
			Name:     "unit-before-feeder",
			Asks:     "No feeder, salt cell or ozone injector stands before the unit.",
			Why:      "Strong chemical in the water eats the exchanger and ends its warranty.",
			Source:   "heat pump and pool equipment manuals agree: the feeder comes last; no standard",
			Severity: graph.Error,
			Check:    unitBeforeFeeder,
		},
		{
			Name:     "unit-before-exchanger",
			Asks:     "The unit stands before the heat exchanger of another source.",
			Why:      "After it the unit gets water that is warm already: it gives less, draws more, and its high limit may stop it while the other source heats.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Check:    unitBeforeExchanger,
		},
		{
			Name:     "unit-before-jets",
			Asks:     "No jets, diverter or manifold stands between the pump and the unit.",
			Why:      "Before them all the water passes the unit's tees; after them the unit gets what a diverter or an open jet leaves it.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    unitBeforeJets,
		},
		{
			Name:     OnWholeLine,
			Asks:     "All the water of the pump comes to the tees of the unit: no other way leads round them to the tub.",
			Why:      "A way round takes its share, and more of it the dirtier the filter on the unit's own way is; the bypass can't give that back.",
			Source:   "follows from the circuit",
			Severity: graph.Warning,
			Check:    unitOnWholeLine,
		},
		{
			Name:     "unit-gets-water",
			Asks:     "The unit's two pipes lie on a way from a pump to the tub.",
			Why:      "A unit without flow trips at once, and its branch is a dead leg.",
			Source:   "follows from the circuit",
			Severity: graph.Error,
			Check:    unitGetsWater,
		},
	}
}

func unitOnHeaterLine(in *Input, report Report) {
	v := in.ask()
	heater := v.net.HeaterPump()
	for _, b := range v.branches {
		if b.Pump == nil || slices.ContainsFunc(b.Feeds(), func(p *graph.Part) bool { return p == heater || p.New() || heats(v, p) }) {
			continue
		}
		why := "the only line that is on when heat is wanted"
		related := []graph.Related{here(b.Pump), here(heater)}
		if e := v.net.Downstream(heater).First(graph.ElementHeater); e != nil {
			why = fmt.Sprintf("whose water comes to the element heater %q", e.ID)
			related = append(related, here(e))
		}
		report(b.Unit.Existing, graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Error, Related: related,
			Message: graph.Say("%q is on the line of pump %q and gets %s while that is off; it needs the line of pump %q, %s", b.Unit.ID, b.Pump.ID, v.flow(0), heater.ID, why),
			Hint:    graph.Say("cut the line between %q and the tub instead, or give the unit a circulation pump of its own", heater.ID),
		})
	}
}

// heats reports whether a pump's water comes to an element heater: of several pumps each with its own none
// is off while heat is wanted.
func heats(v *view, pump *graph.Part) bool {
	return v.net.Downstream(pump).First(graph.ElementHeater) != nil
}

func unitOnPressureSide(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.up.First(graph.Pump) != nil || b.Pump == nil {
			continue
		}
		report(b.Unit.Existing, graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Error, Related: []graph.Related{here(b.Pump)},
			Message: graph.Say("%q is on the suction side of pump %q: 0 pumps before it, needs 1", b.Unit.ID, b.Pump.ID),
			Hint:    graph.Say("cut after the outlet of %q", b.Pump.ID),
		})
	}
}

func nothingNewOnSuction(in *Input, report Report) {
	v := in.ask()
	for _, pump := range v.c.Pumps() {
		if pump.New() {
			continue
		}
		parts, runs := newWork(v.net.Suction(pump))
		onIt := v.net.Suction(pump)
		for _, d := range v.net.DeadEnds() {
			if d.From == nil || !onIt.HasPart(d.From.ID) {
				continue
			}
			for _, p := range d.Parts {
				if p.New() {
					parts = append(parts, p)
				}
			}
		}
		if len(parts)+len(runs) == 0 {
			continue
		}
		var what string
		var pos graph.Pos
		switch {
		case len(parts) > 0:
			what = fmt.Sprintf("%s (%s)", quantity.Counted(len(parts), "new part"), partNames(parts))
			for _, p := range parts {
				pos = firstPos(pos, p.Pos)
			}
		default:
			what = fmt.Sprintf("%s (%s)", quantity.Counted(len(runs), "new run"), runNames(runs))
			for _, r := range runs {
				pos = firstPos(pos, r.Pos)
			}
		}
		report(false, graph.Diagnostic{
			Pos: pos, Severity: graph.Error, Related: []graph.Related{here(pump)},
			Message: graph.Say("%s on the suction side of pump %q, between it and the tub; 0 may be", what, pump.ID),
			Hint:    graph.Say("leave the suction as it is and work after the outlet of %q", pump.ID),
		})
	}
}

// newWork returns what of a reach is new.
func newWork(r *stream.Reach) (parts []*graph.Part, runs []*graph.Run) {
	for _, p := range r.Parts {
		if p.New() {
			parts = append(parts, p)
		}
	}
	for _, x := range r.Runs {
		if x.New() {
			runs = append(runs, x)
		}
	}
	return parts, runs
}

func unitAfterFilter(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.up.First(graph.Filter) != nil {
			continue
		}
		d := graph.Diagnostic{Pos: b.Unit.Pos}
		if f := b.down.First(graph.Filter); f != nil {
			d.Severity = graph.Error
			d.Related = []graph.Related{here(f)}
			d.Message = graph.Say("%q gets the water before filter %q does: 0 filters before it, needs 1", b.Unit.ID, f.ID)
			d.Hint = graph.Say("cut after %q", f.ID)
		} else {
			d.Severity = graph.Warning
			d.Message = graph.Say("no filter is described on the water's way to %q: 0 before it, needs 1", b.Unit.ID)
			d.Hint = "add the filter to the description, the one in the skimmer too; without any, fit one before the unit"
		}
		report(b.Unit.Existing, d)
	}
}

func unitAfterElement(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		e := b.down.First(graph.ElementHeater)
		if e == nil || b.up.HasPart(e.ID) {
			continue
		}
		report(b.Unit.Existing, graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Warning, Related: []graph.Related{here(e)},
			Message: graph.Say("%q stands before element heater %q: the sensor there reads water the unit has warmed (%s to %s high), and a pressure switch there may drop out", b.Unit.ID, e.ID, quantity.TemperatureDifference.About(1), quantity.TemperatureDifference.About(3)),
			Hint:    graph.Say("cut after %q where there is room; where not, have the electrician check the controller's sensor and switch", e.ID),
		})
	}
}

// chemical lists the kinds that put chemicals or gas into the water.
func chemical(p *graph.Part) bool {
	return p.Kind == graph.Feeder || p.Kind == graph.SaltCell || p.Kind == graph.OzoneInjector
}

func unitBeforeFeeder(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		for _, p := range b.up.Parts {
			if !chemical(p) || b.down.HasPart(p.ID) {
				continue
			}
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: graph.Error, Related: []graph.Related{here(p)},
				Message: graph.Say("%q stands after %s %q and gets its chemical: 1 before the unit, needs 0", b.Unit.ID, p.Kind, p.ID),
				Hint:    graph.Say("cut before %q, or move %q to the last place before the tub", p.ID, p.ID),
			})
		}
	}
}

func unitBeforeExchanger(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		for _, p := range b.up.Parts {
			if p.Kind != graph.HeatExchanger || b.down.HasPart(p.ID) {
				continue
			}
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: graph.Warning, Related: []graph.Related{here(p)},
				Message: graph.Say("%q stands after heat exchanger %q and gets water that another source has warmed: 1 before the unit, needs 0", b.Unit.ID, p.ID),
				Hint:    graph.Say("cut before %q; where there is no room, have its controller top up only what %q can't give; a collector in the sun stays before the unit, for it gives most to the coldest water", p.ID, b.Unit.ID),
			})
		}
	}
}

func unitBeforeJets(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.Pump == nil || !b.up.HasPart(b.Pump.ID) {
			continue
		}
		after := v.net.Downstream(b.Pump)
		for _, p := range b.up.Parts {
			divides := p.Kind == graph.DiverterValve || p.Kind == graph.JetGroup ||
				(p.Kind == graph.Manifold && len(v.net.Leaving(p)) > 1)
			if !divides || !after.HasPart(p.ID) || p == b.TeeIn {
				continue
			}
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: graph.Error, Related: []graph.Related{here(p), here(b.Pump)},
				Message: graph.Say("%s %q divides the water between pump %q and %q: 1 there, needs 0", p.Kind, p.ID, b.Pump.ID, b.Unit.ID),
				Hint:    graph.Say("cut between %q and %q", b.Pump.ID, p.ID),
			})
		}
	}
}

// OnWholeLine is the rule that a place beside the line of all the water breaks.
const OnWholeLine = "unit-on-whole-line"

func unitOnWholeLine(in *Input, report Report) {
	v := in.ask()
	tees := map[*graph.Part]bool{}
	for _, b := range v.branches {
		tees[b.Unit] = true
		if b.TeeIn != nil && b.TeeOut != nil {
			tees[b.TeeIn], tees[b.TeeOut] = true, true
		}
	}
	for _, b := range v.branches {
		if b.Pump == nil || !b.up.HasPart(b.Pump.ID) {
			continue
		}
		way := v.net.WayToTub(b.Pump, func(p *graph.Part) bool { return tees[p] })
		if way == nil {
			continue
		}
		d := graph.Diagnostic{
			Pos: b.Unit.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Pump)},
			Message: graph.Say("%q is not on all of the water of pump %q: 1 way leads round it to the tub, over %s; needs 0", b.Unit.ID, b.Pump.ID, v.along(way)),
			Hint:    "cut where the ways have met again, or before they part; where that can't be, the flow told is that of every filter equally dirty, and no valve on the unit's own way is ever shut while it heats",
		}
		report(b.Unit.Existing, d)
	}
}

// along names what a way passes: its parts that are more than pipe, else its runs.
func (v *view) along(way []*graph.Run) quantity.Text {
	var parts, runs []string
	for _, r := range way {
		runs = append(runs, fmt.Sprintf("%q", r.Said()))
		_, to := v.net.Ends(r)
		if p := v.net.Part(to.Part); p != nil && p.Kind != graph.Tee && p.Kind != graph.Tub {
			parts = append(parts, fmt.Sprintf("%s %q", p.Kind, p.ID))
		}
	}
	if len(parts) == 0 {
		parts = runs
	}
	if len(parts) > 3 {
		parts = append(parts[:3], "more")
	}
	return quantity.Text(strings.Join(parts, ", "))
}

func unitGetsWater(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		runs := v.net.At(u)
		if len(runs) == 0 || (len(v.net.Coming(u)) > 0 && len(v.net.Leaving(u)) > 0) {
			continue // a unit nobody joined yet is a question for the cut
		}
		report(u.Existing, graph.Diagnostic{
			Pos: u.Pos, Severity: graph.Error, Related: []graph.Related{hereRun(runs[0])},
			Message: graph.Say("no water can pass %q: %s joined, but no way leads from a pump over it to the tub", u.ID, quantity.Counted(len(runs), "run")),
			Hint:    "follow both its pipes to the line: both have to end at tees on the pump's pressure side",
		})
	}
}
