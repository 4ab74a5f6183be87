package rule

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// checkRules say how a check valve is fitted.
func checkRules() []*Rule {
	return []*Rule{
		{
			Name:     "check-before-feeder",
			Asks:     "A check valve stands between the unit and a feeder, salt cell or ozone injector after it, on the way through the bypass too.",
			Why:      "When the pump stops, concentrated chemical creeps back into the unit and eats the exchanger.",
			Source:   "heat pump manuals agree for feeders; for salt cells and ozone common practice, no source",
			Severity: graph.Error,
			Check:    checkBeforeFeeder,
		},
		{
			Name:     CheckArrow,
			Asks:     "The arrow of every check valve points the way the water goes.",
			Why:      "Turned round it stops the line.",
			Source:   "follows from the circuit",
			Severity: graph.Error,
			Check:    checkArrow,
		},
		{
			Name:     "check-attitude",
			Asks:     "A swing check lies flat or has the water going up.",
			Why:      "Its flap hangs open in water that goes down, and shuts nothing.",
			Source:   "valve makers' sheets agree; no standard",
			Severity: graph.Error,
			Check:    checkAttitude,
		},
		{
			Name:     "check-straight-length",
			Asks:     "Ten bores of straight pipe lead from a pump or an elbow to a check valve; a tee passed straight through does not count as either.",
			Why:      "In swirling water the poppet chatters and wears; it works all the same, so this only warns.",
			Source:   "valve makers' sheets (10 diameters); no standard",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check:    checkStraightLength,
		},
	}
}

func checkBeforeFeeder(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		open := v.net.DownstreamUntil(b.Unit, v.net.HoldsBack)
		for _, p := range b.down.Parts {
			if chemical(p) && !open.HasPart(p.ID) {
				creepsBack(v, b, p, report)
			}
		}
		for _, p := range open.Parts {
			if !chemical(p) {
				continue
			}
			severity := graph.Error
			if p.Kind != graph.Feeder {
				severity = graph.Warning
			}
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: severity, Related: []graph.Related{here(p)},
				Message: graph.Say("0 check valves between %q and %s %q after it; needs 1", b.Unit.ID, p.Kind, p.ID),
				Hint:    graph.Say("add a check valve in the unit's outlet, or in the line before %q", p.ID),
			})
		}
	}
}

// creepsBack reports chemical that comes back to the unit's inlet through the bypass, where a
// check in the unit's outlet keeps it from the outlet alone.
func creepsBack(v *view, b branch, p *graph.Part, report Report) {
	if b.TeeIn == nil {
		return
	}
	closed := func(q *graph.Part) bool {
		return q.Kind == graph.CheckValve || q.Kind == graph.HeatPump || v.staysShut(q, b)
	}
	if !v.net.UpstreamUntil(p, closed).HasPart(b.TeeIn.ID) {
		return
	}
	severity := graph.Warning
	if p.Kind != graph.Feeder {
		severity = graph.Note
	}
	d := graph.Diagnostic{
		Pos: b.Unit.Pos, Severity: severity, Related: []graph.Related{here(p)},
		Message: graph.Say("%s %q can creep back through the bypass to the inlet of %q: 0 check valves on that way, needs 1", p.Kind, p.ID, b.Unit.ID),
		Hint:    graph.Say("a check that can be opened (true union) in the line between the second tee and %q, as well as or instead of the one in the unit's outlet", p.ID),
	}
	report(b.Unit.Existing && p.Existing, d)
}

// staysShut reports whether a hand valve stands shut in every mode but those in which the unit of a branch
// is shut off: nothing comes past it to the unit.
func (v *view) staysShut(p *graph.Part, b branch) bool {
	if !p.Kind.IsHandValve() {
		return false
	}
	return !slices.ContainsFunc(v.c.AllModes(), func(m graph.Mode) bool { return len(shutBy(m, b)) == 0 && m.Opening(p) > 0 })
}

// CheckArrow is the name of the rule that asks which way a check lets the water through.
const CheckArrow = "check-arrow"

func checkArrow(in *Input, report Report) {
	v := in.ask()
	for _, p := range v.c.OfKind(graph.CheckValve) {
		port, coming := v.net.Inlet(p)
		if coming == nil || port == graph.In {
			continue
		}
		d := graph.Diagnostic{
			Pos: p.Pos, Severity: graph.Error, Related: []graph.Related{hereRun(coming)},
			Message: graph.Say("check valve %q is the wrong way round, its arrow 180° off the water that comes to its port %q by run %q; it needs 0°", p.ID, port, coming.ID),
			Hint:    graph.Say("turn it: swap %q.in and %q.out in its two runs", p.ID, p.ID),
		}
		dry := starvedBy(in, v, p)
		if dry != nil && p.Existing {
			d.Message += graph.Say(": in no mode does water pass it, and %q gets none", dry.ID)
			d.Hint += "; if it was found so, its arrow was misread, or the line has never worked"
			d.Related = append(d.Related, here(dry))
		}
		report(p.Existing && dry == nil, d)
	}
}

