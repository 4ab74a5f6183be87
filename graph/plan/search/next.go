package search

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// next says what to measure or to decide where nothing that was tried makes a ruled-out place
// possible; "" for a place that stands wrong in the way of the water, or was not looked at.
func (s *search) next(t *trial, mends []quantity.Text) quantity.Text {
	if len(mends) > 0 || t.place.Leg == 0 || t.place.MeasureFirst || t.unjudged || !t.parallel() && s.barred(t) {
		return ""
	}
	text := quantity.Text("nothing that was tried makes it possible")
	if t.place.TooShort() {
		return text + graph.Say(": it lacks %s; see whether what stands at its ends can be set so much further apart, or lead the stretch anew with %s straight; then describe it as it will lie, existing = true: the pack is of the work from there on",
			s.length(t.place.NeededMM-t.place.RoomMM), s.length(t.place.NeededMM))
	}
	for _, d := range graph.SortDiagnostics(t.errors()) {
		switch {
		case (d.Rule == leastFlowRule || d.Rule == mostFlowRule || d.Rule == dirtyRule) && s.instead != "":
			return text + "; of what was compared, " + s.instead
		case t.followable(d):
			return text + "; " + d.Hint
		}
	}
	return text + "; decide whether the unit can stand elsewhere, or cut another pipe"
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
