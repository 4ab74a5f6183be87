package rule

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// waterLevelAgrees holds the depths below the water that the description gives of several parts
// against each other, and against where the tub's openings then lie.
var waterLevelAgrees = &Rule{
	Name:     "water-level-agrees",
	Asks:     "Where two parts say how far below the water they lie, the legs between them say the same; no opening that a pump draws from comes out above the water, nor a skimmer deep below it.",
	Why:      "One of the measures is a slip of the tape or the pen, and every pressure, the pump's suction, the unit's drain and its air hang on which.",
	Source:   "follows from the description; how far readings of one water line may lie apart, and how deep a skimmer is, is judgement",
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

// skimmerDeepMM is how far below the water the pipe leaves a skimmer at most, mm: its throat is at
// the water, and its body with basket or cartridge hangs from there. Common practice, no source.
const skimmerDeepMM = 700

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
	v.openingsAgree(report)
}

// openingsAgree warns where the depth given of a part leads to an opening of the tub that a pump
// draws from and that stands above the water, or to a skimmer far below it: of each such part
// once, by the opening that is off by most.
func (v *view) openingsAgree(report Report) {
	type slip struct {
		ref graph.PortRef
		a   route.Apart
		off float64
	}
	worst := map[*graph.Part]slip{}
	for _, pump := range v.c.OfKind(graph.Pump) {
		for _, r := range v.net.Suction(pump).Runs {
			for _, ref := range []graph.PortRef{r.From, r.To} {
				tub := v.c.Part(ref.Part)
				if tub == nil || tub.Kind != graph.Tub {
					continue
				}
				a, ok := v.levels.Opening(ref)
				if off := openingOff(tub.Port(ref.Port), a); ok && off > worst[a.From].off {
					worst[a.From] = slip{ref, a, off}
				}
			}
		}
	}
	for _, p := range v.c.Parts {
		s, ok := worst[p]
		if !ok {
			continue
		}
		rule, tub := quantity.Text("water is drawn from no opening above it"), v.c.Part(s.ref.Part)
		if s.a.LegsMM > 0 {
			rule = graph.Say("a skimmer's pipe leaves it %s below at most", v.length(skimmerDeepMM))
		}
		d := graph.Diagnostic{
			Pos: key(p, "below-water"), Severity: graph.Warning, Related: []graph.Related{here(tub)},
			Message: graph.Say("%q is said to lie %s; by the legs from there %q would lie %s: %s", p.ID, v.depth(p.BelowWaterMM), s.ref.String(), v.depth(s.a.LegsMM), rule),
			Hint:    graph.Say("measure again from the water line to %q, and the legs up to the opening", p.ID),
		}
		turned := s.a
		if turned.LegsMM -= 2 * p.BelowWaterMM; openingOff(tub.Port(s.ref.Port), turned) == 0 {
			d.Hint += graph.Say("; below the water it is written without a minus, above it with one: below-water = \"%s\" would fit", quantity.Length.Of(-p.BelowWaterMM))
		}
		report(false, d)
	}
}

// openingOff is by how much an opening that water is drawn from stands too high over the water or,
// of a skimmer, too deep below it, mm; 0 where it may lie there.
func openingOff(port *graph.Port, a route.Apart) float64 {
	may := float64(depthsLooseApartMM)
	if a.Tied {
		may = depthsApartMM
	}
	switch {
	case a.LegsMM < -may:
		return -a.LegsMM
	case port != nil && port.AtSurface() && a.LegsMM > skimmerDeepMM+may:
		return a.LegsMM - skimmerDeepMM
	}
	return 0
}

// depth words how far something lies below the water line, mm, or above it.
func (v *view) depth(mm float64) quantity.Text {
	if mm < 0 {
		return graph.Say("%s above the water", v.length(-mm))
	}
	return graph.Say("%s below the water", v.length(mm))
}
