package retrofit

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// closed gives the open legs of both pipes the lengths that close the loop: from the first
// tee to the unit, through it and back to the second tee, which lies apart from the first.
// With the place of the unit known each of the pipes is closed by itself; in is its inlet from
// the first tee.
func (l *limb) closed(out, back []graph.Leg, apart graph.Vec, in *graph.Vec) (to, from []graph.Leg) {
	if !anyOpen(out) && !anyOpen(back) {
		return out, back
	}
	gap := portGap(l.w.unit)
	if in != nil {
		return l.fill("to-unit", out, *in), l.fill("from-unit", back, apart.Sub(in.Add(gap)))
	}
	both := append(append([]graph.Leg{}, out...), back...)
	both = l.fill("to-unit and from-unit", both, apart.Sub(gap))
	return both[:len(out):len(out)], both[len(out):]
}

func anyOpen(legs []graph.Leg) bool {
	for _, g := range legs {
		if g.Open {
			return true
		}
	}
	return false
}

// fill gives the open legs of a chain their lengths, so that it comes to a way in all. A leg
// that would have no length, or less, keeps 1 mm and is reported.
func (l *limb) fill(what string, legs []graph.Leg, sum graph.Vec) []graph.Leg {
	out := append([]graph.Leg{}, legs...)
	left := sum
	for _, g := range out {
		if !g.Open {
			left = left.Sub(g.By)
		}
	}
	for i, g := range out {
		if !g.Open {
			continue
		}
		mm := left.Dot(g.By)
		if mm < 1 {
			l.find(g.Pos, graph.Error, graph.Say("the open leg %q of %s would have to be %s long for the loop to close", graph.WayWords(g.By)+" ?", what, quantity.Length.Of(mm)),
				graph.Say("make the others reach at least %s less far %s, or turn it round", quantity.Closely(math.Ceil(1-mm)), graph.WayWords(g.By)))
			mm, out[i].Beyond = 1, true
		}
		out[i].By, out[i].Open = g.By.Scale(mm), false
	}
	return out
}
