package rule

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
	"dryfit/graph/stream"
)

// enoughShare is the share of its flow the line keeps at the least while the unit is shut
// off, where no part of it asks for more. Common practice, no source.
const enoughShare = 0.5

// WantedPastUnit is what a unit's line wants while the unit is shut off, m³/s: what its parts
// ask for, else half of what flows with the unit open; 0 where neither is known.
func WantedPastUnit(set *settle.Stage, b *stream.UnitBranch, open *hydraulic.Solution) float64 {
	least := 0.0
	for _, p := range b.Line.Parts {
		least = max(least, LeastFlow(set.Part(p.ID)))
	}
	if least == 0 && open != nil {
		_, flow := LineFlow(set.Net(), open, b)
		least = enoughShare * flow
	}
	return least
}

// LineFlow returns the pump that gives a unit's line most in a solution, of those that feed it, and what all of
// them give it, m³/s: side by side their sum, less what goes back through one that stands; of pumps in series what
// passes the first or the last, whichever is more, for the last may draw beside the first, and be passed by. nil where
// none is in it.
func LineFlow(net *stream.Net, s *hydraulic.Solution, b *stream.UnitBranch) (pump *graph.Part, flow float64) {
	most, first, last, feeds := 0.0, 0.0, 0.0, b.Feeds()
	leads := func(a, b *graph.Part) bool { return a != b && net.Downstream(a).HasPart(b.ID) }
	for _, p := range feeds {
		f := s.Part(p.ID)
		if f == nil {
			continue
		}
		if pump == nil || f.Flow > most {
			pump, most = p, f.Flow
		}
		if !slices.ContainsFunc(feeds, func(q *graph.Part) bool { return leads(q, p) }) {
			first += f.Flow
		}
		if !slices.ContainsFunc(feeds, func(q *graph.Part) bool { return leads(p, q) }) {
			last += f.Flow
		}
	}
	return pump, max(0, first, last)
}

// PassesCheck reports whether the water of a bypass can go past a check in it by another way,
// a valve that stands shut in use counted as open.
func PassesCheck(b *stream.UnitBranch, check *graph.Part) bool {
	return b.TeeIn != nil && passes(b, b.TeeIn.ID, map[string]bool{check.ID: true})
}

// BesideCheck reports whether a part of a bypass lies on a way past a check in it.
func BesideCheck(b *stream.UnitBranch, part, check *graph.Part) bool {
	return part != check && b.TeeIn != nil && PassesCheck(b, check) &&
		!passes(b, b.TeeIn.ID, map[string]bool{check.ID: true, part.ID: true})
}

// passes reports whether the runs of a bypass lead from a part to the second tee by parts that
// are not in seen.
func passes(b *stream.UnitBranch, from string, seen map[string]bool) bool {
	if from == b.TeeOut.ID {
		return true
	}
	seen[from] = true
	for _, r := range b.BypassRuns {
		next := ""
		switch from {
		case r.From.Part:
			next = r.To.Part
		case r.To.Part:
			next = r.From.Part
		}
		if next != "" && !seen[next] && passes(b, next, seen) {
			return true
		}
	}
	return false
}

// besideHint says what lets the water past a check while the unit is shut off, and in work that is
// planned by the request how to ask for it.
func besideHint(in *Input, check *graph.Part) quantity.Text {
	hint := graph.Say("a valve in parallel to %q, shut in use and open while the unit is shut off", check.ID)
	if in.Cut != nil && check.New() {
		hint += " (service-valve = true in [retrofit])"
	}
	return hint
}
