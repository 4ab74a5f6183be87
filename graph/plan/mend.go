package plan

import (
	"fmt"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit"
)

// mend says what would make a ruled-out place possible, from its own numbers.
func (s *search) mend(t *trial) []string {
	var out []string
	if t.place.TooShort() {
		short := t.place.NeededMM - t.place.RoomMM
		out = append(out, "another "+s.length(math.Ceil(short)))
		if onlyRoom(t.errors()) {
			out = append(out, s.shorter(t, short)...)
			out = append(out, s.hose(short))
		}
	}
	for _, d := range t.errors() {
		if d.Hint != "" && d.Rule != "cut-room" && !slices.Contains(out, d.Hint) && len(out) < mostMends {
			out = append(out, d.Hint)
		}
	}
	return out
}

// onlyRoom reports whether nothing but room is missing.
func onlyRoom(ds []graph.Diagnostic) bool {
	return !slices.ContainsFunc(ds, func(d graph.Diagnostic) bool { return d.Rule != "cut-room" })
}

// mostMends keeps the list readable.
const mostMends = 4

// shorter lists what would take less room: the other bypass element, and what is said of
// each by how much.
func (s *search) shorter(t *trial, short float64) []string {
	var out []string
	for _, alt := range retrofit.Shorter(s.asked, s.before.Layout, t.place, s.first) {
		text := fmt.Sprintf("%s, %s shorter", alt.What, s.length(alt.MM))
		if alt.MM < short {
			text += fmt.Sprintf(": still %s too long", s.length(math.Ceil(short-alt.MM)))
		}
		out = append(out, text)
	}
	return out
}

// hose names the way out that needs no straight pipe.
func (s *search) hose(short float64) string {
	return fmt.Sprintf("use a hose section: take the whole run out and lead flexible pipe round, at least %s longer than the straight", s.length(math.Ceil(short)))
}
