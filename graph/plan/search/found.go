package search

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// Found is what the search for a place came to.
type Found struct {
	Proposal *retrofit.Proposal // to be built in; nil where no place can take the unit
	Stage    *stage.Stage       // with it built in, laid out and mostly solved
	Mends    []quantity.Text    // what would make the place possible, where it was asked for and is ruled out
	Against  []graph.Diagnostic // errors that rule the chosen place out
	Findings []graph.Diagnostic // of building it, or why there is none
	Places   []Verdict          // every place, ranked; nil where not asked for
}

// For finds where the unit goes and with what bypass: at the place the description names,
// whatever the rules say of it, or at the best of all. The stage before the work must be laid
// out; it is solved where that is needed. With places every one is told. A swift search tries no
// changes that would make a place possible.
func For(c *graph.Circuit, before *stage.Stage, places, swift bool, tell graph.Tell) Found {
	s := newSearch(c, before)
	s.tell = tell
	if swift {
		s.tries = triesOfAll
	}
	if cut := c.Retrofit.Cut; cut != nil {
		s.forced(*cut)
	} else {
		s.beside()
		s.places()
	}
	s.rank()
	s.preferParallel()
	best := s.chosen()
	var out Found
	if places {
		out.Places = s.verdicts()
	}
	if t := s.starved(best); t != nil {
		out.Findings = append(out.Findings, s.compare(t)...)
	}
	if best == nil {
		out.Findings = append(out.Findings, s.none())
		out.Findings = append(out.Findings, s.refused...)
		return out
	}
	out.Findings = append(out.Findings, best.built...)
	out.Proposal, out.Stage = best.proposal, best.stage
	out.Against = graph.SortDiagnostics(best.errors())
	if best.standing() > 0 {
		out.Mends = s.mend(best)
	}
	return out
}

// none says that no place can take the unit, with why not the one that comes nearest, as the
// places are ranked, and what would make it possible.
func (s *search) none() graph.Diagnostic {
	pos := s.asked.Retrofit.Pos
	if s.asked.Retrofit.Cut != nil {
		pos = s.asked.Retrofit.Cut.Pos
	}
	d := graph.Diagnostic{Pos: pos, Rule: "retrofit", Severity: graph.Error,
		Message: graph.Say("no place for the cut: of %d looked at none can take the unit", len(s.trials)),
		Hint:    "cutin lists every place with its reasons",
	}
	if s.newLine() {
		d.Hint += "; new pipe that the description draws is none of them: once something is taken out and its pipe made good, describe the line as it then is, existing = true"
	}
	if len(s.trials) == 0 {
		return d
	}
	v := s.verdict(s.trials[0])
	if len(v.Reasons) > 0 {
		d.Message += graph.Say("; nearest is %s: %s", v.Place.Where(), v.Reasons[0].Text)
		if v.Reasons[0].Pos.IsValid() {
			d.Related = append(d.Related, graph.Related{Pos: v.Reasons[0].Pos, Message: "it is described here"})
		}
	}
	switch {
	case len(v.Mend) == 0:
	case v.Verdict == "measure first":
		d.Hint = quantity.Join(v.Mend, "; or ")
	default:
		d.Hint = "that one would do with " + quantity.Join(v.Mend, "; or with ")
	}
	return d
}

// newLine reports whether the description takes old work out and draws pipe in its place: what
// is there before the work is then not what the unit will find.
func (s *search) newLine() bool {
	gone, drawn := false, false
	for _, r := range s.asked.Runs {
		gone = gone || r.Existing && r.Removed
		drawn = drawn || r.New() && len(r.Legs) > 0
	}
	return gone && drawn
}
