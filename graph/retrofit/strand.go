package retrofit

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// item is a part to stand in a strand: in line, or a tee with something on its branch.
type item struct {
	part    string
	in, out string  // its ports in the strand's direction
	length  float64 // stop to stop; of a tee both halves
	depth   float64 // of its sockets
	tee     bool    // legs are measured to its centre, not to its stop
	leg     int     // where it stands, from 0
	pos     float64 // first stop from the start of the leg
}

// measured returns where legs into and out of the item end, from the start of its leg.
func (i item) measured() (in, out float64) {
	if i.tee {
		return i.pos + i.length/2, i.pos + i.length/2
	}
	return i.pos, i.pos + i.length
}

// strand is one of the unit's two pipes: legs from a part's port to another's, with items
// in them. Each leg has a cursor at its front and at its back between which it is free.
type strand struct {
	name     string
	from, to graph.PortRef
	legs     []graph.Leg
	front    []cursor // from the start of the leg
	back     []cursor // from the start of the leg too
	items    []item   // in no order until sorted by runs
	ids      []string // of its parts and runs, what hangs on them too
	start    graph.Vec
	located  bool // start is where its first leg begins
}

// at is a point of a leg, so far from its start.
func (s *strand) at(leg int, along float64) graph.Vec {
	p := s.start
	for _, l := range s.legs[:leg] {
		p = p.Add(l.By)
	}
	return p.Add(s.legs[leg].By.Unit().Scale(along))
}

// cursor is a stop: how far along the leg, and how deep its socket is.
type cursor struct{ pos, depth float64 }

// newStrand returns a strand whose bends have the take-off and depth of an elbow.
func newStrand(name string, from, to graph.PortRef, legs []graph.Leg, start, finish end, w work) *strand {
	s := &strand{name: name, from: from, to: to, legs: legs}
	for i, l := range legs {
		a, b := start, finish
		if i > 0 {
			a = w.elbow(legs[i-1].By, l.By)
		}
		if i < len(legs)-1 {
			b = w.elbow(l.By, legs[i+1].By)
		}
		s.front = append(s.front, cursor{a.takeOff, a.depth})
		s.back = append(s.back, cursor{l.LengthMM() - b.takeOff, b.depth})
	}
	return s
}

// elbow returns the take-off and depth of the elbow between two legs of the unit's branch.
func (w work) elbow(a, b graph.Vec) end {
	turn := a.AngleTo(b)
	kind := "elbow-90"
	switch {
	case turn < 1:
		return end{}
	case turn < 33:
		kind = "elbow-22.5"
	case turn < 67:
		kind = "elbow-45"
	}
	row, _ := w.cat.Fitting(kind, rigid(w.branchSpec), w.branchSize)
	return end{takeOff: row.TakeOffMM, depth: row.SocketMM}
}

// free returns the length a leg has left for an item with sockets of the depth, nipples on
// both sides taken off.
func (s *strand) free(leg int, depth float64) float64 {
	f, b := s.front[leg], s.back[leg]
	return b.pos - f.pos - nipple(f.depth, depth) - nipple(depth, b.depth)
}

// put stands the item in the first of the legs that has room, as near its start (or its
// end) as it goes. It returns what is short in the best of them where none has room.
func (s *strand) put(it item, atEnd bool, legs ...int) (shortMM float64, leg int, ok bool) {
	shortMM = -1
	for _, k := range legs {
		spare := s.free(k, it.depth) - it.length
		if spare < -1e-6 {
			if shortMM < 0 || -spare < shortMM {
				shortMM, leg = -spare, k
			}
			continue
		}
		it.leg, it.pos = k, s.spotOf(it, atEnd, k)
		if atEnd {
			s.back[k] = cursor{it.pos, it.depth}
		} else {
			s.front[k] = cursor{it.pos + it.length, it.depth}
		}
		s.items = append(s.items, it)
		return 0, k, true
	}
	return shortMM, leg, false
}

// spotOf is where an item would stand in a leg: its first stop from the start of the leg.
func (s *strand) spotOf(it item, atEnd bool, k int) float64 {
	if atEnd {
		return s.back[k].pos - nipple(it.depth, s.back[k].depth) - it.length
	}
	return s.front[k].pos + nipple(s.front[k].depth, it.depth)
}

// order returns the items from the start of the strand to its end.
func (s *strand) order() []item {
	var out []item
	for k := range s.legs {
		from := len(out)
		for _, it := range s.items {
			if it.leg == k {
				at := len(out)
				for at > from && out[at-1].pos > it.pos {
					at--
				}
				out = append(out[:at], append([]item{it}, out[at:]...)...)
			}
		}
	}
	return out
}

// stretch is the pipe between two parts of a strand.
type stretch struct {
	from, to graph.PortRef
	legs     []graph.Leg
}

// stretches cuts the legs at the items.
func (s *strand) stretches() []stretch {
	var out []stretch
	cur := stretch{from: s.from}
	leg, done := 0, 0.0 // how much of which leg is used up
	take := func(upTo float64) {
		if l := s.legs[leg]; upTo-done > 1e-9 {
			part := l
			part.By = l.By.Unit().Scale(upTo - done)
			cur.legs = append(cur.legs, part)
		}
		done = upTo
	}
	for _, it := range s.order() {
		for leg < it.leg {
			take(s.legs[leg].LengthMM())
			leg, done = leg+1, 0
		}
		in, after := it.measured()
		take(in)
		cur.to = at(it.part, it.in)
		out = append(out, cur)
		cur, done = stretch{from: at(it.part, it.out)}, after
	}
	for leg < len(s.legs) {
		take(s.legs[leg].LengthMM())
		leg, done = leg+1, 0
	}
	cur.to = s.to
	return append(out, cur)
}

// roomFinding says that an item found no room, and names the leg as the user wrote it.
func (s *strand) roomFinding(pos graph.Pos, units, what string, shortMM float64, leg int) graph.Diagnostic {
	l := s.legs[leg]
	name := graph.Say("leg %d, %s,", leg+1, l.Words())
	if l.Pos.IsValid() {
		pos, name = l.Pos, graph.Say("your leg %s", l.Quoted())
	}
	longer := l.Longer(shortMM, units)
	return graph.Diagnostic{Pos: pos, Rule: "retrofit", Severity: graph.Error,
		Message: graph.Say("no leg of %s has room for the %s: %s is %s too short", s.name, what, name, quantity.Length.Of(math.Ceil(shortMM))),
		Hint:    graph.Say("make it \"%s\" or longer, and the pipe beside it too; or say where the unit stands with at", longer.Words())}
}
