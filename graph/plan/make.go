package plan

import (
	"errors"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat/job"
	"dryfit/graph/plan/search"
	"dryfit/graph/route"
	"dryfit/graph/rule"
	"dryfit/graph/takeoff"
)

// Make carries the job through the house: it builds the work in where [retrofit] asks for
// it, lays out, solves and judges the circuit before and after, and makes the lists. Only
// what is wanted is computed. Whatever the rules say of it, a circuit is worked out as far
// as it goes; what could not be is an error finding. The error is for a caller's mistake
// alone: no circuit. The first of tell, if there is one, is told how far it is.
func Make(c *graph.Circuit, want Want, tell ...graph.Tell) (*Plan, error) {
	if c == nil {
		return nil, errors.New("plan: no circuit to work out")
	}
	c = fitted(c)
	p := &Plan{Asked: c, Circuit: c}
	p.Findings = append(p.Findings, p.readings()...)
	if len(tell) > 0 {
		p.tell = tell[0]
	}
	defer func() { p.tell = nil }()
	propose(p, want)

	p.Before, p.After = p.stages()
	p.tell.Step("laying out the pipes", 0, 0)
	p.Before.Lay()
	p.After.Lay()
	p.cutOnSite()
	if want&(Flows|Ranges|Advice) != 0 {
		p.tell.Step("solving the flows", 0, 0)
		p.Findings = append(p.Findings, p.solve()...)
		if p.After != p.Before {
			p.Before.BadDays(graph.Before)
		}
		p.After.BadDays(graph.After)
		p.Described = p.After.AsDescribed(graph.After)
	}
	if p.After != nil {
		p.Assembly = route.Assemble(p.After.Layout)
		p.Tolerances = route.Tolerance(p.After.Layout)
		if !p.tooShort() {
			p.Findings = append(p.Findings, p.Tolerances.Findings...)
		}
	}
	p.tell.Step("applying the rules", 0, 0)
	p.Findings = append(p.Findings, p.judge(want)...)
	p.onlyIf()
	if want&Lists != 0 && p.After != nil {
		p.tell.Step("planning the cuts", 0, 0)
		p.Bill = takeoff.NewBill(p.Circuit, p.After.Layout, p.Before.LaidOut())
		p.Cuts = takeoff.NewCutList(p.Circuit, p.After.Layout)
		if !p.tooShort() {
			p.Findings = append(p.Findings, p.Cuts.Findings(graph.Pos{File: p.Circuit.File})...)
		}
	}
	p.tell.Step("solving again over what is not known exactly", 0, 0)
	p.spread(want)
	p.suppose(want)
	p.tell.Step("comparing what the bypass could be", 0, 0)
	p.advise(want)
	if want&Heat != 0 {
		p.tell.Step("working out the heat of a year", 0, 0)
		p.Heat = HeatOf(p, job.Ask{})
		p.Findings = append(p.Findings, p.Heat.Problems...)
	}
	p.settleFindings(want)
	p.called()
	return p, nil
}

// solve finds the flows of both stages, and returns what was found: what holds of one part in one mode before
// and after the work is told once, of after it, and of what holds before it alone it is told so.
func (p *Plan) solve() []graph.Diagnostic {
	before := p.Before.Solve(graph.Before)
	if p.After == nil || p.After == p.Before {
		return before
	}
	after := p.After.Solve(graph.After)
	var out []graph.Diagnostic
	for _, d := range before {
		again := func(a graph.Diagnostic) bool {
			return a.Mode == d.Mode && a.Hint == d.Hint && slices.Equal(a.Of, d.Of)
		}
		same := func(a graph.Diagnostic) bool { return a.Pos == d.Pos && a.Message == d.Message }
		switch {
		case d.Severity == graph.Error: // it says itself when
		case slices.ContainsFunc(after, same), len(d.Of) > 0 && slices.ContainsFunc(after, again):
			continue
		default:
			d.Message = "before the work, " + d.Message
		}
		out = append(out, d)
	}
	return append(out, after...)
}

// settleFindings adds what rules the place out, gives hints the words of what was tried, leaves out
// what only follows from another finding, and puts the rest in order.
func (p *Plan) settleFindings(want Want) {
	if !graph.HasErrors(p.Findings) { // what rules the place out is told by every verb, also where it solves no flows
		p.Findings = append(p.Findings, p.against...)
	}
	p.Findings, p.Following = rule.Following(p.Findings)
	p.closable()
	p.mended(p.Findings, want)
	p.Findings = slices.DeleteFunc(p.Findings, p.ofNoPair())
	p.Findings = toldByRule(p.Findings)
	p.Findings = aloneIfSwapped(p.Findings)
	p.Findings = slices.DeleteFunc(p.Findings, p.ofStandstill)
	p.Findings = graph.SortDiagnostics(p.Findings)
}

