package search

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// Found is what the search for a place came to.
type Found struct {
	Proposal *retrofit.Proposal       // to be built in; nil where no place can take the unit
	Stage    *stage.Stage             // with it built in, laid out and mostly solved
	Mends    []quantity.Text          // what would make the place possible, where it was asked for and is ruled out
	Next     quantity.Text            // what to measure or decide where nothing that was tried does; ""
	NextHint quantity.Text            // the hint of a finding that Next ends in; ""
	Spare    map[string]quantity.Text // by the rule that says that the place takes too much water of something: what would leave it that
	Straight quantity.Text            // what would give the check in the bypass its straight pipe, where it lacks some; ""
	Against  []graph.Diagnostic       // errors that rule the chosen place out
	Findings []graph.Diagnostic       // of building it, or why there is none
	Places   []Verdict                // every place, ranked; nil where not asked for
	Measure  *retrofit.Place          // the nearest, where only a measure of its run can tell whether the work fits; else nil
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
	if t := s.starved(best); t != nil {
		out.Findings = append(out.Findings, s.compare(t)...)
	} else if best != nil && best.standing() > 0 {
		s.compareUnits(best)
	}
	if places {
		out.Places = s.verdicts()
	}
	if best == nil {
		if len(s.trials) > 0 && s.trials[0].place.MeasureFirst {
			out.Measure = &s.trials[0].place
		}
		out.Findings = append(out.Findings, s.none())
		out.Findings = append(out.Findings, s.refused...)
		return out
	}
	out.Findings = append(out.Findings, best.built...)
	out.Proposal, out.Stage = best.proposal, best.stage
	out.Against = graph.SortDiagnostics(best.errors())
	if best.standing() > 0 {
		out.Mends = s.mend(best)
		out.Next, out.NextHint = s.next(best, out.Mends)
	}
	out.Spare, out.Straight = s.spare(best), s.straighter(best)
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
	if r := s.notSaidToExist(); r != nil {
		d.Hint = graph.Say("%q joins two parts that are there already, and does not say so itself: without existing = true it is new pipe, and new pipe is not cut", r.Said())
		d.Related = append(d.Related, graph.Related{Pos: r.Pos, Message: "the run is described here"})
		return d
	}
	if len(s.trials) == 0 {
		return d
	}
	v := s.verdict(s.trials[0])
	if len(v.Reasons) > 0 {
		d.Message += graph.Say("; nearest is %s: %s", v.Place.Where(), v.Reasons[0].Text) + alsoAgainst(s.trials[0], v.Reasons[0].Text)
		d.Of = v.Reasons[0].Of
		switch stand := s.asked.Retrofit.Stand; {
		case !v.Reasons[0].Pos.IsValid():
		case stand != nil && v.Reasons[0].Pos == stand.Pos: // it is where the unit stands, not where the line is cut
			d.Pos = stand.Pos
		default:
			d.Related = append(d.Related, graph.Related{Pos: v.Reasons[0].Pos, Message: "it is described here"})
		}
	}
	switch {
	case v.Verdict == "measure first":
		d.Hint = quantity.Join(v.Mend, "; or ")
	case len(v.Mend) > 0:
		d.Hint = "that one would do so: " + quantity.Join(v.Mend, "; or so: ")
	case v.Next != "":
		d.Hint = v.Next + s.another()
	}
	return d
}

// mostAgainst is how many errors of the nearest place are told behind the first. Judgement, no source.
const mostAgainst = 2

// alsoAgainst is what else is wrong at a place: what would help against the first of it alone does not
// help it.
func alsoAgainst(t *trial, first quantity.Text) (out quantity.Text) {
	more := 0
	for _, e := range t.errors() {
		switch {
		case e.Message == first:
		case more < mostAgainst:
			out += "; and: " + e.Message
			more++
		default:
			more++
		}
	}
	if more > mostAgainst {
		out += graph.Say("; and %d more, which cutin lists", more-mostAgainst)
	}
	return out
}

// nextPlaces is how many places behind the nearest are asked what would make one of them
// possible. Judgement, no source.
const nextPlaces = 3

// another says what would make one of the next places possible, where nothing helps the nearest.
func (s *search) another() quantity.Text {
	for _, t := range s.trials[1:min(len(s.trials), 1+nextPlaces)] {
		if v := s.verdict(t); v.Verdict == "ruled out" && len(v.Mend) > 0 {
			return graph.Say("; or cut %s, which would do so: ", v.Place.Where()) + v.Mend[0]
		}
	}
	return ""
}

// notSaidToExist is a run of new pipe between two parts that were there before, where nothing that
// is taken out was joined to them: so it is old, and nobody said it. Nil where there is none.
func (s *search) notSaidToExist() *graph.Run {
	was := map[string]bool{} // ports that old pipe ended at
	for _, r := range s.asked.Runs {
		if r.Existing {
			was[r.From.String()], was[r.To.String()] = true, true
		}
	}
	old := func(at graph.PortRef) bool {
		p := s.asked.Part(at.Part)
		return p != nil && p.Existing && !was[at.String()]
	}
	for _, r := range s.asked.Runs {
		if r.New() && old(r.From) && old(r.To) {
			return r
		}
	}
	return nil
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
