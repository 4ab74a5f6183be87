package advice

import (
	"cmp"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph/settle"
)

// Promise is what a unit asks of its flow, m³/s; 0: not given.
type Promise struct {
	Least, Rated, Most float64

	// Usual is the rated flow that is usual for its output, of a unit of which nobody says what it
	// asks for: an element is chosen by it, and nothing is promised.
	Usual float64
}

// PromiseOf is what a settled unit asks of its flow; nothing of nil.
func PromiseOf(u *settle.Part) Promise {
	if u == nil {
		return Promise{}
	}
	p := Promise{Least: u.Least.V, Rated: u.Rated.V, Most: u.Most.V}
	if !p.Asked() && u.Part != nil && u.Unit != nil {
		p.Usual = u.UsualFlow()
	}
	return p
}

// Asked reports whether anything is known of what the unit asks for.
func (p Promise) Asked() bool { return p.Least > 0 || p.Rated > 0 || p.Most > 0 }

// Wanted is the flow a throttle is set for: the rated one, or the least where that is not known; 0 where neither is.
func (p Promise) Wanted() float64 { return cmp.Or(p.Rated, p.Least) }

// aim is the flow an element is chosen by: the rated one, or where nobody says what the unit asks
// for the usual one.
func (p Promise) aim() float64 { return cmp.Or(p.Rated, p.Usual) }

// Outcome is what one bypass element comes to in the modes in which the unit's pump runs.
type Outcome struct {
	Failed    int       // modes without an answer
	Unit      []float64 // flow through the unit in each mode, m³/s
	Pump      []float64 // flow of the pumps that run
	JetsShare []float64 // share of today's flow through the jets that is lost; 0 where not known
	Chatters  int       // modes in which the bypass spring is about to change its state
}

// Order is the one order of bypass elements: negative where a is to be taken before b. The
// promise to the unit comes first, least to most in every wanted mode; then its rated flow
// at the lowest, or nearly that; then what the jets and the low speed lose. What takes nothing from the jets,
// or has none to take from, comes before what does; among such, what the unit lacks of its
// rated flow comes before the rest. Of a constant pump, whose valve can be set, the flow nearest to the rated comes before what it
// costs. Equals are left in the order they came in, the weakest spring first.
//
// Trade practice, no source: take the weakest spring that keeps the unit at its rated flow.
func (p Promise) Order(a, b Outcome, constant bool) int {
	by := p.OrderPlaces(a, b)
	if constant && by == 0 {
		by = cmp.Compare(math.Abs(a.Low()-p.aim()), math.Abs(b.Low()-p.aim()))
	}
	if !constant && by == 0 {
		by = -quantity.CompareBool(a.sparesJets(), b.sparesJets())
		if by == 0 && a.sparesJets() {
			by = cmp.Compare(p.short(a), p.short(b))
		}
	}
	if by == 0 && math.Abs(a.cost()-b.cost()) > 1e-9 {
		by = cmp.Compare(a.cost(), b.cost())
	}
	return by
}

// OrderPlaces orders two places by what the unit gets there: the promise, then the rated or nearly the rated
// flow. What the jets lose differs by a few mm of the same pipe and decides nothing.
func (p Promise) OrderPlaces(a, b Outcome) int {
	return cmp.Or(
		cmp.Compare(a.Failed, b.Failed),
		cmp.Compare(p.missed(a), p.missed(b)),
		-quantity.CompareBool(p.KeepsRated(a), p.KeepsRated(b)),
		-quantity.CompareBool(p.nearlyRated(a), p.nearlyRated(b)),
	)
}

// Keeps reports whether the unit's flow stays between least and most in every mode.
func (p Promise) Keeps(o Outcome) bool {
	if o.Failed > 0 || len(o.Unit) == 0 {
		return false
	}
	for _, q := range o.Unit {
		if q < p.Least || p.Most > 0 && q > p.Most {
			return false
		}
	}
	return true
}

// KeepsRated reports whether the unit gets its rated flow in every mode; where nobody says what it
// asks for, the usual one.
func (p Promise) KeepsRated(o Outcome) bool {
	return o.Failed == 0 && len(o.Unit) > 0 && o.Low() >= p.aim()
}

// near is how much of its rated flow is nearly that: nobody at a tub tells what lacks a tenth from the
// whole, a meter clamped on may be off by as much (common practice, no source).
const near = 0.9

// nearlyRated reports whether the unit gets its rated flow in every mode but for what nobody can tell.
func (p Promise) nearlyRated(o Outcome) bool {
	return o.Failed == 0 && len(o.Unit) > 0 && o.Low() >= near*p.aim()
}

// missed is by how much the flows lie outside least to most, summed over the modes, in steps
// of a hundredth of the rated flow; at least one step where they do.
func (p Promise) missed(o Outcome) int {
	scale := cmp.Or(p.Rated, p.Least, p.Most)
	if scale == 0 || len(o.Unit) == 0 {
		return 0
	}
	miss := 0.0
	for _, q := range o.Unit {
		miss += max(0, p.Least-q)
		if p.Most > 0 {
			miss += max(0, q-p.Most)
		}
	}
	return int(math.Ceil(100 * miss / scale))
}

// short is what the unit lacks of the flow it is chosen by, summed over the modes, in steps of a
// hundredth of it.
func (p Promise) short(o Outcome) int {
	aim := p.aim()
	if aim == 0 {
		return 0
	}
	lacks := 0.0
	for _, q := range o.Unit {
		lacks += max(0, aim-q)
	}
	return int(math.Round(100 * lacks / aim))
}

// sparesJets reports whether the jets lose nothing to speak of, less than half a thousandth
// of today's flow in every mode: there are none, or another pump drives them.
func (o Outcome) sparesJets() bool {
	for _, share := range o.JetsShare {
		if share >= noJets {
			return false
		}
	}
	return true
}

// noJets is the share of today's flow below which what the jets lose is not told.
const noJets = 0.0005

// Low is the least the unit gets in any mode.
func (o Outcome) Low() float64 {
	low := math.Inf(1)
	for _, q := range o.Unit {
		low = min(low, q)
	}
	return low
}

// chatterCost is what a spring that will chatter in a mode is worth in flow of the jets, as a
// share of today's: a stronger one that costs no more than that is taken. Judgement, no source.
const chatterCost = 0.05

// cost is what the jets lose, and what chatter counts for, as a share of today summed over the modes, and a little what
// the pumps move less; where no circuit before the work is known, the latter alone.
func (o Outcome) cost() float64 {
	sum := chatterCost * float64(o.Chatters)
	for i := range o.Unit {
		sum += o.JetsShare[i] - 1e-3*o.Pump[i]
	}
	return sum
}
