package solid

import (
	"fmt"
	"slices"
	"strings"
)

// Account says what of a layout was held against what, for the papers: whether the new work
// is free of everything described, and what nobody described; room is what it stands in, cut whether
// the work cuts anything old, and called what the papers call a part.
func (s *Bodies) Account(clashes int, room string, cut bool, called func(part string) string) string {
	fresh, old := 0, 0
	var unknown, taken []string // ids of parts
	loose := false
	for i := range s.All {
		b := &s.All[i]
		switch {
		case b.Guess && len(b.Likely) > 0 && !b.New:
			if !slices.Contains(taken, b.Part) {
				taken = append(taken, b.Part)
			}
		case len(b.Likely) == 0:
			if b.Part != "" && !b.New && !slices.Contains(unknown, b.Part) {
				unknown = append(unknown, b.Part)
			}
		case b.New:
			fresh++
		default:
			old++
		}
		loose = loose || strings.HasPrefix(string(b.Assumed), "the way of the hose")
	}
	bodies, were, against := fmt.Sprintf("%d bodies", fresh), "were", ""
	if fresh == 1 {
		bodies, were = "1 body", "was"
	}
	if old > 0 {
		against = fmt.Sprintf(" and against %d of the old work", old)
	}
	text := fmt.Sprintf("%s of the new work (pipe, fittings, valves with their nuts) %s held against each other%s: ", bodies, were, against)
	if clashes == 0 {
		text += "it is free of everything described."
	} else {
		text += fmt.Sprintf("all but the %d named among the findings are free of everything described.", clashes)
	}
	if len(taken) > 0 {
		text += " Nobody measured " + list(taken, room, called) + ": as large as their kind usually is they were held against it too."
	}
	text += " Nobody described the rest"
	if !s.walled {
		unknown = append(unknown, "")
	}
	if len(unknown) > 0 {
		text += " (such as " + list(unknown, room, called) + ")"
	}
	if cut {
		text += ": look before you cut."
	} else {
		text += ": look before you begin."
	}
	if loose {
		text += " Hose gives way and was not held against anything for certain."
	}
	return text
}

// list names parts, six at most; "" is the room they stand in.
func list(parts []string, room string, called func(part string) string) string {
	var out []string
	for _, id := range parts {
		if id == "" {
			out = append(out, room)
			continue
		}
		out = append(out, called(id))
	}
	if len(out) > 6 {
		out = append(out[:6:6], fmt.Sprintf("%d more", len(out)-6))
	}
	return strings.Join(out, ", ")
}
