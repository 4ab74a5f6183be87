package rule

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// waterLevelAgrees holds the depths below the water that the description gives of several parts
// against each other.
var waterLevelAgrees = &Rule{
	Name:     "water-level-agrees",
	Asks:     "Where two parts say how far below the water they lie, the legs between them say the same.",
	Why:      "One of the two is a slip of the tape or the pen, and every pressure, the pump's suction, the unit's drain and its air hang on which.",
	Source:   "follows from the description; how far readings of one water line may lie apart is judgement",
	Severity: graph.Warning,
	Needs:    NeedsLayout,
	Anywhere: true,
	Check:    depthsAgree,
}

// How far apart two depths may come out, mm: by legs alone (two readings of water that moves, and
// the tape along the legs), and past parts whose ports no measure ties together, a pump or a
// filter among them, which count as they are drawn. Judgement, no source.
const (
	depthsApartMM      = 100
	depthsLooseApartMM = 300
)

func depthsAgree(in *Input, report Report) {
	v := in.ask()
	for _, p := range v.c.Parts {
		a, ok := v.levels.Apart(p)
		if !ok {
			continue
		}
		most := float64(depthsLooseApartMM)
		if a.Tied {
			most = depthsApartMM
		}
		off := math.Abs(a.LegsMM - p.BelowWaterMM)
		if off <= most {
			continue
		}
		d := graph.Diagnostic{
			Pos: key(p, "below-water"), Severity: graph.Warning,
			Related: []graph.Related{{Pos: key(a.From, "below-water"), Message: graph.Say("%q is said to lie %s", a.From.ID, v.depth(a.From.BelowWaterMM))}},
			Message: graph.Say("%q is said to lie %s; by the legs from %q it lies %s: they are %s apart and may be %s", p.ID, v.depth(p.BelowWaterMM), a.From.ID, v.depth(a.LegsMM), v.length(off), v.length(most)),
			Hint:    graph.Say("measure both from the water line, and the legs between them; where the legs hold, take below-water out of %q, or write below-water = \"%s\"", p.ID, quantity.Length.Of(math.Round(a.LegsMM))),
		}
		report(p.Existing && a.From.Existing, d)
	}
}

// depth words how far something lies below the water line, mm, or above it.
func (v *view) depth(mm float64) quantity.Text {
	if mm < 0 {
		return graph.Say("%s above the water", v.length(-mm))
	}
	return graph.Say("%s below the water", v.length(mm))
}
