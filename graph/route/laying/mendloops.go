package laying

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// mendSteps bounds how many lengths of legs are tried along one way before the loops are said not
// to close by lengths alone.
const mendSteps = 4000

// mendLooks bounds how often legs are looked at for all loops and short pieces together: what is left then
// is told by itself.
const mendLooks = 1_000_000

// mending is what the lengths of new legs are changed by for all loops they are on to close together:
// loops that share a leg are closed by one set of lengths, not each by one of its own.
type mending struct {
	ways []mendedWay
	open map[int]bool // loops that miss and that no lengths close
}

// mendedWay is what is changed along one way.
type mendedWay struct {
	missed []int // the loops that miss along it
	legs   []mendedLeg
}

// mendedLeg is a leg and what it is made longer by, mm; below nothing: shorter.
type mendedLeg struct {
	leg  mendLeg
	byMM float64
}

// mendLeg is a leg of new pipe along a way, and how it lies in each loop it is on.
type mendLeg struct {
	key   legKey
	tie   *tie
	by    graph.Vec
	loops map[int]float64 // by the loop: 1 where it is walked along the way, -1 against it
}

// mend finds what has to be changed for all new loops to close: by themselves, and with each piece
// too short for its sockets made longer where something takes that up; refused are the legs of those
// for which nothing does.
func (l *work) mend(w *web) (m mending, refused map[legKey]bool) {
	var forced []*shortPiece
	refused = map[legKey]bool{}
	m = l.mendWith(w, nil)
	for range l.short {
		next := slices.IndexFunc(l.short, func(p shortPiece) bool {
			return p.key.leg < len(p.run.Legs) && p.key.leg < len(l.lines[p.key.path].legs) && !refused[p.key] && !l.longEnough(m, &p)
		})
		if next < 0 {
			break
		}
		p := &l.short[next]
		with := l.mendWith(w, append(slices.Clone(forced), p))
		switch {
		case len(with.open) <= len(m.open):
			forced, m = append(forced, p), with
		case l.looked > mendLooks:
			return m, refused
		default:
			refused[p.key] = true
		}
	}
	return m, refused
}

// looks counts legs looked at, and reports whether more may be.
func (l *work) looks(legs int) bool {
	l.looked += legs
	return l.looked <= mendLooks
}

// longEnough reports whether the leg of a short piece becomes long enough by what is mended.
func (l *work) longEnough(m mending, p *shortPiece) bool {
	return slices.ContainsFunc(m.ways, func(way mendedWay) bool {
		return slices.ContainsFunc(way.legs, func(c mendedLeg) bool {
			return c.leg.key == p.key && l.spare[p.key]+c.byMM >= settle.BeadMM-closureLimitMM
		})
	})
}

// mendWith is what closes the loops with these of the short pieces made longer.
func (l *work) mendWith(w *web, forced []*shortPiece) mending {
	out := mending{open: map[int]bool{}}
	ways := []graph.Vec{{X: 1}, {Y: 1}, {Z: 1}}
	for _, p := range forced {
		way := l.lines[p.key.path].legs[p.key.leg].Unit()
		if !slices.ContainsFunc(ways, func(v graph.Vec) bool { return alongWay(way, v) }) {
			ways = append(ways, way) // a slant
		}
	}
	for k, way := range ways {
		c := l.closingAlong(w, way, k < 3)
		for _, p := range forced {
			if by := l.lines[p.key.path].legs[p.key.leg]; alongWay(by, way) {
				c.change(c.leg(p, by), p.mm)
			}
		}
		legs, open := c.close()
		out.ways = append(out.ways, mendedWay{c.missed, legs})
		for _, i := range open {
			out.open[i] = true
		}
	}
	return out
}

// alongWay reports whether a leg runs along a way, in either direction.
func alongWay(by, way graph.Vec) bool {
	return math.Abs(by.Unit().Dot(way)) >= math.Cos(graph.StraightDeg*math.Pi/180)
}

// closing seeks the lengths of legs along one way by which all loops close.
type closing struct {
	missMM []float64 // by the loop, along the way
	missed []int     // the loops that miss as they are
	hose   []bool    // by the loop: hose in it takes up what is left
	legs   []mendLeg
	takes  func(key legKey, change float64) int
	looks  func(legs int) bool // counts, and reports whether there may be more
	done   []mendedLeg
	tried  int
}

// closingAlong gathers what the new loops miss by along a way, if that counts, and the legs along it.
func (l *work) closingAlong(w *web, way graph.Vec, counts bool) *closing {
	c := &closing{missMM: make([]float64, len(l.loops)), hose: make([]bool, len(l.loops)), takes: l.takes, looks: l.looks}
	for i := range l.loops {
		n := &l.loops[i]
		if miss := n.miss.Dot(way); counts && math.Abs(miss) > closureLimitMM/2. {
			c.missMM[i] = miss
			c.missed = append(c.missed, i)
		}
		c.hose[i] = w.hose(n) != nil
		for leg, sign := range l.legsAlong(w, n, way) {
			c.add(leg, i, math.Copysign(1, sign))
		}
	}
	return c
}

