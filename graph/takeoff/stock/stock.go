package stock

import (
	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
)

// Demand is one piece to be cut.
type Demand struct {
	Number   int     // what the piece is called in the plan
	LengthMM float64 // finished length, above 0
}

// Supply is a length of stock: on sale, or an offcut in the van.
type Supply struct {
	LengthMM float64
	Price    decimal.NullDecimal // of one; not Valid: not known. An offcut without a price costs nothing
	Count    int                 // how many there are; 0: as many as wanted (of an offcut: one)
	Offcut   bool                // in the van already
}

// Result is a stock plan with its proof.
//
// Cost is the sum of the prices of the bars used. Where a bar on sale has no price the
// measure is the length bought, and among plans of equal length the number of bars bought:
// Cost and LowerBound are not Valid then.
type Result struct {
	Bars          []Bar
	Cost          decimal.NullDecimal
	CostLengthMM  float64             // total length of the bars bought, offcuts from the van not counted
	ProvedOptimal bool                // of the pieces that are placed
	LowerBound    decimal.NullDecimal // no plan costs less
	LowerLengthMM float64             // where prices are missing: no plan buys less length
	GapPct        float64             // how far the cost may be above the least, % of the cost; 0 where proved
	Proof         quantity.Text       // in words
	Unplaced      []int               // pieces that no stock could take, by number
	Problems      []quantity.Text     // what could not be planned and why, in words
}

// effortLimit bounds the work of one plan. It counts steps, not time, so that the same job
// gives the same plan on every machine; it is reached after two to four seconds.
const effortLimit = 600_000_000

// Plan cuts the pieces out of the stock at the least cost. Pieces l1 … ln come out of a
// bar of length L when
//
//	l1 + … + ln + (n-1)·kerf ≤ L
//
// that is when lengths l + kerf fit into L + kerf. Lengths and kerf count in exact hundredths
// of a millimetre, prices in exact decimals.
//
// Method: which bars to buy and how to cut them are decided in turn. Every weighting of the
// pieces gives a condition on the bars (no bar holds more weight than its fullest pattern;
// all bars together must hold the weight of all pieces); the cheapest bars that meet all
// conditions are a lower bound of the cost. Either the pieces fit into those bars, which is
// then a least-cost plan, or the dual prices of the pattern programme (Gilmore and Gomory,
// Operations Research 9 (1961) 849–859), or a complete search, give a new condition that
// shuts those bars out (the decomposition of Benders, Numerische Mathematik 4 (1962)
// 238–252). Conditions are counted in integers, so that no rounding can spoil the proof. When the
// work passes a fixed limit the best plan found is returned with its gap and is not called
// least. In a long list plans are found by rounding the relaxation before the complete search
// is begun.
//
// Among plans of equal cost the one is preferred that leaves one long offcut rather than
// many short ones: the sum of the squares of what is left is raised by exchanges between
// bars. That second choice is not proved.
//
// A piece that fits no stock, or for which counted stock does not suffice, is named in
// Unplaced; the rest is planned.
func Plan(pieces []Demand, stock []Supply, kerfMM float64) Result {
	return planWithin(pieces, stock, kerfMM, effortLimit)
}

// planWithin is Plan with a limit of its own, for the tests of what happens there.
func planWithin(pieces []Demand, stock []Supply, kerfMM float64, limit int64) Result {
	p := newProblem(pieces, stock, kerfMM)
	if len(p.kinds) == 0 {
		return p.result(nil, true, 0)
	}
	e := &effort{left: limit}
	s := newPacker(p, e)
	plan, lower, proved := s.cheapest()
	plan = s.tidy(plan)
	return p.result(plan, proved, lower)
}

// effort is how many steps are left.
type effort struct{ left int64 }

// spend takes n steps and reports whether there were as many.
func (e *effort) spend(n int) bool {
	e.left -= int64(n)
	return e.left > 0
}

func (e *effort) spent() bool { return e.left <= 0 }
