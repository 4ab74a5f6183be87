package plan

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
)

// spread solves the circuit again over the spreads of what is not known exactly.
func (p *Plan) spread(want Want) {
	if want&Ranges == 0 || p.After == nil {
		return
	}
	p.Ranges = spread.Of(p.Before.LaidOut(), p.After.Layout, p.unitID(), p.throttle(), func(done, of int) {
		p.tell.Step("solving again over what is not known exactly", done, of)
	})
	for i := range p.Ranges.Promises {
		q := &p.Ranges.Promises[i]
		if a := p.accepts(q); a != nil {
			q.Accepted = a.Reason
		}
	}
	p.Findings = append(p.Findings, p.unsure()...)
	p.Findings = append(p.Findings, p.acceptedInVain()...)
}

// acceptedInVain tells of what is accepted in a mode that no promise is made in.
func (p *Plan) acceptedInVain() []graph.Diagnostic {
	var out []graph.Diagnostic
	for i := range p.Asked.Accepted {
		a := &p.Asked.Accepted[i]
		if a.Mode == "" || slices.ContainsFunc(p.Ranges.Promises, func(q spread.Promise) bool { return q.Mode == a.Mode }) {
			continue
		}
		var modes []string
		for _, m := range p.After.Circuit.AllModes() {
			modes = append(modes, fmt.Sprintf("%q", m.Name))
		}
		out = append(out, graph.Diagnostic{Rule: "accept", Severity: graph.Warning, Pos: a.Pos,
			Message: graph.Say("nothing is promised in a mode called %q: this accepts nothing", a.Mode),
			Hint:    graph.Say("the modes are %s; leave mode out to accept it in all", strings.Join(modes, ", "))})
	}
	return out
}

// accepts is the description's word that a promise is taken on as it is; nil where there is none.
func (p *Plan) accepts(q *spread.Promise) *graph.Accepted {
	for i := range p.Asked.Accepted {
		if a := &p.Asked.Accepted[i]; a.Promise == string(q.Kind) && (a.Mode == "" || a.Mode == q.Mode) {
			return a
		}
	}
	return nil
}

// Unknowns lists every number that may be off and is sampled for the ranges, whatever it moves;
// nil where nothing stands after the work.
func (p *Plan) Unknowns() []spread.Sampled {
	if p.After == nil || p.After.Layout == nil {
		return nil
	}
	return spread.Unknowns(p.Before.LaidOut(), p.After.Layout, p.unitID())
}

// unitID is the id of the unit the job is about: the one to be fitted, else the only one; "" where there is none.
func (p *Plan) unitID() string {
	unit := p.After.Circuit.TheUnit()
	if r := p.Asked.Retrofit; r != nil {
		unit = cmp.Or(p.After.Circuit.Part(r.Unit), unit)
	}
	if unit == nil {
		return ""
	}
	return unit.ID
}

// unsure are the findings that follow from the ranges: promises of the unit's flow that too
// few of the samples keep, and guesses that move the unit's or the jets' flow by more than a
// tenth.
func (p *Plan) unsure() []graph.Diagnostic {
	var out []graph.Diagnostic
	r := p.Ranges
	for i := range r.Promises {
		q := &r.Promises[i]
		if !q.Judged() || q.Sure() >= spread.WarnBelow {
			continue
		}
		d := graph.Diagnostic{Rule: "promise", Severity: graph.Warning, Pos: p.posOf(q.Part),
			Mode: q.Mode, Message: graph.Say("mode %q: %s: %s", q.Mode, q.Text, q.Held())}
		if q.Level != "" {
			d.Hint = graph.Say("measure from the water line down to %q and write below-water on it, or on a pump or the tub and give the legs between", q.Level)
		} else if reading, _ := r.Settles(q); reading != "" {
			d.Hint = graph.Say("measure first: %s", reading)
		}
		switch settled := r.Settled(q); {
		case settled && q.Kind == spread.LeastFlow:
			d.Hint = "larger or shorter pipe to the unit, a unit that asks for less, or a circulation pump for it; what was read leaves nothing to measure"
		case settled:
			d.Hint = "a weaker spring, a larger bypass, or an isolator set as a throttle and marked; what was read leaves nothing to measure"
		}
		if a := p.accepts(q); a != nil {
			d.Severity, d.Pos = graph.Note, a.Pos
			d.Message += graph.Say("; accepted: %s", a.Reason)
		}
		out = append(out, d)
	}
	for i := range r.Moves {
		f := &r.Moves[i]
		if !f.Guess || f.Harm() <= spread.HarmfulGuess || r.BySetting(*f) {
			continue
		}
		hint := graph.Say("read %s", f.Reading)
		if f.ToBeSet {
			hint = graph.Say("once it is fitted, read %s", f.Reading)
		}
		what, mode := f.Harmed()
		out = append(out, graph.Diagnostic{Rule: "guess", Severity: graph.Warning, Pos: p.posOf(f.Part),
			Message: graph.Say("%s: a guess that moves %s by %.0f %% either way (mode %q)%s", f.Said(), what.Of(f.OneOf()), 100*f.Harm(), mode, r.UntilSet(what, f.UnitID)),
			Hint:    hint})
	}
	return out
}

// posOf is where the description speaks of a part.
func (p *Plan) posOf(id string) graph.Pos {
	if part := p.After.Circuit.Part(id); part != nil {
		return part.Pos
	}
	if run := p.After.Circuit.Run(id); run != nil && run.Pos.IsValid() {
		return run.Pos
	}
	return graph.Pos{File: p.Circuit.File}
}
