package stream

import (
	"cmp"
	"slices"

	"dryfit/graph"
)

// UnitBranch is how a unit hangs on the line: the tee where its water leaves the line, the
// tee where it comes back, the bypass between the two, and the pipes to and from the unit.
type UnitBranch struct {
	Unit *graph.Part
	Pump *graph.Part // nearest upstream; nil where there is none

	// Beside are further pumps whose water comes to the unit, side by side with Pump or before it in its line: each
	// feeds it alone where the rest are off.
	Beside []*graph.Part
	Rates  int // see Net.Rates, of Feeds; 0 without a pump

	TeeIn, TeeOut *graph.Part // where the water divides and meets again; a manifold or a diverter may stand there too

	BypassParts   []*graph.Part // between the tees, the unit passed by, in the way of the water
	BypassRuns    []*graph.Run
	ToUnitParts   []*graph.Part // from TeeIn to the unit, both left out
	ToUnitRuns    []*graph.Run
	FromUnitParts []*graph.Part // from the unit to TeeOut, both left out
	FromUnitRuns  []*graph.Run
	StubParts     []*graph.Part // in dead ends on any of these: drains, bleeds, gauges
	StubRuns      []*graph.Run

	Line Line // main line of Pump; it passes the bypass

	shutTo, shutFrom []*graph.Part // see Isolators
}

// Whole reports whether there is all that a bypass is chosen by: the unit, the pump that feeds it, and its tees.
// Of nil it is not.
func (b *UnitBranch) Whole() bool {
	return b != nil && b.Unit.Unit != nil && b.Pump != nil && b.TeeIn != nil
}

// Element returns what throttles or checks the bypass: its first check valve, else its
// first hand valve, else nil.
func (b *UnitBranch) Element() *graph.Part {
	for _, p := range b.BypassParts {
		if p.Kind == graph.CheckValve {
			return p
		}
	}
	for _, p := range b.BypassParts {
		if p.Kind.IsHandValve() {
			return p
		}
	}
	return nil
}

// Isolators returns the hand valves that shut the unit off: those between a tee and the unit past
// which no other way leads to it. Where several pipes lead to it side by side and no valve shuts
// it off alone, all that stand there.
func (b *UnitBranch) Isolators() (to, from []*graph.Part) { return b.shutTo, b.shutFrom }

// Branch is a unit that water comes to and how it hangs on its line.
type Branch struct {
	*UnitBranch
	Problem string // why it has no bypass; ""
}

// Branches returns the units that water comes to, in the order of the circuit. They are found once.
func (n *Net) Branches() []Branch { return n.branches() }

func (n *Net) findBranches() []Branch {
	var out []Branch
	for _, u := range n.Circuit.Units() {
		if b, problem := n.branchOf(u); b != nil {
			out = append(out, Branch{b, problem})
		}
	}
	return out
}

// InnerFirst returns the branches, that of a unit which hangs in the pipes of another before the other's:
// its parts lie on both ways, and its own valves shut them off without the other.
func (n *Net) InnerFirst() []Branch {
	return slices.SortedStableFunc(slices.Values(n.Branches()), func(a, b Branch) int {
		return cmp.Compare(len(a.ToUnitParts)+len(a.FromUnitParts), len(b.ToUnitParts)+len(b.FromUnitParts))
	})
}

// TheBranch returns the branch of the unit the job is about (see graph.Circuit.TheUnit), and in words why it
// has no bypass; nil where there is no unit or no water comes to it.
func (n *Net) TheBranch() (*UnitBranch, string) {
	unit := n.Circuit.TheUnit()
	if unit == nil {
		return nil, "there is no heat pump"
	}
	return n.UnitBranch(unit)
}

// UnitBranch returns the branch of a unit of the circuit. Where the unit has no bypass the branch holds the
// unit and its pump alone, and the words say so; it is nil where no water comes to the unit.
func (n *Net) UnitBranch(unit *graph.Part) (*UnitBranch, string) {
	for _, b := range n.Branches() {
		if b.Unit.ID == unit.ID {
			return b.UnitBranch, b.Problem
		}
	}
	return nil, "no water comes to " + unit.ID
}

// Pumped reports whether the water of a pump comes to a unit, of nil not.
func (n *Net) Pumped(unit *graph.Part) bool {
	if unit == nil {
		return false
	}
	b, _ := n.UnitBranch(unit)
	return b != nil && b.Pump != nil
}

// branchOf finds the branch of a unit: of the places up the water where it divides, the
// nearest from which the water can pass the unit by, and the nearest place down the water
// where it meets again. Ways through other units do not count as a bypass, so the branch of
// a unit in parallel with another is the one they share.
func (n *Net) branchOf(unit *graph.Part) (*UnitBranch, string) {
	if len(n.runsOf(n.in, unit)) == 0 || len(n.runsOf(n.out, unit)) == 0 {
		return nil, "no water comes to " + unit.ID
	}
	b := &UnitBranch{Unit: unit}
	up, down := n.Upstream(unit), n.Downstream(unit)
	b.Pump = up.First(graph.Pump)
	if b.Pump == nil { // on the suction side
		b.Pump = down.First(graph.Pump)
	}
	if b.Pump != nil {
		b.Line = n.MainLine(b.Pump)
		b.Beside = n.beside(unit, b.Pump)
		b.Rates = n.Rates(b.Feeds())
	}
	isUnit := func(p *graph.Part) bool { return p.Kind == graph.HeatPump }
	for _, split := range up.Parts {
		if len(n.runsOf(n.out, split)) < 2 {
			continue
		}
		past := n.DownstreamUntil(split, isUnit)
		for _, meet := range down.Parts {
			if len(n.runsOf(n.in, meet)) >= 2 && past.HasPart(meet.ID) {
				b.TeeIn, b.TeeOut = split, meet
				n.fillBranch(b, isUnit)
				return b, ""
			}
		}
	}
	return b, unit.ID + " has no bypass: all the water that passes the pump has to pass it"
}