// StoppedByCheck returns the pumps to whose lines an old check that stands the wrong way round lets
// no water in any mode: what else is found of their flows only follows from it.
func StoppedByCheck(in *Input) []*graph.Part {
	v := in.ask()
	var out []*graph.Part
	for _, p := range v.c.OfKind(graph.CheckValve) {
		if port, coming := v.net.Inlet(p); p.Existing && coming != nil && port != graph.In && starvedBy(in, v, p) != nil {
			out = append(out, v.net.LinePump(p))
		}
	}
	return out
}

// starvedBy returns a machine, the jets or the pump on the line of a check that stands against
// the water, which get none in any mode in which their pump runs; nil where the water has
// another way, or no flows are known.
func starvedBy(in *Input, v *view, check *graph.Part) *graph.Part {
	pump := v.net.LinePump(check)
	if pump == nil {
		return nil
	}
	var on []*hydraulic.Solution
	for i := range in.Solutions {
		if s := &in.Solutions[i]; runsIn(s, pump) {
			on = append(on, s)
		}
	}
	dry := func(p *graph.Part) bool {
		for _, s := range on {
			if f := s.Part(p.ID); f == nil || math.Abs(f.Flow) > standing {
				return false
			}
		}
		return len(on) > 0
	}
	if !dry(check) {
		return nil
	}
	if dry(pump) {
		return pump
	}
	for _, reach := range []*stream.Reach{v.net.Downstream(check), v.net.Upstream(check)} {
		for _, p := range reach.Parts {
			if (machine(p.Kind) || p.Kind == graph.JetGroup) && v.net.LinePump(p) == pump && dry(p) {
				return p
			}
		}
	}
	return nil
}

// steepest is how far below level the water may go through a swing check, degrees: what a
// pipe that is meant level may be off. Common practice, no source.
const steepest = 5

func checkAttitude(in *Input, report Report) {
	v := in.ask()
	for _, p := range v.c.OfKind(graph.CheckValve) {
		if !v.part(p).IsSwing() {
			continue
		}
		way, run := wayThrough(v, p)
		if run == nil {
			continue
		}
		down := math.Asin(-way.Unit().Z) * 180 / math.Pi
		if down <= steepest {
			continue
		}
		report(p.Existing, graph.Diagnostic{
			Pos: p.Pos, Severity: graph.Error, Related: []graph.Related{hereRun(run)},
			Message: graph.Say("swing check %q has the water going down at %.0f°; it needs 0° or up", p.ID, down),
			Hint:    "fit a spring check, or move it to a level stretch",
		})
	}
}

// wayThrough returns the way the water goes through a two-port part that lies in its line,
// by the legs of the runs at it, and the run it was read from; nil where none has legs.
func wayThrough(v *view, p *graph.Part) (graph.Vec, *graph.Run) {
	for _, r := range v.net.Coming(p) {
		if n := len(r.Legs); n > 0 {
			if v.net.Against(r) {
				return r.Legs[0].By.Scale(-1), r
			}
			return r.Legs[n-1].By, r
		}
	}
	for _, r := range v.net.Leaving(p) {
		if n := len(r.Legs); n > 0 {
			if v.net.Against(r) {
				return r.Legs[n-1].By.Scale(-1), r
			}
			return r.Legs[0].By, r
		}
	}
	return graph.Vec{}, nil
}

func checkStraightLength(in *Input, report Report) {
	v := in.ask()
	for _, p := range v.c.OfKind(graph.CheckValve) {
		_, run := v.net.Inlet(p)
		if run == nil {
			continue
		}
		s := straightBefore(in, v, p)
		bore := boreMM(in, run)
		if s.end == "" || bore == 0 || s.mm >= settle.StraightBores*bore {
			continue
		}
		d := graph.Diagnostic{
			Pos: p.Pos, Severity: graph.Warning, Of: []string{p.ID}, Related: []graph.Related{s.where},
			Message: graph.Say("check valve %q has %s of straight pipe after %s; it needs %s (%d bores of %s)", p.ID, v.length(s.mm), s.end, v.length(settle.StraightBores*bore), settle.StraightBores, v.length(bore)),
			Hint:    graph.Say("move it %s down the line, or take a slight chatter into the bargain", v.length(settle.StraightBores*bore-s.mm)),
		}
		report(p.Existing, d)
	}
}
