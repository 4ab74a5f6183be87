package search

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/route"
	"dryfit/graph/rule"
	"dryfit/graph/settle"
)

// trial is one proposal on its way through the house.
type trial struct {
	place     retrofit.Place
	proposal  *retrofit.Proposal
	built     []graph.Diagnostic // of building it
	stage     *stage.Stage       // after
	assembly  *route.Assembly
	findings  []graph.Diagnostic // of everything done so far
	unit      string             // id of the unit to be fitted
	beside    string             // id of the unit whose pipes it is teed into; "" for a place of its own
	before    *settle.Stage      // the circuit before the work, most of which stays; nil: not used
	solved    bool
	barred    bool               // it stands wrong in the way of the water
	unjudged  bool               // the circuit has too many runs: only the rules on the cut were applied
	untried   bool               // other places came before it and do: neither laid out nor solved
	inherited bool               // the bypass is the one another place came to
	sketched  bool               // laid out as another trial is, for its flows alone
	unsolved  []graph.Diagnostic // modes without an answer, and notes on those with one
	unitFlows []unitFlow
	besides   []besideFlow // of the other units
	others    *int         // pairs of pipes looked for beside the first, of all changes tried; nil: none is tried here
}

// unitFlow is what the unit gets in one mode.
type unitFlow struct {
	mode     string
	flow     float64 // m³/s
	bypass   string  // state of the bypass element
	spring   bool    // it is a check
	chatters bool    // it stands too near to its other state
	jets     float64 // share of today's flow through the jets that is lost; 0 where not known
	pumpFlow float64 // of all pumps that run
	wanted   bool    // the pump of the unit's line runs
}

// besideFlow is what another unit gets in one mode, m³/s.
type besideFlow struct {
	mode, id          string
	now, least, rated float64
	was               float64
	old               bool // it was there before, and what it got is known
}

// build makes the trial's circuit.
func (t *trial) build(site *retrofit.Site, unit string, place retrofit.Place, choice retrofit.Choice) {
	t.place, t.unit, t.stage = place, unit, nil
	t.made(func() (*retrofit.Proposal, []graph.Diagnostic) { return site.Build(place, choice) })
}

// made makes the trial's circuit as it is built, with pipes that can be had; none where nothing is.
func (t *trial) made(built func() (*retrofit.Proposal, []graph.Diagnostic)) {
	t.proposal, t.built = built()
	if !t.place.TooShort() {
		t.reroute(built)
	}
	t.findings = slices.Clone(t.built)
}

// judgeLayout lays the trial out, looks for an order of assembly and applies the rules that
// read positions.
func (t *trial) judgeLayout(before *stage.Stage) {
	t.layOut()
	t.findings = slices.Concat(t.built, t.stage.Layout.Findings, t.stage.Clashes, t.stage.Blocked, t.assembly.Findings, rule.Apply(t.input(before), rule.NeedsLayout))
}

// after is the stage after the work of the proposal, not laid out yet.
func (t *trial) after() *stage.Stage {
	return &stage.Stage{Circuit: t.proposal.Circuit.At(graph.After), Like: t.before}
}

func (t *trial) layOut() {
	if t.stage == nil {
		t.stage = t.after()
	}
	t.stage.Lay()
	t.assembly = route.Assemble(t.stage.Layout)
}

// judgeFlow solves every mode, clean and dirty, and applies all the rules.
func (t *trial) judgeFlow(before *stage.Stage) {
	t.layOut()
	if !t.solved {
		t.solve(before, nil)
	}
	in := inWater(t.input(before), t.stage, before)
	t.findings = slices.Concat(t.built, t.stage.Layout.Findings, t.stage.Clashes, t.stage.Blocked, t.assembly.Findings, t.unsolved, rule.Apply(in, rule.NeedsFlow))
}

