package graph

// UnitBranch is how a unit hangs on the line: the tee where its water leaves the line, the
// tee where it comes back, the bypass between the two, and the pipes to and from the unit.
type UnitBranch struct {
	Unit *Part
	Pump *Part // nearest upstream; nil where there is none

	TeeIn, TeeOut *Part // where the water divides and meets again; a manifold or a diverter may stand there too

	BypassParts   []*Part // between the tees, the unit passed by, in the way of the water
	BypassRuns    []*Run
	ToUnitParts   []*Part // from TeeIn to the unit, both left out
	ToUnitRuns    []*Run
	FromUnitParts []*Part // from the unit to TeeOut, both left out
	FromUnitRuns  []*Run
	StubParts     []*Part // in dead ends on any of these: drains, bleeds, gauges
	StubRuns      []*Run

	Line Line // main line of Pump; it passes the bypass
}

// Element returns what throttles or checks the bypass: its first check valve, else its
// first hand valve, else nil.
func (b *UnitBranch) Element() *Part {
	for _, p := range b.BypassParts {
		if p.Kind == CheckValve {
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

// Isolators returns the hand valves between the tees and the unit.
func (b *UnitBranch) Isolators() (to, from []*Part) {
	for _, p := range b.ToUnitParts {
		if p.Kind.IsHandValve() {
			to = append(to, p)
		}
	}
	for _, p := range b.FromUnitParts {
		if p.Kind.IsHandValve() {
			from = append(from, p)
		}
	}
	return to, from
}

// Units returns the heat pumps of the circuit, in its order.
func (c *Circuit) Units() []*Part { return c.OfKind(HeatPump) }

// TheUnit returns the unit the job is about: the one [retrofit] names, else the first new
// one, else the first; nil where there is none.
func (c *Circuit) TheUnit() *Part {
	var first *Part
	for _, p := range c.Units() {
		if c.Retrofit != nil && c.Retrofit.Unit == p.ID {
			return p
		}
		if first == nil || (first.Existing && !p.Existing) {
			first = p
		}
	}
	return first
}

// FindUnitBranch returns the branch of the circuit's unit (see TheUnit). Where there is
// none it returns nil and says why, in words.
func FindUnitBranch(c *Circuit) (*UnitBranch, string) {
	unit := c.TheUnit()
	if unit == nil {
		return nil, "there is no heat pump"
	}
	return NewNet(c).UnitBranch(unit)
}

// UnitBranch returns the branch of a unit: of the places up the water where it divides, the
// nearest from which the water can pass the unit by, and the nearest place down the water
// where it meets again. Ways through other units do not count as a bypass, so the branch of
// a unit in parallel with another is the one they share.
//
// Where the unit has no bypass the branch holds the unit and its pump alone, and the words
// say so; it is nil where no water comes to the unit.
func (n *Net) UnitBranch(unit *Part) (*UnitBranch, string) {
	if len(n.Coming(unit)) == 0 || len(n.Leaving(unit)) == 0 {
		return nil, "no water comes to " + unit.ID
	}
	b := &UnitBranch{Unit: unit}
	up, down := n.Upstream(unit), n.Downstream(unit)
	b.Pump = up.First(Pump)
	if b.Pump == nil { // on the suction side
		b.Pump = down.First(Pump)
	}
	if b.Pump != nil {
		b.Line = n.MainLine(b.Pump)
	}
	isUnit := func(p *Part) bool { return p.Kind == HeatPump }
	for _, split := range up.Parts {
		if len(n.Leaving(split)) < 2 {
			continue
		}
		past := n.reach(n.Leaving(split), true, isUnit)
		for _, meet := range down.Parts {
			if len(n.Coming(meet)) >= 2 && past.HasPart(meet.ID) {
				b.TeeIn, b.TeeOut = split, meet
				n.fillBranch(b, isUnit)
				return b, ""
			}
		}
	}
	return b, unit.ID + " has no bypass: all the water that passes the pump has to pass it"
}

// fillBranch lists what lies between the tees.
func (n *Net) fillBranch(b *UnitBranch, isUnit func(*Part) bool) {
	atMeet := func(p *Part) bool { return p == b.TeeOut }
	atSplit := func(p *Part) bool { return p == b.TeeIn }
	fromSplit := n.reach(n.Leaving(b.TeeIn), true, func(p *Part) bool { return atMeet(p) || isUnit(p) })
	toMeet := n.reach(n.Coming(b.TeeOut), false, func(p *Part) bool { return atSplit(p) || isUnit(p) })
	b.BypassParts, b.BypassRuns = both(fromSplit, toMeet)

	toUnit := n.reach(n.Coming(b.Unit), false, atSplit)
	fromUnit := n.reach(n.Leaving(b.Unit), true, atMeet)
	anyFromSplit := n.reach(n.Leaving(b.TeeIn), true, func(p *Part) bool { return atMeet(p) || p == b.Unit })
	anyToMeet := n.reach(n.Coming(b.TeeOut), false, func(p *Part) bool { return atSplit(p) || p == b.Unit })
	b.ToUnitParts, b.ToUnitRuns = both(anyFromSplit, toUnit)
	b.FromUnitParts, b.FromUnitRuns = both(fromUnit, anyToMeet)

	mine := map[string]bool{b.Unit.ID: true}
	for _, list := range [][]*Part{b.BypassParts, b.ToUnitParts, b.FromUnitParts} {
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

// both returns what lies in both reaches, in the order of the first.
func both(a, b *Reach) (parts []*Part, runs []*Run) {
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
