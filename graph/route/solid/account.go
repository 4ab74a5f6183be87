package solid

import (
	"fmt"
	"slices"
	"strings"
)

// Account says what of a layout was held against what, for the papers: whether the new work
// is free of everything described, and what nobody described; called is what the papers call a
// part.
func (s *Bodies) Account(clashes int, called func(part string) string) string {
	fresh, old := 0, 0
	var unknown []string
	loose := false
	for i := range s.All {
		b := &s.All[i]
		switch {
		case len(b.Likely) == 0 || b.Sockets:
			if b.Part != "" && !b.New && !slices.Contains(unknown, b.Part) {
				unknown = append(unknown, b.Part)
			}
		case b.New:
			fresh++
		default:
			old++
		}
		loose = loose || strings.HasPrefix(b.Assumed, "the way of the hose")
	}
	text := fmt.Sprintf("%d bodies of the new work (pipe, fittings, valves with their nuts) were held against each other and against %d of the old work: ", fresh, old)
	if clashes == 0 {
		text += "it is free of everything described."
	} else {
		text += fmt.Sprintf("all but the %d named among the findings are free of everything described.", clashes)
	}
	text += " Nobody described the rest"
	var rest []string
	for _, id := range unknown {
		rest = append(rest, called(id))
	}
	if !s.walled {
		rest = append(rest, "the cabinet")
	}
	if len(rest) > 6 {
		rest = append(rest[:6:6], fmt.Sprintf("%d more", len(rest)-6))
	}
	if len(rest) > 0 {
		text += " (such as " + strings.Join(rest, ", ") + ")"
	}
	text += ": look before you cut."
	if loose {
		text += " Hose gives way and was not held against anything for certain."
	}
	return text
}
