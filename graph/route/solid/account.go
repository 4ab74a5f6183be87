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
	things, with := fmt.Sprintf("%d things", fresh), "each other"
	if old > 0 {
		with += fmt.Sprintf(" and with %d of the old", old)
	}
	if fresh == 1 {
		things, with = "1 thing", fmt.Sprintf("%d of the old", old)
	}
	text := fmt.Sprintf("Room for the new work: %s (pipe, fittings, valves with their nuts) compared with %s: ", things, with)
	if clashes == 0 {
		text += "nothing runs into anything that is described."
	} else {
		text += fmt.Sprintf("all but the %d named among the findings are clear of everything that is described.", clashes)
	}
	if len(taken) > 0 {
		text += " Nobody measured " + list(taken, room, called) + ": taken to be as large as is usual."
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
