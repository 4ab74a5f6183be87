package takeoff

import (
	"cmp"
	"slices"

	"dryfit/graph/route"
	"dryfit/graph/takeoff/stock"
)

// pipeAllowance is how much more pipe than the net length is wanted, as a share.
// Source: common practice, no source.
const pipeAllowance = 0.10

// spareBars are the lengths of stock that are bought to be there when wanted, what may come out of
// each counted as it is in a plan.
type spareBars struct {
	sale []stock.Supply // the shortest first
	kerf float64
	bars []stock.Bar
}

// newSpareBars are none yet, of what is on sale and the bars of a plan leave of it.
func newSpareBars(plan *StockPlan, supply []stock.Supply) *spareBars {
	s := &spareBars{kerf: plan.KerfMM}
	left := slices.Clone(supply)
	for _, b := range plan.Bars {
		if i := slices.IndexFunc(left, func(one stock.Supply) bool { return !one.Offcut && one.Count > 0 && one.LengthMM == b.StockMM }); i >= 0 && !b.Offcut {
			if left[i].Count--; left[i].Count == 0 {
				left = slices.Delete(left, i, i+1)
			}
		}
	}
	s.sale = slices.DeleteFunc(left, func(one stock.Supply) bool { return one.Offcut || !stock.Plannable(one.LengthMM) })
	slices.SortStableFunc(s.sale, func(a, b stock.Supply) int { return cmp.Compare(a.LengthMM, b.LengthMM) })
	return s
}

// hold has a spare for a piece of so many mm: one that is there already, else the shortest on sale;
// false where none is long enough.
func (s *spareBars) hold(number int, mm float64) bool {
	for i := range s.bars {
		if b := &s.bars[i]; b.OffcutMM >= mm {
			b.Pieces = append(b.Pieces, number)
			b.OffcutMM = max(0, b.OffcutMM-mm-s.kerf)
			return true
		}
	}
	i := slices.IndexFunc(s.sale, func(one stock.Supply) bool { return one.LengthMM >= mm })
	if i < 0 {
		return false
	}
	one := &s.sale[i]
	bar := stock.Bar{StockMM: one.LengthMM, Pieces: []int{number}, OffcutMM: max(0, one.LengthMM-mm-s.kerf)}
	if one.Price.Valid {
		bar.Price = stock.Money(one.Price.Decimal)
	}
	s.bars = append(s.bars, bar)
	if one.Count > 0 {
		if one.Count--; one.Count == 0 {
			s.sale = slices.Delete(s.sale, i, i+1)
		}
	}
	return true
}

// allow has one more bar where a plan of rigid pipe leaves less than the allowance and none is there
// yet: the shortest on sale that its longest piece could be cut from again.
func (s *spareBars) allow(plan *StockPlan, pieces []route.Piece) {
	net, left, longest := 0.0, 0.0, route.Piece{}
	for _, b := range plan.Bars {
		left += b.OffcutMM
		for _, n := range b.Pieces {
			i := slices.IndexFunc(pieces, func(p route.Piece) bool { return p.Number == n })
			if i < 0 {
				continue
			}
			net += pieces[i].CutMM
			if pieces[i].SawMM() > longest.SawMM() {
				longest = pieces[i]
			}
		}
	}
	if net > 0 && left < pipeAllowance*net && len(s.bars) == 0 && !plan.Spec.Flexible() {
		s.hold(longest.Number, longest.SawMM())
	}
}
