package plan

import (
	"cmp"
	"math"

	"dryfit/graph/settle"
)

// promise is what a unit asks of its flow, m³/s; 0: not given.
type promise struct{ least, rated, most float64 }

func promiseOf(u *settle.Part) promise {
	if u == nil {
		return promise{}
	}
	return promise{u.Least.V, u.Rated.V, u.Most.V}
}

// outcome is what one bypass element comes to in the modes in which the unit's pump runs.
type outcome struct {
	failed    int       // modes without an answer
	unit      []float64 // flow through the unit in each mode, m³/s
	pump      []float64 // flow of the pumps that run
	jetsShare []float64 // share of today's flow through the jets that is lost; 0 where not known
	chatters  int       // modes in which the bypass spring is about to change its state
}

// order is the one order of bypass elements: negative where a is to be taken before b. The
// promise to the unit comes first, least to most in every wanted mode; then its rated flow
// at the lowest; then what the jets and the low speed lose. Of a constant pump, whose valve
// can be set, the flow nearest to the rated comes before what it costs. Equals are left in
// the order they came in, the weakest spring first.
//
// Trade practice, no source: take the weakest spring that keeps the unit at its rated flow.
func (p promise) order(a, b outcome, constant bool) int {
	by := p.orderPlaces(a, b)
	if constant && by == 0 {
		by = cmp.Compare(math.Abs(a.low()-p.rated), math.Abs(b.low()-p.rated))
	}
	if by == 0 && math.Abs(a.cost()-b.cost()) > 1e-9 {
		by = cmp.Compare(a.cost(), b.cost())
	}
	return by
}

// orderPlaces orders two places by what the unit gets there: the promise, then the rated
// flow. What the jets lose differs by a few mm of the same pipe and decides nothing.
func (p promise) orderPlaces(a, b outcome) int {
	return cmp.Or(
		cmp.Compare(a.failed, b.failed),
		cmp.Compare(p.missed(a), p.missed(b)),
		-compareBool(p.keepsRated(a), p.keepsRated(b)),
	)
}

// compareBool is negative where only b holds.
func compareBool(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// keeps reports whether the unit's flow stays between least and most in every mode.
func (p promise) keeps(o outcome) bool {
	if o.failed > 0 || len(o.unit) == 0 {
		return false
	}
	for _, q := range o.unit {
		if q < p.least || p.most > 0 && q > p.most {
			return false
		}
	}
	return true
}

// keepsRated reports whether the unit gets its rated flow in every mode.
func (p promise) keepsRated(o outcome) bool {
	return o.failed == 0 && len(o.unit) > 0 && o.low() >= p.rated
}

// missed is by how much the flows lie outside least to most, summed over the modes, in steps
// of a hundredth of the rated flow; at least one step where they do.
func (p promise) missed(o outcome) int {
	scale := cmp.Or(p.rated, p.least, p.most)
	if scale == 0 || len(o.unit) == 0 {
		return 0
	}
	miss := 0.0
	for _, q := range o.unit {
		miss += max(0, p.least-q)
		if p.most > 0 {
			miss += max(0, q-p.most)
		}
	}
	return int(math.Ceil(100 * miss / scale))
}

// low is the least the unit gets in any mode.
func (o outcome) low() float64 {
	low := math.Inf(1)
	for _, q := range o.unit {
		low = min(low, q)
	}
	return low
}

// chatterCost is what a spring that will chatter in a mode is worth in flow of the jets, as a
// share of today's: a stronger one that costs no more than that is taken. Judgement, no source.
const chatterCost = 0.05

// cost is what the jets lose, and what chatter counts for, as a share of today summed over the modes, and a little what
// the pumps move less; where no circuit before the work is known, the latter alone.
func (o outcome) cost() float64 {
	sum := chatterCost * float64(o.chatters)
	for i := range o.unit {
		sum += o.jetsShare[i] - 1e-3*o.pump[i]
	}
	return sum
}
