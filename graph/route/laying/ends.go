package laying

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/settle"
)

// judgeBarbs finds barbs of the new work that no hose goes over.
func (l *work) judgeBarbs() {
	for _, p := range l.c.Parts {
		if p.Kind != graph.Barb || p.Existing {
			continue
		}
		hose, known := false, true
		for _, r := range partRuns(l.c, p) {
			hose, known = hose || r.Spec.IsHose(), known && r.Spec != ""
		}
		if !hose && known {
			l.find(p.Pos, graph.Error, graph.Say("barb %q has no hose: 0 of its runs are hose, needs 1", p.ID), "write spec = \"hose\" on the run that goes over it, or use another fitting")
		}
	}
}

// judgeDirect finds two ends joined without pipe between them that don't fit each other: a
// thread in a socket, two sockets, two spigots.
func (l *work) judgeDirect(i int) {
	r, ln := l.c.Runs[i], &l.lines[i]
	a, b := ln.from.stock.Ends, ln.to.stock.Ends
	if ln.from.part == nil || ln.to.part == nil || a == "" || b == "" {
		return
	}
	name := fmt.Sprintf("%s is a %s and %s a %s", r.From, a, r.To, b)
	thread := func(e string) bool { return e == "thread" }
	glued := func(e string) bool { return e == "socket" || e == "union" }
	switch {
	case thread(a) != thread(b) && (glued(a) || glued(b) || a == "spigot" || b == "spigot"):
		l.find(r.Pos, graph.Error, graph.Say("%s: they can't be joined directly", name),
			"write the leg between them: an adaptor from thread to socket then stands there, with the pipe it goes on")
	case glued(a) && glued(b):
		need := ln.from.depth + ln.to.depth
		l.find(r.Pos, graph.Error, graph.Say("%s: they can't be joined without pipe, which takes %s into both", name, mm(need)),
			graph.Say("write the leg from stop to stop, at least %s with room for the cement", mm(need+settle.BeadMM)))
	case a == "spigot" && b == "spigot":
		l.find(r.Pos, graph.Error, graph.Say("%s: they can't be joined directly", name), "put a coupling between them, and write the legs to it")
	case (a == "barb") != (b == "barb"):
		l.find(r.Pos, graph.Error, graph.Say("%s: a barb takes hose and nothing else", name), "write the hose between them as a run of spec = \"hose\"")
	}
}

// usualClips is how many clips hold a hose on a barb where its row does not say. Common
// practice, no source.
const usualClips = 2

// clips is how many hose clips the pipe of a station takes: none but on a barb.
func (s *station) clips() int {
	if s.joint != "barb" {
		return 0
	}
	row := s.stock.Row
	if n := len(s.chain); n > 0 {
		row = &s.chain[n-1].Row
	}
	if row != nil && row.Clips > 0 {
		return int(row.Clips)
	}
	return usualClips
}

// partRuns returns the runs at a part, in the order of the circuit.
func partRuns(c *graph.Circuit, p *graph.Part) []*graph.Run {
	var out []*graph.Run
	for _, r := range c.Runs {
		if r.From.Part == p.ID || r.To.Part == p.ID {
			out = append(out, r)
		}
	}
	return out
}

// judgeKept finds ends of a new run at which an old adaptor is to stay and there is none, and
// says what has to be done for new pipe to go into one.
func (l *work) judgeKept(i int) {
	r, ln := l.c.Runs[i], &l.lines[i]
	for _, ref := range r.AdaptorsKept {
		s := &ln.from
		if ref.Same(r.To) {
			s = &ln.to
		}
		hose := r.Spec.IsHose()
		switch {
		case s.part == nil || !s.kept:
		case len(s.chain) == 0 && !hose && !isAdaptor(s.part.Kind):
			l.find(ref.Pos, graph.Error, graph.Say("there is no old adaptor at %s to keep: %s %s goes straight into %s", ref, r.Spec, r.Size, s.part.ID),
				"leave the port out of adaptors-kept; where there is one, say what the port is: its size, and a row whose ends are a thread")
		case hose:
			l.find(ref.Pos, graph.Note, graph.Say("the old barb at %s is kept: the old hose is pulled off it and the new one pushed on, with new clips", ref),
				"slit a hose that won't come off along the barb, and leave the barb unscored; look it over for cracks")
		default:
			l.find(ref.Pos, graph.Warning, graph.Say("%s is kept, and old pipe is glued into it: %s of its socket have to be cleared of it before new pipe goes in", s.words, mm(s.depth)),
				"saw the old pipe off at its face, ream the socket out and try the new pipe dry; where it won't clear or is scored, leave adaptors-kept out")
		}
	}
}

// isAdaptor reports whether a part is an adaptor itself.
func isAdaptor(k graph.Kind) bool {
	switch k {
	case graph.Union, graph.Coupling, graph.SlipCoupling:
		return true
	}
	return settle.TwoSizes(k)
}
