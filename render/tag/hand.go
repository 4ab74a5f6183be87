package tag

import (
	"fmt"
	"math"

	"dryfit/graph"
)

// Turned says where a hand valve's handle stands at a share open, in words.
func Turned(k graph.Kind, open float64) string {
	switch {
	case open <= 0:
		return "SHUT"
	case open >= 1:
		return "OPEN"
	case k == graph.GateValve:
		return fmt.Sprintf("OPEN %.0f %% of its turns", 5*max(1, min(math.Round(open*20), 19)))
	}
	return fmt.Sprintf("HANDLE %.0f° from shut", 5*max(1, min(math.Round(open*18), 17)))
}
