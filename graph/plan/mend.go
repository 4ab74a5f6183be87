package plan

import (
	"fmt"
	"math"

	"dryfit/graph/retrofit"
)

// mend says what would make a ruled-out place possible, from its own numbers.
func (s *search) mend(t *trial) []string {
	var out []string
	only := true // nothing but room is missing
	for _, d := range t.bars() {
		switch d.Rule {
		case "cut-room", "routing", "assembly", "retrofit":
		default:
			only = false
		}
	}
	if short := t.place.NeededMM - t.place.RoomMM; short > 0 {
		out = append(out, "another "+s.length(math.Ceil(short)))
		if only {
			out = append(out, s.shorter(t, short)...)
			out = append(out, s.hose(short))
		}
	}
	if t.assembly != nil && !t.assembly.OK && t.hasRoom() {
		for _, d := range t.assembly.Findings {
			if d.Hint != "" {
				out = append(out, d.Hint)
			}
		}
	}
	seen := map[string]bool{}
	for _, d := range t.bars() {
		if d.Hint != "" && !seen[d.Hint] && d.Rule != "assembly" && d.Rule != cutRoom && len(out) < mostMends {
			seen[d.Hint] = true
			out = append(out, d.Hint)
		}
	}
	return out
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
