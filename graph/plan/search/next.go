package search

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// next says what to measure or to decide where nothing that was tried makes a ruled-out place
// possible; "" for a place that stands wrong in the way of the water, or was not looked at. hint is what one
// of the findings says of it, "" where none does.
func (s *search) next(t *trial, mends []quantity.Text) (text, hint quantity.Text) {
	if len(mends) > 0 || t.unjudged || !t.parallel() && s.barred(t) {
		return "", ""
	}
	if t.place.Leg == 0 || t.place.MeasureFirst {
		if !t.tooShortAnyhow() {
			return "", ""
		}
		return s.anew(t.place), ""
	}
	text = "nothing that was tried makes it possible"
	if t.place.TooShort() {
		return text + ": " + s.anew(t.place), ""
	}
	for _, d := range graph.SortDiagnostics(t.errors()) {
		switch {
		case (d.Rule == leastFlowRule || d.Rule == mostFlowRule || d.Rule == dirtyRule) && s.instead != "":
			return text + "; of what was compared, " + s.instead, ""
		case t.followable(d):
			return text + "; " + d.Hint, d.Hint
		}
	}
	return text + "; decide whether the unit can stand elsewhere, or cut another pipe", ""
}

// tooShortAnyhow reports whether the place is a run known only by its length that is shorter than the work
// however its length may be off; not of one with no pipe at all.
func (t *trial) tooShortAnyhow() bool {
	return t.place.RoomMM > 0 && t.place.RoomMM < t.place.NeededMM &&
		slices.ContainsFunc(t.errors(), func(d graph.Diagnostic) bool { return d.Rule == "cut-room" })
}

// anew is what is left to do where a stretch is too short for the work.
func (s *search) anew(place retrofit.Place) quantity.Text {
	return graph.Say("it lacks %s; see whether what stands at its ends can be set so much further apart, or lead the stretch anew with %s straight; then describe it as it will lie, existing = true: the pack is of the work from there on",
		s.length(place.NeededMM-place.RoomMM), s.length(place.NeededMM))
}

// followable reports whether what a finding says would help can be done where the file is
// written: it changes no pipe or part the tool put in itself, and, where no pipes lead to the unit, does
// not speak of those that only stand for them.
func (t *trial) followable(d graph.Diagnostic) bool {
	switch {
	case d.Hint == "":
		return false
	case t.proposal == nil:
		return true
	case t.proposal.Unled && (d.Rule == "clash" || d.Rule == "routing" || d.Rule == "assembly"):
		return false
	}
	return !slices.ContainsFunc(d.Alters, func(id string) bool {
		r, p := t.proposal.Circuit.Run(id), t.proposal.Circuit.Part(id)
		return r != nil && r.New() || p != nil && p.New()
	})
}
