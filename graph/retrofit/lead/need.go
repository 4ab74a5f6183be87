package lead

import (
	"slices"

	"dryfit/graph/settle"
)

// needs are the least lengths of a pipe's legs, with what stands in them.
type needs struct {
	pipe     *Pipe
	radius   int64
	isolator int64 // radii of what stands in a leg
	union    int64
	check    int64
	thickest int64       // the greatest of them and the radius of bare pipe
	fit      [2][2]fits  // first leg or not, last or not
	head     [2][2]int64 // what is no bare pipe at the start: in the first leg or not, with the isolator or not
	tail     [2]int64    // at the end, in the last leg or not
	falls    way         // the way a leg is walked in which the water runs down
	known    *Known      // what the pipes of other problems left, too
}

// fits are the least lengths of a leg for what may stand in it, asked for at every step of the
// search and worked out once.
type fits struct {
	isolator int64       // it, and what the last leg has
	check    [2]int64    // the check behind the isolator or alone, and what the last leg has
	all      [2][2]int64 // what was placed: without or with the isolator, without or with the check
}

// placed says what stands in the legs walked so far.
type placed uint8

const (
	hasIsolator placed = 1 << iota
	hasCheck
	hasStraight // the check has its straight
	allPlaced   = hasIsolator | hasCheck | hasStraight
)

func newNeeds(p *Pipe, known *Known) needs {
	n := needs{pipe: p, known: known, radius: um(p.RadiusMM), isolator: um(p.Isolator.RadiusMM), union: um(p.Union.RadiusMM), falls: down}
	if p.Back {
		n.falls = up // it comes from where the pipe is walked to
	}
	if p.Check != nil {
		n.check = um(p.Check.RadiusMM)
	}
	n.thickest = max(n.radius, n.isolator, n.union, n.check)
	for _, first := range []bool{false, true} {
		for _, last := range []bool{false, true} {
			n.fit[at(first)][at(last)] = n.fits(first, last)
		}
		for _, with := range []bool{false, true} {
			n.head[at(first)][at(with)] = n.headOf(first, with)
		}
		n.tail[at(first)] = n.tailOf(first)
	}
	return n
}

func at(b bool) int {
	if b {
		return 1
	}
	return 0
}

// fits works out the least lengths of one kind of leg.
func (n *needs) fits(first, last bool) (f fits) {
	var tail []Item
	if last {
		tail = n.inLast()
	}
	f.isolator = n.straight(first, last, append([]Item{n.pipe.Isolator}, tail...)...)
	for _, isolator := range []bool{false, true} {
		var items []Item
		if isolator {
			items = append(items, n.pipe.Isolator)
		}
		f.all[at(isolator)][0] = n.straight(first, last, append(slices.Clip(items), tail...)...)
		if c := n.pipe.Check; c != nil {
			f.check[at(isolator)] = n.straight(first, last, append(append(slices.Clip(items), *c), tail...)...)
			f.all[at(isolator)][1] = n.straight(first, last, append(append([]Item{*c}, items...), tail...)...)
		}
	}
	return f
}

// straight is the least length of a leg between two stops with items in it.
func (n *needs) straight(first, last bool, items ...Item) int64 {
	start, end := n.pipe.Elbow, n.pipe.Elbow
	if first {
		start = n.pipe.Tee
	}
	if last {
		end = n.pipe.Port
	}
	mm, depth := start.TakeOffMM+end.TakeOffMM, start.DepthMM
	for _, it := range items {
		mm += depth + it.DepthMM + settle.BeadMM + it.LengthMM
		depth = it.DepthMM
	}
	return least(mm + depth + end.DepthMM + settle.BeadMM)
}

// inLast are the items of a last leg besides what was not placed before.
func (n *needs) inLast() []Item {
	if n.pipe.Tap.LengthMM > 0 {
		return []Item{n.pipe.Tap, n.pipe.Union}
	}
	return []Item{n.pipe.Union}
}

