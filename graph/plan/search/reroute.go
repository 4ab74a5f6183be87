package search

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// How many other pairs of pipes to the unit are looked for where the best pair runs into something
// or can't be put together: at a place, and in all the changes that are tried to make places
// possible; in a circuit of more than a hundred runs as many fewer. Each is the circuit laid out
// once more. Judgement, no source.
const (
	mostPairs  = 4
	pairsOfAll = 48
)

// reroute looks for other pipes to the unit where those that were found can't be had: what
// hangs on them, a drain or a bleed, runs into something, or nobody can put it together. The
// finder keeps the pipes themselves clear; this is for the rest. Where no other pair does
// either the first stays, and where a change may look for none any more: it is then not said to do.
func (t *trial) reroute(again func() (*retrofit.Proposal, []graph.Diagnostic)) {
	if t.proposal == nil || !t.proposal.Led() {
		return
	}
	first, built, found := t.proposal, t.built, t.proposal.Found()
	for n := 0; ; n++ {
		t.stage = t.after()
		t.stage.Lay()
		to, from := t.atFault()
		if !to && !from {
			t.proposal.Keep(t.proposal.Found())
			return
		}
		if n == mostPairs || !t.mayLookOn() {
			break
		}
		t.proposal.Refuse(to, from)
		if t.proposal, t.built = again(); t.proposal == nil || !t.proposal.Led() {
			break
		}
	}
	first.Keep(found)
	t.proposal, t.built = first, built
	t.stage = nil
}

// mayLookOn reports whether one more pair may be looked for, and counts it.
func (t *trial) mayLookOn() bool {
	switch {
	case t.others == nil:
	case *t.others >= pairsOfAll*100/max(100, len(t.proposal.Circuit.Runs)):
		return false
	default:
		*t.others++
	}
	return true
}

// atFault tells which of the two pipes, with what stands in it and hangs on it, is in a sure
// clash, or stands in the way when the work is put together; or runs into the other as both are
// taken to be, for what is chosen here is not to hang on a measurement.
func (t *trial) atFault() (to, from bool) {
	s := t.stage
	var bodies []int
	switch {
	case graph.HasErrors(s.Clashes):
		bodies = s.Bodies.Trouble()
	case len(s.Blocked) > 0:
		for _, b := range s.Bodies.Replay() {
			bodies = append(bodies, b.Moving, b.Stand)
		}
	case len(s.Clashes) > 0:
		for _, c := range s.Bodies.Clashes() {
			if t.inStrand(0, c.A) && t.inStrand(1, c.B) || t.inStrand(1, c.A) && t.inStrand(0, c.B) {
				bodies = append(bodies, c.A, c.B)
			}
		}
	}
	for n := 0; n+1 < len(bodies) && !to && !from; n += 2 {
		for _, i := range bodies[n : n+2] {
			to, from = to || t.inStrand(0, i), from || t.inStrand(1, i)
		}
	}
	return to, from
}

// inStrand reports whether a body belongs to one of the two pipes; -1 is a wall.
func (t *trial) inStrand(strand, body int) bool {
	if body < 0 {
		return false
	}
	b := &t.stage.Bodies.All[body]
	ids := t.proposal.Strands[strand]
	return b.New && (slices.Contains(ids, b.Part) || slices.Contains(ids, b.Run))
}
