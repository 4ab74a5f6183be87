package laying

import (
	"dryfit/graph"
	"dryfit/graph/settle"
)

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