// called puts words for the ids nobody wrote into what is read: findings and the order of assembly.
func (p *Plan) called() {
	if p.After == nil {
		return
	}
	c := route.CalledIn(p.After.Circuit, p.After.Layout)
	p.Findings = c.Findings(p.Findings)
	if p.Assembly != nil {
		for i := range p.Assembly.Steps {
			s := &p.Assembly.Steps[i]
			s.Text = string(c.Text(quantity.Text(s.Text)))
		}
	}
}

// judge applies the rules: of the circuit and its geometry always, of the water where it
// was solved.
func (p *Plan) judge(want Want) []graph.Diagnostic {
	need := rule.NeedsLayout
	if want&(Flows|Ranges|Advice) != 0 {
		need = rule.NeedsFlow
	}
	var ds []graph.Diagnostic
	in := &rule.Input{Circuit: p.Circuit, Cut: search.CutOf(p.Proposal)}
	if p.Before != nil {
		in.Before, in.Layout, in.BeforeSolutions = p.Before.Circuit, p.Before.Layout, p.Before.Solutions
		in.BeforeLayout, in.BeforeDirty, in.BeforeIsolated = p.Before.Layout, p.Before.Dirty, p.Before.Isolated
	}
	if p.After != nil {
		in.After, in.Layout, in.Solutions = p.After.Circuit, p.After.Layout, p.After.Solutions
		in.Bodies = p.After.Bodies
		in.DirtySolutions, in.Isolated, in.Alone = p.After.Dirty, p.After.Isolated, p.After.Alone
		ds = append(ds, p.After.Layout.Findings...)
		ds = append(ds, p.After.Clashes...)
		ds = append(ds, p.After.Blocked...)
		ds = append(ds, p.After.Bodies.CheckHands()...)
	}
	in.Design = p.design()
	if p.Assembly != nil {
		ds = append(ds, p.Assembly.Findings...)
	}
	ds = append(ds, rule.Apply(in, need)...)
	p.stopped = rule.StoppedByCheck(in)
	if p.Proposal != nil && p.Proposal.Second != nil {
		in.Cut = search.CutAt(p.Proposal.Circuit, *p.Proposal.Second, p.Proposal.Pos)
		ds = append(ds, rule.ApplyCut(in)...)
	}
	if p.tooShort() || p.Proposal != nil && p.Proposal.Unled {
		ds = slices.DeleteFunc(ds, func(d graph.Diagnostic) bool { return consequential(d) && !p.wasThere(d) })
	}
	return ds
}

// tooShort reports whether the place asked for lacks the length, so that where the pipes of
// the new work lie is nonsense and what follows from it noise.
func (p *Plan) tooShort() bool {
	return p.Proposal != nil && (p.Proposal.Place.TooShort() || p.Proposal.Second != nil && p.Proposal.Second.TooShort())
}

// consequential reports whether a finding reads where pipes lie.
func consequential(d graph.Diagnostic) bool {
	if d.Rule == "routing" || d.Rule == "clash" || d.Rule == "assembly" || d.Rule == "hand-room" {
		return true
	}
	r := rule.ByName(d.Rule)
	return r != nil && r.Needs == rule.NeedsLayout
}

// ofStandstill reports whether a finding only follows where an old check keeps the water from a
// pump's line: that it runs and no water passes it, that no place can take the unit for that, and
// what the rules say of the flows of a unit on its line.
func (p *Plan) ofStandstill(d graph.Diagnostic) bool {
	for _, pump := range p.stopped {
		if (d.Rule == "flow" || d.Rule == "retrofit") && slices.Contains(d.Of, pump.ID) {
			return true
		}
		if r := rule.ByName(d.Rule); r != nil && r.Needs == rule.NeedsFlow && r.Name != rule.CheckArrow && p.After != nil && p.After.Layout != nil {
			if b, _ := p.After.Layout.Stage.Branch(); b != nil && b.Pump != nil && b.Pump.ID == pump.ID {
				return true
			}
		}
	}
	return false
}

// aloneIfSwapped leaves out what only follows where an inlet and an outlet are mixed up: that
// no place can take the unit, and that the pipes to swapped ports don't meet.
func aloneIfSwapped(ds []graph.Diagnostic) []graph.Diagnostic {
	if !slices.ContainsFunc(ds, func(d graph.Diagnostic) bool { return d.Rule == rule.Swapped }) {
		return ds
	}
	return slices.DeleteFunc(ds, func(d graph.Diagnostic) bool { return d.Rule == "retrofit" || consequential(d) })
}

// wasThere reports whether a finding is one of the circuit before the work.
func (p *Plan) wasThere(d graph.Diagnostic) bool {
	if p.Before == nil {
		return false
	}
	return slices.ContainsFunc(slices.Concat(p.Before.Layout.Findings, p.Before.Clashes), func(old graph.Diagnostic) bool {
		return old.Rule == d.Rule && old.Pos == d.Pos && old.Message == d.Message
	})
}
