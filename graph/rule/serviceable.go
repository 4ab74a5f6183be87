package rule

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/stream"
)

// CheckIsolated reports whether hand valves stand on both sides of a check in the bypass, so
// that it can be opened with the tub full.
func CheckIsolated(b *stream.UnitBranch, check *graph.Part) bool {
	at := slices.Index(b.BypassParts, check)
	if at < 0 {
		return false
	}
	byHand := func(p *graph.Part) bool { return p.Kind.IsHandValve() }
	return slices.ContainsFunc(b.BypassParts[:at], byHand) && slices.ContainsFunc(b.BypassParts[at+1:], byHand)
}

// oneSide is a hand valve that stands in the bypass on one side of the check, where none does on the other,
// and which other side that is, "before" or "after"; nil where that is not so.
func oneSide(b *stream.UnitBranch, check *graph.Part) (valve *graph.Part, other string) {
	at := slices.Index(b.BypassParts, check)
	if at < 0 || CheckIsolated(b, check) {
		return nil, ""
	}
	for i, p := range b.BypassParts {
		switch {
		case !p.Kind.IsHandValve():
		case i < at:
			return p, "after"
		default:
			return p, "before"
		}
	}
	return nil, ""
}
