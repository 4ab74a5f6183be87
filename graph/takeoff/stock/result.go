package stock

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
)

// cost returns what a plan costs in whole units.
func (p *problem) cost(plan []pattern) int64 {
	sum := int64(0)
	for _, b := range plan {
		sum += p.bars[b.bar].cost
	}
	return sum
}

// left returns what is left of a bar, in hundredths of a millimetre: each piece takes its
// length and one kerf, but no cut is needed behind a piece that ends with the bar.
func (p *problem) left(b pattern) int64 {
	rest := p.bars[b.bar].width - p.kerf
	for i, n := range b.take {
		rest -= int64(n) * p.kinds[i].width
	}
	return max(0, rest)
}

// result puts names and decimals to a plan. lower is the bound in whole units.
func (p *problem) result(plan []pattern, proved bool, lower int64) Result {
	r := Result{ProvedOptimal: proved, Unplaced: slices.Clone(p.unplaced), Problems: p.problems}
	if len(plan) == 0 {
		if p.priced {
			r.Cost, r.LowerBound = decimal.NewNullDecimal(decimal.Zero), decimal.NewNullDecimal(decimal.Zero)
		}
		r.Proof = "nothing to cut"
		return r
	}
	cost := p.cost(plan)
	p.order(plan)
	next := make([]int, len(p.kinds))
	missing := 0
	var short stock
	for _, b := range plan {
		s := p.bars[b.bar]
		bar := Bar{StockMM: s.supply.LengthMM, Offcut: s.offcut, OffcutMM: float64(p.left(b)) / hundredths}
		if s.supply.Price.Valid {
			bar.Price = Money(s.supply.Price.Decimal)
		}
		for i, n := range b.take {
			for range n {
				bar.Pieces = append(bar.Pieces, p.kinds[i].numbers[next[i]])
				next[i]++
			}
		}
		if s.short {
			missing++
			short = s
			cost -= s.cost
			lower -= s.cost
			r.Unplaced = append(r.Unplaced, bar.Pieces...)
			continue
		}
		if !s.offcut {
			r.CostLengthMM += s.supply.LengthMM
		}
		r.Bars = append(r.Bars, bar)
	}
	slices.Sort(r.Unplaced)
	if missing > 0 {
		r.Problems = append(r.Problems, quantity.Say("the stock does not suffice: %d more of %s would do",
			missing, lengthOf(short.width-p.kerf)))
	}
	p.prove(&r, cost, max(0, lower))
	return r
}

// prove sets the bound and the words of the proof.
func (p *problem) prove(r *Result, cost, lower int64) {
	what := "cost"
	if p.priced {
		r.Cost = decimal.NewNullDecimal(decimal.New(cost, -p.scale))
		r.LowerBound = decimal.NewNullDecimal(decimal.New(lower, -p.scale))
	} else {
		what = "length, then fewest bars, as not every price is known"
		r.LowerLengthMM = float64(lower/(p.pieces+1)) / hundredths
	}
	if n := len(r.Unplaced); n > 0 {
		defer func() {
			r.Proof += quantity.Say("; said of the pieces that are placed, not of the %d without stock", n)
		}()
	}
	if r.ProvedOptimal {
		r.Proof = quantity.Say("proved: no plan has less %s", what)
		return
	}
	if cost > 0 {
		r.GapPct = 100 * float64(cost-lower) / float64(cost)
	}
	if p.priced {
		r.Proof = quantity.Say("not proved least: no plan costs less than %s, this one costs %s",
			r.LowerBound.Decimal, r.Cost.Decimal)
	} else {
		r.Proof = quantity.Say("not proved least: no plan buys less than %s, this one buys %s",
			lengthOf(lower/(p.pieces+1)), lengthOf(inHundredths(r.CostLengthMM)))
	}
	r.Proof += quantity.Say(" (gap %.1f %%); the search stopped at its limit", r.GapPct)
}

// order sorts a plan as it is cut: offcuts from the van first, then long bars before short
// ones, full ones before those that leave something.
func (p *problem) order(plan []pattern) {
	slices.SortStableFunc(plan, func(a, b pattern) int {
		x, y := p.bars[a.bar], p.bars[b.bar]
		return cmp.Or(
			quantity.CompareBool(y.offcut, x.offcut),
			quantity.CompareBool(x.short, y.short),
			cmp.Compare(a.bar, b.bar),
			cmp.Compare(p.left(a), p.left(b)),
			slices.Compare(b.take, a.take),
		)
	})
}
