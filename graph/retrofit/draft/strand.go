package draft

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Item is a part to stand in a strand: in line, or a tee with something on its branch.
type Item struct {
	Part    string
	In, Out string  // its ports in the strand's direction
	Length  float64 // stop to stop; of a tee both halves
	Depth   float64 // of its sockets
	Tee     bool    // legs are measured to its centre, not to its stop
	Leg     int     // where it stands, from 0
	Pos     float64 // first stop from the start of the leg
}

// Name is what the strand is called: the key that writes it.
func (s *Strand) Name() string { return s.name }

// measured returns where legs into and out of the item end, from the start of its leg.
func (i Item) measured() (in, out float64) {
	if i.Tee {
		return i.Pos + i.Length/2, i.Pos + i.Length/2
	}
	return i.Pos, i.Pos + i.Length
}

// Strand is one of the unit's two pipes: legs from a part's port to another's, with items
// in them. Each leg has a cursor at its front and at its back between which it is free.
type Strand struct {
	name     string
	from, to graph.PortRef
	Legs     []graph.Leg
	Front    []Cursor // from the start of the leg
	Back     []Cursor // from the start of the leg too
	Items    []Item   // in no order until sorted by runs
	IDs      []string // of its parts and runs, what hangs on them too
	Start    graph.Vec
	Located  bool // start is where its first leg begins
}

// At is a point of a leg, so far from its start.
func (s *Strand) At(leg int, along float64) graph.Vec {
	p := s.Start
	for _, l := range s.Legs[:leg] {
		p = p.Add(l.By)
	}
	return p.Add(s.Legs[leg].By.Unit().Scale(along))
}

// Cursor is a stop: how far along the leg, and how deep its socket is.
type Cursor struct{ Pos, Depth float64 }

// NewStrand returns a strand whose bends have the take-off and depth of the elbow between two
// legs.
func NewStrand(name string, from, to graph.PortRef, legs []graph.Leg, start, finish End, elbow func(in, out graph.Vec) End) *Strand {
	s := &Strand{name: name, from: from, to: to, Legs: legs}
	for i, l := range legs {
		a, b := start, finish
		if i > 0 {
			a = elbow(legs[i-1].By, l.By)
		}
		if i < len(legs)-1 {
			b = elbow(l.By, legs[i+1].By)
		}
		s.Front = append(s.Front, Cursor{a.TakeOff, a.Depth})
		s.Back = append(s.Back, Cursor{l.LengthMM() - b.TakeOff, b.Depth})
	}
	return s
}

// Free returns the length a leg has left for an item with sockets of the depth, nipples on
// both sides taken off.
func (s *Strand) Free(leg int, depth float64) float64 {
	f, b := s.Front[leg], s.Back[leg]
	return b.Pos - f.Pos - Nipple(f.Depth, depth) - Nipple(depth, b.Depth)
}

// Put stands the item in the first of the legs that has room, as near its start (or its
// end) as it goes. It returns what is short in the best of them where none has room.
func (s *Strand) Put(it Item, atEnd bool, legs ...int) (shortMM float64, leg int, ok bool) {
	shortMM = -1
	for _, k := range legs {
		spare := s.Free(k, it.Depth) - it.Length
		if spare < -1e-6 {
			if shortMM < 0 || -spare < shortMM {
				shortMM, leg = -spare, k
			}
			continue
		}
		it.Leg, it.Pos = k, s.SpotOf(it, atEnd, k)
		if atEnd {
			s.Back[k] = Cursor{it.Pos, it.Depth}
		} else {
			s.Front[k] = Cursor{it.Pos + it.Length, it.Depth}
		}
		s.Items = append(s.Items, it)
		return 0, k, true
	}
	return shortMM, leg, false
}

// SpotOf is where an item would stand in a leg: its first stop from the start of the leg.
func (s *Strand) SpotOf(it Item, atEnd bool, k int) float64 {
	if atEnd {
		return s.Back[k].Pos - Nipple(it.Depth, s.Back[k].Depth) - it.Length
	}
	return s.Front[k].Pos + Nipple(s.Front[k].Depth, it.Depth)
}

// order returns the items from the start of the strand to its end.
func (s *Strand) order() []Item {
	var out []Item
	for k := range s.Legs {
		from := len(out)
		for _, it := range s.Items {
			if it.Leg == k {
				at := len(out)
				for at > from && out[at-1].Pos > it.Pos {
					at--
				}
				out = append(out[:at], append([]Item{it}, out[at:]...)...)
			}
		}
	}
	return out
}

// Stretch is the pipe between two parts of a strand.
type Stretch struct {
	From, To graph.PortRef
	Legs     []graph.Leg
}

// Stretches cuts the legs at the items.
func (s *Strand) Stretches() []Stretch {
	var out []Stretch
	cur := Stretch{From: s.from}
	leg, done := 0, 0.0 // how much of which leg is used up
	take := func(upTo float64) {
		if l := s.Legs[leg]; upTo-done > 1e-9 {
			part := l
			part.By = l.By.Unit().Scale(upTo - done)
			cur.Legs = append(cur.Legs, part)
		}
		done = upTo
	}
	for _, it := range s.order() {
		for leg < it.Leg {
			take(s.Legs[leg].LengthMM())
			leg, done = leg+1, 0
		}
		in, after := it.measured()
		take(in)
		cur.To = At(it.Part, it.In)
		out = append(out, cur)
		cur, done = Stretch{From: At(it.Part, it.Out)}, after
	}
	for leg < len(s.Legs) {
		take(s.Legs[leg].LengthMM())
		leg, done = leg+1, 0
	}
	cur.To = s.to
	return append(out, cur)
}

// RoomFinding says that an item found no room, and names the leg as the user wrote it.
func (s *Strand) RoomFinding(pos graph.Pos, units, what string, shortMM float64, leg int) graph.Diagnostic {
	l := s.Legs[leg]
	name := graph.Say("leg %d, %s,", leg+1, l.Words())
	if l.Pos.IsValid() {
		pos, name = l.Pos, graph.Say("your leg %s", l.Quoted())
	}
	longer := l.Longer(shortMM, units)
	var behind []graph.Pos
	for _, g := range s.Legs {
		if g.Beyond {
			behind = append(behind, g.Pos)
		}
	}
	return graph.Diagnostic{Pos: pos, Rule: "retrofit", Severity: graph.Error, Behind: behind,
		Message: graph.Say("no leg of %s has room for the %s: %s is %s too short", s.name, what, name, quantity.Length.Of(math.Ceil(shortMM))),
		Hint:    graph.Say("make it \"%s\" or longer, and the pipe beside it too; or say where the unit stands with at", longer.Words())}
}

// FromStart returns the legs of a strand in order, from 0.
func (s *Strand) FromStart() []int {
	out := make([]int, len(s.Legs))
	for i := range out {
		out[i] = i
	}
	return out
}

// FromEnd returns them from the last to the first.
func (s *Strand) FromEnd() []int {
	out := make([]int, len(s.Legs))
	for i := range out {
		out[i] = len(out) - 1 - i
	}
	return out
}
