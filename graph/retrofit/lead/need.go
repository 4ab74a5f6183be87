package lead

import "slices"

// needs are the least lengths of a pipe's legs, with what stands in them.
type needs struct {
	pipe     *Pipe
	radius   int64
	isolator int64 // radii of what stands in a leg
	union    int64
	check    int64
}

// placed says what stands in the legs walked so far.
type placed uint8

const (
	hasIsolator placed = 1 << iota
	hasCheck
	hasStraight // the check has its straight
)

func newNeeds(p *Pipe) needs {
	n := needs{pipe: p, radius: um(p.RadiusMM), isolator: um(p.Isolator.RadiusMM), union: um(p.Union.RadiusMM)}
	if p.Check != nil {
		n.check = um(p.Check.RadiusMM)
	}
	return n
}

// beadMM is left between the faces of two sockets for the cement bead, mm: see
// retrofit.BeadMM.
const beadMM = 5

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
		mm += depth + it.DepthMM + beadMM + it.LengthMM
		depth = it.DepthMM
	}
	return least(mm + depth + end.DepthMM + beadMM)
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
	var items []Item
	if before&hasIsolator == 0 {
		with := []Item{n.pipe.Isolator}
		if last {
			with = append(with, n.inLast()...)
		}
		switch {
		case length >= n.straight(first, last, with...):
			items = append(items, n.pipe.Isolator)
			after |= hasIsolator
			radius = max(radius, n.isolator)
		case last:
			return after, radius, false
		}
	}
	check := n.pipe.Check
	if check != nil && after&hasStraight == 0 && w != down {
		with := append(slices.Clone(items), *check)
		tail := n.inLast()
		if !last {
			tail = nil
		}
		if length >= n.straight(first, last, append(with, tail...)...) {
			after |= hasCheck
			radius = max(radius, n.check)
			if last || length >= n.straight(first, last, with...)-n.tail(*check)+um(n.pipe.StraightMM) {
				after |= hasStraight
			}
		}
	}
	if last {
		items = append(items, n.inLast()...)
		if check != nil && before&hasCheck == 0 {
			if after&hasCheck == 0 {
				return after, radius, false
			}
			items = append([]Item{*check}, items...)
		}
		radius = max(radius, n.union)
	}
	return after, radius, length >= n.straight(first, last, items...)
}

// tail is what the shortest leg has of pipe between a check and the elbow before it.
func (n *needs) tail(check Item) int64 {
	return um(check.DepthMM + n.pipe.Elbow.DepthMM + beadMM)
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
			out = append(out, short, least(float64(short-n.tail(*c))/1000+n.pipe.StraightMM))
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
	start, end := n.pipe.Elbow, n.pipe.Elbow
	if first {
		start = n.pipe.Tee
	}
	if last {
		end = n.pipe.Port
	}
	behind := func(mm, depth float64, items []Item) float64 {
		for _, it := range items {
			mm += depth + it.DepthMM + beadMM + it.LengthMM
			depth = it.DepthMM
		}
		return mm + depth
	}
	var atStart, atEnd []Item
	if before&hasIsolator == 0 && after&hasIsolator != 0 {
		atStart = append(atStart, n.pipe.Isolator)
	}
	if last {
		atEnd = n.inLast()
	}
	return taken{radius: radius,
		head: max(radius, um(behind(start.TakeOffMM, start.DepthMM, atStart))),
		tail: max(radius, um(behind(end.TakeOffMM, end.DepthMM, atEnd)))}
}
