package rule

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// shutBy returns the hand valves in the unit's pipes that the mode shuts.
func shutBy(m graph.Mode, b branch) []*graph.Part {
	to, from := b.Isolators()
	return slices.DeleteFunc(slices.Concat(to, from), func(p *graph.Part) bool { return m.Opening(p) != 0 })
}

// ShutInLine returns the hand valves that stand shut in a mode in the line of a unit, where the water that
// passes its bypass comes too.
func ShutInLine(m graph.Mode, b *stream.UnitBranch) []*graph.Part {
	var out []*graph.Part
	for _, p := range b.Line.Parts {
		if p.Kind.IsHandValve() && m.Opening(p) == 0 && !slices.Contains(b.BypassParts, p) {
			out = append(out, p)
		}
	}
	return out
}

// shutInAll reports that a unit is shut off by hand in every mode in which its pump runs.
func shutInAll(in *Input, b branch, report Report) {
	var modes []graph.Mode
	for i := range in.Solutions {
		s := &in.Solutions[i]
		if s.Part(b.Unit.ID) != nil && b.FedIn(s.Mode) {
			modes = append(modes, s.Mode)
		}
	}
	var shut []*graph.Part // each once
	for _, m := range modes {
		by := shutBy(m, b)
		if len(by) == 0 {
			return
		}
		for _, p := range by {
			if !slices.Contains(shut, p) {
				shut = append(shut, p)
			}
		}
	}
	if len(shut) == 0 {
		return
	}
	// one or the other: no valve is shut in all of them
	one := !slices.ContainsFunc(shut, func(p *graph.Part) bool {
		return !slices.ContainsFunc(modes, func(m graph.Mode) bool { return m.Opening(p) != 0 })
	})
	pos := key(shut[0], "position")
	if _, said := modes[0].Positions[shut[0].ID]; said {
		pos = or(modes[0].Pos, pos)
	}
	report(b.Unit.Existing && !slices.ContainsFunc(shut, (*graph.Part).New), graph.Diagnostic{
		Pos: pos, Severity: graph.Error, Unit: b.Unit.ID, Related: []graph.Related{here(b.Unit)},
		Message: graph.Say("%s shut in %d of %d modes in which %s runs: %q gets no water", stand(shut, one), len(modes), len(modes), feedOf(b), b.Unit.ID),
		Hint:    openAgain(modes, shut),
	})
}

// feedOf names what feeds a unit: its pump, or of several one of them.
func feedOf(b branch) quantity.Text {
	if len(b.Beside) == 0 {
		return graph.Say("pump %q", b.Pump.ID)
	}
	return graph.Say("one of the pumps %s", partNames(b.Feeds()))
}

// stand begins to say how some valves stand: one by its kind, of several all, or one or the other in each mode.
func stand(valves []*graph.Part, one bool) quantity.Text {
	switch {
	case len(valves) == 1:
		return graph.Say("%s %q stands", valves[0].Kind, valves[0].ID)
	case one:
		return graph.Say("one or the other of %s stands", partNames(valves))
	}
	return graph.Say("%s stand", partNames(valves))
}

// openAgain says where valves that are shut in some modes are written open: on themselves, or in the modes
// that shut them.
func openAgain(modes []graph.Mode, shut []*graph.Part) quantity.Text {
	var steps []string
	if own := slices.DeleteFunc(slices.Clone(shut), func(p *graph.Part) bool {
		return p.Opening() != 0
	}); len(own) > 0 {
		steps = append(steps, fmt.Sprintf("write position = \"open\" on %s", partNames(own)))
	}
	for _, m := range modes {
		var open []string
		for _, p := range shut {
			if at, said := m.Positions[p.ID]; said && at == 0 {
				open = append(open, fmt.Sprintf("%q = \"open\"", p.ID))
			}
		}
		if len(open) > 0 {
			steps = append(steps, fmt.Sprintf("write positions = { %s } in [[mode]] %q", strings.Join(open, ", "), m.Name))
		}
	}
	return graph.Say("%s; only a [[mode]] that is to shut the unit off says \"shut\" itself", strings.Join(steps, ", and "))
}