// inWater adds to what the rules read the flows of a stage and of that before the work, on a usual day
// and with a dirty filter.
func inWater(in *rule.Input, after, before *stage.Stage) *rule.Input {
	after.SolveDirty(graph.After)
	before.SolveDirty(graph.Before)
	in.Solutions, in.BeforeSolutions = after.Solutions, before.Solutions
	in.DirtySolutions, in.BeforeDirty = after.Dirty, before.Dirty
	return in
}

// input is what the rules read of the trial.
func (t *trial) input(before *stage.Stage) *rule.Input {
	return &rule.Input{Circuit: t.proposal.Circuit, Cut: CutOf(t.proposal), Before: before.Circuit, BeforeLayout: before.Layout, After: t.stage.Circuit, Layout: t.stage.Layout, Bodies: t.stage.Bodies}
}

// CutOf tells the rules the place a proposal lets the new work in at.
func CutOf(p *retrofit.Proposal) *rule.Cut {
	if p == nil || p.Place.Run == "" {
		return nil
	}
	return CutAt(p.Circuit, p.Place, p.Pos)
}

// CutAt tells the rules a place; pos is where the description asks for it. The sum of what
// is needed stays with the place, term by term.
func CutAt(c *graph.Circuit, place retrofit.Place, pos graph.Pos) *rule.Cut {
	run := c.Run(place.Run)
	if run == nil {
		return nil
	}
	least, most := place.FirstCuts()
	return &rule.Cut{Run: run, Leg: place.Leg, FromMM: place.FromMM, LeastMM: least, MostMM: most,
		RoomMM: place.RoomMM, NeededMM: place.NeededMM, Pos: pos}
}

// unitFlows reads what the unit gets and the jets lose in each mode.
func unitFlows(after *stage.Stage, before []hydraulic.Solution) []unitFlow {
	var out []unitFlow
	branch, _ := after.Layout.Stage.Branch()
	if branch == nil {
		return nil
	}
	unit, element, feeds := branch.Unit, branch.Element(), branch.Feeds()
	for i := range after.Solutions {
		s := &after.Solutions[i]
		u := s.Part(unit.ID)
		if u == nil {
			continue
		}
		f := unitFlow{mode: s.Mode.Name, flow: u.Flow, jets: stage.JetsLost(s, before)}
		for k := range s.Parts {
			p := &s.Parts[k]
			switch {
			case p.Part.Kind == graph.Pump && p.State != "off":
				f.pumpFlow += p.Flow
				f.wanted = f.wanted || slices.Contains(feeds, p.Part)
			case element != nil && p.Part.ID == element.ID:
				f.bypass, f.spring, f.chatters = p.State, element.Kind == graph.CheckValve, p.Chatters()
			}
		}
		out = append(out, f)
	}
	return out
}

// besideFlows reads what the other units get in each mode in which the pump of their line runs, and got
// before the work.
func besideFlows(after *stage.Stage, unit string, before []hydraulic.Solution) []besideFlow {
	var out []besideFlow
	for _, b := range after.Layout.Stage.Branches() {
		if b.Unit.ID == unit || b.Pump == nil {
			continue
		}
		asks := after.Layout.Stage.Part(b.Unit.ID)
		for i := range after.Solutions {
			s := &after.Solutions[i]
			u := s.Part(b.Unit.ID)
			if u == nil || !b.FedIn(s.Mode) {
				continue
			}
			f := besideFlow{mode: s.Mode.Name, id: b.Unit.ID, now: hydraulic.Passing(u.Flow), least: asks.Least.V, rated: asks.Rated.V}
			for k := range before {
				if was := before[k].Part(b.Unit.ID); was != nil && before[k].Mode.Name == f.mode && b.Unit.Existing {
					f.was, f.old = hydraulic.Passing(was.Flow), true
				}
			}
			out = append(out, f)
		}
	}
	return out
}

// taken reports whether the work takes so much from an old unit that it no longer has a flow it had: its least,
// or its rated.
func (f *besideFlow) taken(limit float64) bool { return f.old && f.was >= limit && f.now < limit }
