package search

import (
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
		return text + graph.Say(": it lacks %s; see whether what stands at its ends can be set so much further apart, or lead the stretch anew with %s straight; then describe it as it lies",
			s.length(t.place.NeededMM-t.place.RoomMM), s.length(t.place.NeededMM))
	}
	for _, d := range graph.SortDiagnostics(t.errors()) {
		switch {
		case (d.Rule == leastFlowRule || d.Rule == mostFlowRule || d.Rule == dirtyRule) && s.instead != "":
			return text + "; of what was compared, " + s.instead
		case d.Hint != "":
			return text + "; " + d.Hint
		}
	}
	return text + "; decide whether the unit can stand elsewhere, or cut another pipe"
}
