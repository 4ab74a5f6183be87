package tag

import (
	"strings"

	"dryfit/graph"
)

// Position is a hand valve's normal position, in the words of its label: "open", "shut", "35° from shut", or
// "throttled" where its setting is known by what it passes.
func Position(p *graph.Part) string {
	pos := p.Opening()
	switch {
	case p.ByKv():
		return "throttled"
	case pos <= 0:
		return "shut"
	case pos >= 1:
		return "open"
	}
	return strings.TrimPrefix(strings.ToLower(Turned(p.Kind, float64(pos))), "handle ")
}
