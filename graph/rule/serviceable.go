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
