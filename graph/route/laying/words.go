package laying

import (
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// mm is a length of a finding, to a tenth of a mm.
func mm(v float64) quantity.Amount { return quantity.Length.Finely(v) }

// degrees writes an angle for a finding, to a tenth of a degree.
func degrees(v float64) string { return quantity.Trim(math.Round(v*10)/10) + "°" }

// axisWord is one component of a way, in the words of the description.
type axisWord struct {
	by   float64
	word string
}

func axisWords(v graph.Vec) []axisWord {
	pick := func(by float64, plus, minus string) axisWord {
		if by < 0 {
			return axisWord{-by, minus}
		}
		return axisWord{by, plus}
	}
	return []axisWord{
		pick(v.X, "right", "left"),
		pick(v.Y, "back", "front"),
		pick(v.Z, "up", "down"),
	}
}

// distanceWords writes a vector as "12 mm right, 3 mm up"; components that round to
// nothing are left out.
func distanceWords(v graph.Vec) quantity.Text {
	var out []quantity.Text
	for _, a := range axisWords(v) {
		if math.Round(a.by*10) != 0 {
			out = append(out, graph.Say("%s %s", mm(a.by), a.word))
		}
	}
	if out == nil {
		return graph.Say("%s", mm(0))
	}
	return quantity.Join(out, ", ")
}

// wayWords writes a direction as "right", or "right and up" for a diagonal.
func wayWords(v graph.Vec) string {
	u := v.Unit()
	var out []string
	for _, a := range axisWords(u) {
		if a.by > 0.01 {
			out = append(out, a.word)
		}
	}
	if out == nil {
		return "nowhere"
	}
	return strings.Join(out, " and ")
}

// legPos is where the description speaks of a leg (from 1), else of its run.
func legPos(r *graph.Run, leg int) graph.Pos {
	if leg >= 1 && leg <= len(r.Legs) && r.Legs[leg-1].Pos.IsValid() {
		return r.Legs[leg-1].Pos
	}
	return r.Pos
}
