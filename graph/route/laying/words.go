package laying

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// mm is a length of a finding, to a tenth of a mm.
func mm(v float64) quantity.Amount { return quantity.Closely(v) }

// degrees writes an angle for a finding, to a tenth of a degree.
func degrees(v float64) string { return quantity.Trim(math.Round(v*10)/10) + "°" }

// legPos is where the description speaks of a leg (from 1), else of its run.
func legPos(r *graph.Run, leg int) graph.Pos {
	if leg >= 1 && leg <= len(r.Legs) && r.Legs[leg-1].Pos.IsValid() {
		return r.Legs[leg-1].Pos
	}
	return r.Pos
}