// beside returns the pumps other than one that feed a unit; none where that one stands after the unit.
func (n *Net) beside(unit, pump *graph.Part) []*graph.Part {
	feeds := n.Feeds(unit)
	at := slices.Index(feeds, pump)
	if at < 0 {
		return nil
	}
	return slices.Delete(slices.Clone(feeds), at, at+1)
}

// Feeds returns the pumps that feed the unit each by itself: Pump and those beside it; none without one.
func (b *UnitBranch) Feeds() []*graph.Part {
	if b.Pump == nil {
		return nil
	}
	return append([]*graph.Part{b.Pump}, b.Beside...)
}

// Constant reports whether the line has one flow wherever it has any.
func (b *UnitBranch) Constant() bool { return b.Rates < 2 }

// Feeder returns the first of the pumps that feed the unit which runs in a mode; nil: none.
func (b *UnitBranch) Feeder(m graph.Mode) *graph.Part {
	for _, p := range b.Feeds() {
		if m.Speeds[p.ID] != "" {
			return p
		}
	}
	return nil
}

// FedIn reports whether one of the pumps that feed the unit runs in a mode.
func (b *UnitBranch) FedIn(m graph.Mode) bool { return b.Feeder(m) != nil }

// fillBranch lists what lies between the tees.
func (n *Net) fillBranch(b *UnitBranch, isUnit func(*graph.Part) bool) {
	atMeet := func(p *graph.Part) bool { return p == b.TeeOut }
	atSplit := func(p *graph.Part) bool { return p == b.TeeIn }
	fromSplit := n.DownstreamUntil(b.TeeIn, func(p *graph.Part) bool { return atMeet(p) || isUnit(p) })
	toMeet := n.UpstreamUntil(b.TeeOut, func(p *graph.Part) bool { return atSplit(p) || isUnit(p) })
	b.BypassParts, b.BypassRuns = both(fromSplit, toMeet)

	toUnit := n.UpstreamUntil(b.Unit, atSplit)
	fromUnit := n.DownstreamUntil(b.Unit, atMeet)
	anyFromSplit := n.DownstreamUntil(b.TeeIn, func(p *graph.Part) bool { return atMeet(p) || p == b.Unit })
	anyToMeet := n.UpstreamUntil(b.TeeOut, func(p *graph.Part) bool { return atSplit(p) || p == b.Unit })
	b.ToUnitParts, b.ToUnitRuns = both(anyFromSplit, toUnit)
	b.FromUnitParts, b.FromUnitRuns = both(fromUnit, anyToMeet)

	b.shutTo = shutting(b.ToUnitParts, func(v *graph.Part) bool {
		return !n.DownstreamUntil(b.TeeIn, func(p *graph.Part) bool { return p == v || atMeet(p) }).HasPart(b.Unit.ID)
	})
	b.shutFrom = shutting(b.FromUnitParts, func(v *graph.Part) bool {
		return !n.UpstreamUntil(b.TeeOut, func(p *graph.Part) bool { return p == v || atSplit(p) }).HasPart(b.Unit.ID)
	})

	mine := map[string]bool{b.Unit.ID: true}
	for _, list := range [][]*graph.Part{b.BypassParts, b.ToUnitParts, b.FromUnitParts} {
		for _, p := range list {
			mine[p.ID] = true
		}
	}
	for _, d := range n.DeadEnds() {
		if d.From != nil && mine[d.From.ID] {
			b.StubParts = append(b.StubParts, d.Parts...)
			b.StubRuns = append(b.StubRuns, d.Runs...)
		}
	}
}

// shutting returns the hand valves among the parts that shut the way by themselves; all of them
// where none does.
func shutting(parts []*graph.Part, alone func(*graph.Part) bool) []*graph.Part {
	var all, some []*graph.Part
	for _, p := range parts {
		if !p.Kind.IsHandValve() {
			continue
		}
		all = append(all, p)
		if alone(p) {
			some = append(some, p)
		}
	}
	if len(some) == 0 {
		return all
	}
	return some
}

// both returns what lies in both reaches, in the order of the first.
func both(a, b *Reach) (parts []*graph.Part, runs []*graph.Run) {
	for _, p := range a.Parts {
		if b.HasPart(p.ID) {
			parts = append(parts, p)
		}
	}
	for _, r := range a.Runs {
		if b.HasRun(r.ID) {
			runs = append(runs, r)
		}
	}
	return parts, runs
}