// put says what stands in a leg of a length, walked a way: what was placed before and in it,
// and its greatest radius; ok is false where it is too short.
func (n *needs) put(before placed, w way, length int64, first, last bool) (after placed, radius int64, ok bool) {
	after, radius = before, n.radius
	f := &n.fit[at(first)][at(last)]
	isolator := false
	if before&hasIsolator == 0 {
		switch {
		case length >= f.isolator:
			isolator = true
			after |= hasIsolator
			radius = max(radius, n.isolator)
		case last:
			return after, radius, false
		}
	}
	check := n.pipe.Check
	if check != nil && after&hasStraight == 0 && w != n.falls {
		if least := f.check[at(isolator)]; length >= least {
			after |= hasCheck
			radius = max(radius, n.check)
			if last || length >= least-n.beforeElbow(*check)+um(n.pipe.StraightMM) {
				after |= hasStraight
			}
		}
	}
	added := false
	if last {
		if check != nil && before&hasCheck == 0 {
			if after&hasCheck == 0 {
				return after, radius, false
			}
			added = true
		}
		radius = max(radius, n.union)
	}
	return after, radius, length >= f.all[at(isolator)][at(added)]
}

// beforeElbow is what the shortest leg has of pipe between a check and the elbow before it.
func (n *needs) beforeElbow(check Item) int64 {
	return um(check.DepthMM + n.pipe.Elbow.DepthMM + settle.BeadMM)
}

// lengths are the least lengths a leg may have, by what may stand in it.
func (n *needs) lengths(before placed, first, last bool) []int64 {
	var with []Item
	var out []int64
	if last {
		tail := n.inLast()
		out = append(out, n.straight(first, true, tail...))
		if before&hasIsolator == 0 {
			with = append(with, n.pipe.Isolator)
			out = append(out, n.straight(first, true, append(with, tail...)...))
		}
		if n.pipe.Check != nil && before&hasCheck == 0 {
			with = append(with, *n.pipe.Check)
			out = append(out, n.straight(first, true, append(with, tail...)...))
		}
		return out
	}
	out = append(out, n.straight(first, false))
	if before&hasIsolator == 0 {
		with = append(with, n.pipe.Isolator)
		out = append(out, n.straight(first, false, with...))
	}
	if c := n.pipe.Check; c != nil && before&hasStraight == 0 {
		for _, w := range [][]Item{{*c}, append(with, *c)} {
			short := n.straight(first, false, w...)
			out = append(out, short, least(float64(short-n.beforeElbow(*c))/1000+n.pipe.StraightMM))
		}
	}
	return out
}

// taken is how thick a leg is with what stands in it, and how much of it at either end is no
// bare pipe, from its start and back from its end.
type taken struct{ radius, head, tail int64 }

// taken says it of a leg, of which put said what stands in it: the isolator at its start, the
// union with a tap at its end.
func (n *needs) taken(before, after placed, radius int64, first, last bool) taken {
	isolator := before&hasIsolator == 0 && after&hasIsolator != 0
	return taken{radius: radius, head: max(radius, n.head[at(first)][at(isolator)]), tail: max(radius, n.tail[at(last)])}
}

// headOf is what is no bare pipe at the start of a leg.
func (n *needs) headOf(first, isolator bool) int64 {
	start := n.pipe.Elbow
	if first {
		start = n.pipe.Tee
	}
	var items []Item
	if isolator {
		items = append(items, n.pipe.Isolator)
	}
	return behind(start, items)
}

// tailOf is what is no bare pipe at the end of a leg.
func (n *needs) tailOf(last bool) int64 {
	if last {
		return behind(n.pipe.Port, n.inLast())
	}
	return behind(n.pipe.Elbow, nil)
}

// behind is how far a stop and the items next to it reach.
func behind(stop Stop, items []Item) int64 {
	mm, depth := stop.TakeOffMM, stop.DepthMM
	for _, it := range items {
		mm += depth + it.DepthMM + settle.BeadMM + it.LengthMM
		depth = it.DepthMM
	}
	return um(mm + depth)
}
