package solid

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// Body is one thing that takes up room: a piece of pipe, a fitting, a part, a union's tail.
type Body struct {
	ID    string // as route.Joint.BodyA names it: "piece 3", "part v1"; of old work "old part pump", "old run-id/2"
	Name  string // in words
	New   bool
	Part  string // id of the part it is or belongs to; ""
	Run   string // id of the run it is or belongs to; ""
	Leg   int    // of Run, from 1; 0: none
	Pos   graph.Pos
	Group int // places of one group are tied to each other by legs; -1: by guess

	// Core is what is certainly there: pipe of a standard, and in a fitting at least its pipe's
	// outside; empty where nothing is certain (hose, equipment nobody measured). Likely is all
	// of it, with sizes that may be assumed; Assumed says which, in words, "" for none.
	Core, Likely []Shape
	Assumed      quantity.Text
	Guess        bool // equipment of which nobody gave the size: it is taken to be as large as its kind usually is
	within       bool // a flush bush: it stands in the socket of what it is joined to
}

// Bodies is everything of a layout that has a place, and what is joined to what.
type Bodies struct {
	All    []Body
	next   [][]int
	index  map[string]int
	lay    *route.Layout
	short  []int // pieces too short for their two sockets, which is told of themselves
	walled bool  // the cabinet is described
}

// Of returns the bodies of a layout: every piece, fitting and part whose place follows from
// legs, old work too. A tub is none unless the description gives its box: nobody says how
// its shell runs.
func Of(lay *route.Layout) *Bodies {
	b := &builder{lay: lay, out: &Bodies{index: map[string]int{}, lay: lay, walled: lay.Circuit.Cabinet != nil}}
	for _, p := range lay.Circuit.Parts {
		b.part(p)
	}
	for i := range lay.Paths {
		b.path(i)
	}
	for _, j := range lay.Joints {
		b.out.join(b.out.Index(j.BodyA), b.out.Index(j.BodyB))
	}
	return b.out
}

// Index returns the index of the body with an ID in All; -1 where there is none.
func (s *Bodies) Index(id string) int {
	if i, ok := s.index[id]; ok {
		return i
	}
	return -1
}

// Joined reports whether two bodies are joined: one goes into the other, or both go into
// one fitting or onto one piece, which keeps them apart. What goes into a bush that stands in
// another goes into the socket of the first.
func (s *Bodies) Joined(i, j int) bool {
	if i == j || s.All[i].Part != "" && s.All[i].Part == s.All[j].Part {
		return true
	}
	for _, k := range s.next[i] {
		if k == j {
			return true
		}
		for _, m := range s.next[k] {
			if m == j && !s.All[k].wide() {
				return true
			}
		}
	}
	return s.byBushes(i, -1, j)
}

// behindPipe reports whether two bodies go onto one pipe of which one is equipment of a given
// size: its case may reach past the end of the pipe, and then the pipe keeps nothing apart.
func (s *Bodies) behindPipe(i, j int) bool {
	a, b := &s.All[i], &s.All[j]
	if a.wide() == b.wide() || a.Guess || b.Guess || slices.Contains(s.next[i], j) {
		return false
	}
	return slices.ContainsFunc(s.next[i], func(k int) bool {
		return s.All[k].Part == "" && slices.Contains(s.next[k], j)
	})
}

// byShort reports whether two bodies stand at the ends of a piece that is too short for them, or next to
// what stands there: longer, as is asked for it, it keeps them apart.
func (s *Bodies) byShort(i, j int) bool {
	return slices.ContainsFunc(s.short, func(piece int) bool { return s.nearEnd(piece, i) && s.nearEnd(piece, j) })
}

// nearEnd reports whether a body stands at an end of a piece, or is joined to what does.
func (s *Bodies) nearEnd(piece, body int) bool {
	return slices.ContainsFunc(s.next[piece], func(end int) bool {
		at := func(k int) bool { return k == end || s.All[k].Part != "" && s.All[k].Part == s.All[end].Part }
		return at(body) || slices.ContainsFunc(s.next[body], at)
	})
}

// byBushes reports whether nothing but bushes, one in another, leads on to a body from one that
// was come to from a third.
func (s *Bodies) byBushes(at, from, to int) bool {
	for _, k := range s.next[at] {
		if k != from && (k == to || s.All[k].within && s.byBushes(k, at, to)) {
			return true
		}
	}
	return false
}

// wide reports whether two pipes at the body can lie apart from each other and meet again:
// equipment, not a fitting.
func (b *Body) wide() bool { return b.Part != "" && len(b.Likely) > 0 && b.Likely[0].form == box }

// add enters a body and returns its index. One without a shape is entered too, so that what
// joins over it is known.
func (s *Bodies) add(b Body) int {
	if i, ok := s.index[b.ID]; ok {
		s.All[i].Core, s.All[i].Likely = append(s.All[i].Core, b.Core...), append(s.All[i].Likely, b.Likely...)
		return i
	}
	i := len(s.All)
	s.index[b.ID] = i
	s.All = append(s.All, b)
	s.next = append(s.next, nil)
	return i
}

// join notes that two bodies are joined; -1 is no body.
func (s *Bodies) join(i, j int) {
	if i < 0 || j < 0 || i == j {
		return
	}
	s.next[i] = append(s.next[i], j)
	s.next[j] = append(s.next[j], i)
}