// add notes that a leg is on a loop, and which way it is walked there.
func (c *closing) add(leg mendLeg, loop int, sign float64) {
	at := slices.IndexFunc(c.legs, func(m mendLeg) bool { return m.key == leg.key })
	if at < 0 {
		at = len(c.legs)
		leg.loops = map[int]float64{}
		c.legs = append(c.legs, leg)
	}
	c.legs[at].loops[loop] = sign
}

// leg is that of a short piece, which may be on no loop.
func (c *closing) leg(p *shortPiece, by graph.Vec) mendLeg {
	for _, m := range c.legs {
		if m.key == p.key {
			return m
		}
	}
	return mendLeg{key: p.key, tie: &tie{run: p.run, path: p.key.path}, by: by}
}

// change makes a leg longer, and what its loops miss by follows.
func (c *closing) change(leg mendLeg, byMM float64) {
	for i, sign := range leg.loops {
		c.missMM[i] -= sign * byMM
	}
	c.done = append(c.done, mendedLeg{leg, byMM})
}

// undo takes the last change back.
func (c *closing) undo() {
	last := c.done[len(c.done)-1]
	for i, sign := range last.leg.loops {
		c.missMM[i] += sign * last.byMM
	}
	c.done = c.done[:len(c.done)-1]
}

// close finds the fewest changes by which the loops close, and those of them that miss and stay
// open: where not all can be closed together hose takes up what is left in its loop, then one that
// misses is left out, then all.
func (c *closing) close() (legs []mendedLeg, open []int) {
	from := len(c.done)
	none := func(int) bool { return false }
	if c.fewest(none) {
		return c.done, nil
	}
	hose := func(i int) bool { return c.hose[i] }
	if c.fewest(hose) {
		return c.done, c.stillMissed()
	}
	for _, k := range c.missed {
		if len(c.missed) > 1 && c.fewest(func(i int) bool { return i == k || c.hose[i] }) {
			return c.done, c.stillMissed()
		}
	}
	if from == 0 || c.fewest(func(i int) bool { return c.hose[i] || slices.Contains(c.missed, i) }) {
		return c.done, c.missed
	}
	for i := range c.missMM { // what was to be made longer opens a loop that closes
		if math.Abs(c.missMM[i]) > closureLimitMM/2. && !c.hose[i] {
			open = append(open, i)
		}
	}
	return c.done, open
}

// stillMissed are the loops that miss as they are and are left open.
func (c *closing) stillMissed() []int {
	return slices.DeleteFunc(slices.Clone(c.missed), func(i int) bool { return math.Abs(c.missMM[i]) <= closureLimitMM/2. })
}

// fewest seeks as few changes as close all loops but those left out.
func (c *closing) fewest(left func(loop int) bool) bool {
	c.tried = 0
	for most := range len(c.missMM) + 1 {
		if !c.looks(0) {
			return false
		}
		if c.within(most, left) {
			return true
		}
	}
	return false
}

// within closes the loops by at most so many changes more.
func (c *closing) within(most int, left func(loop int) bool) bool {
	loop := -1
	for i, miss := range c.missMM {
		if math.Abs(miss) > closureLimitMM/2. && !left(i) {
			loop = i
			break
		}
	}
	if loop < 0 {
		return true
	}
	if most == 0 || !c.looks(len(c.legs)) {
		return false
	}
	for _, m := range c.closers(loop) {
		if c.tried++; c.tried > mendSteps {
			return false
		}
		c.change(m.leg, m.byMM)
		if c.within(most-1, left) {
			return true
		}
		c.undo()
	}
	return false
}

// closers are the legs that close a loop, each alone, those first that take it up best: then those
// that move fewest loops, then the longest.
func (c *closing) closers(loop int) []mendedLeg {
	var out []mendedLeg
	for _, leg := range c.legs {
		sign, on := leg.loops[loop]
		by := sign * c.missMM[loop]
		if !on || leg.by.Len()+by < 1 || c.takes(leg.key, by) == tooShort || slices.ContainsFunc(c.done, func(m mendedLeg) bool { return m.leg.key == leg.key }) {
			continue
		}
		out = append(out, mendedLeg{leg, by})
	}
	slices.SortStableFunc(out, func(a, b mendedLeg) int {
		return cmp.Or(
			cmp.Compare(c.takes(a.leg.key, a.byMM), c.takes(b.leg.key, b.byMM)),
			cmp.Compare(len(a.leg.loops), len(b.leg.loops)),
			cmp.Compare(b.leg.by.Len(), a.leg.by.Len()),
		)
	})
	return out
}
