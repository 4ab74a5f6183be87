package tag

import (
	"fmt"

	"dryfit/graph"
)

// Position is a hand valve's normal position, in words: "open", "shut", "near 40 % open" (nobody reads a handle closer), or
// "throttled" where its setting is known by what it passes.
func Position(p *graph.Part) string {
	pos := graph.Opening(1)
	if p.Valve != nil && (p.Valve.PositionSet || p.Valve.Position > 0) {
		pos = p.Valve.Position
	}
	if p.Valve != nil && p.Valve.Kv > 0 && !p.Valve.PositionSet {
		return "throttled"
	}
	switch {
	case pos <= 0:
		return "shut"
	case pos >= 1:
		return "open"
	}
	return fmt.Sprintf("near %.0f %% open", float64(pos)*100)
}
