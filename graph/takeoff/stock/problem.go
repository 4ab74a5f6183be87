package stock

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
)

// problem is a stock problem in integers: widths are lengths plus one kerf in hundredths of
// a millimetre, costs whole units of the finest price.
type problem struct {
	kerf     int64
	kinds    []kind  // pieces of equal length together, longest first
	bars     []stock // longest first, cheaper first
	priced   bool    // costs are prices; else length and number of bars
	scale    int32   // priced: a unit of cost is 10^-scale
	pieces   int64   // not priced: cost = length in hundredths · (pieces + 1) + 1
	unplaced []int
	problems []quantity.Text
}

// kind is pieces of one length.
type kind struct {
	width   int64
	numbers []int // of the pieces, rising
}

// stock is bars of one length and price.
type stock struct {
	width  int64
	cost   int64
	count  int // never more than there are pieces
	supply Supply
	offcut bool
	short  bool // not there at all: stands for stock that is missing
}

// pattern is what is cut from one bar: how many of each kind.
type pattern struct {
	bar  int // index into problem.bars
	take []int32
}

const (
	hundredths = 100
	// MostLengthMM is the longest length that is planned: far above any pipe, and far below where integers end
	MostLengthMM = 1e5
)

func inHundredths(mm float64) int64 { return int64(math.Round(mm * hundredths)) }

// Plannable reports whether a length can be planned.
func Plannable(mm float64) bool { return mm > 0 && mm <= MostLengthMM && inHundredths(mm) > 0 }

func newProblem(pieces []Demand, supply []Supply, kerfMM float64) *problem {
	p := &problem{}
	if kerfMM > 0 && kerfMM <= MostLengthMM {
		p.kerf = inHundredths(kerfMM)
	}
	usable := p.usable(supply)
	p.setKinds(pieces, usable)
	p.setBars(usable)
	return p
}

// usable returns the stock that can be planned with.
func (p *problem) usable(supply []Supply) []Supply {
	var out []Supply
	for _, s := range supply {
		switch {
		case !Plannable(s.LengthMM):
			p.problems = append(p.problems, quantity.Say("stock of %s is left out: no length to cut from", quantity.Closely(s.LengthMM)))
		case s.Count < 0 || s.Price.Valid && s.Price.Decimal.IsNegative():
			p.problems = append(p.problems, quantity.Say("stock of %s is left out: its count or price is negative", quantity.Closely(s.LengthMM)))
		default:
			if s.Offcut && !s.Price.Valid {
				s.Price = decimal.NewNullDecimal(decimal.Zero)
			}
			if s.Offcut && s.Count == 0 {
				s.Count = 1
			}
			out = append(out, s)
		}
	}
	return out
}

// setKinds groups the pieces by length and sets aside those that no stock can hold.
func (p *problem) setKinds(pieces []Demand, supply []Supply) {
	var most int64
	for _, s := range supply {
		most = max(most, inHundredths(s.LengthMM))
	}
	by := map[int64]int{}
	for _, d := range pieces {
		l := inHundredths(d.LengthMM)
		switch {
		case !Plannable(d.LengthMM):
			p.unplaced = append(p.unplaced, d.Number)
			p.problems = append(p.problems, quantity.Say("piece %d is %s long: nothing to cut", d.Number, quantity.Closely(d.LengthMM)))
		case most == 0:
			p.unplaced = append(p.unplaced, d.Number)
		case l > most:
			p.unplaced = append(p.unplaced, d.Number)
			p.problems = append(p.problems, quantity.Say("piece %d of %s is longer than the longest stock, %s",
				d.Number, lengthOf(l), lengthOf(most)))
		default:
			i, ok := by[l]
			if !ok {
				i = len(p.kinds)
				by[l] = i
				p.kinds = append(p.kinds, kind{width: l + p.kerf})
			}
			p.kinds[i].numbers = append(p.kinds[i].numbers, d.Number)
			p.pieces++
		}
	}
	if most == 0 && len(pieces) > 0 {
		p.problems = append(p.problems, "there is no stock to cut from")
	}
	slices.SortFunc(p.kinds, func(a, b kind) int { return cmp.Compare(b.width, a.width) })
	for _, k := range p.kinds {
		slices.Sort(k.numbers)
	}
	slices.Sort(p.unplaced)
}

// setBars gives every stock its cost in integers, and adds the bars that stand for stock
// that is missing where everything as long as the longest piece is counted.
func (p *problem) setBars(supply []Supply) {
	p.priced = true
	for _, s := range supply {
		if !s.Price.Valid {
			p.priced = false
		} else {
			p.scale = max(p.scale, -s.Price.Decimal.Exponent())
		}
	}
	if p.priced && !p.fitsIntegers(supply) {
		p.priced = false
		p.problems = append(p.problems, "the prices are too large or too finely divided to add exactly; planned by length")
	}
	if len(p.kinds) == 0 {
		return
	}
	for _, s := range supply {
		b := stock{width: inHundredths(s.LengthMM) + p.kerf, cost: p.costOf(s), supply: s, offcut: s.Offcut, count: int(p.pieces)}
		if s.Count > 0 {
			b.count = min(s.Count, b.count)
		}
		if b.width >= p.kinds[len(p.kinds)-1].width { // something fits
			p.bars = append(p.bars, b)
		}
	}
	slices.SortStableFunc(p.bars, func(a, b stock) int {
		return cmp.Or(cmp.Compare(b.width, a.width), cmp.Compare(a.cost, b.cost))
	})
	p.bars = slices.DeleteFunc(p.bars, p.outdone())
	p.addMissing()
}

// outdone reports, of bars as they are sorted, one after another, whether there are as many as are
// wanted of a bar as long that costs no more: no plan needs the other.
func (p *problem) outdone() func(b stock) bool {
	least := int64(math.MaxInt64) // cost of the bars before, of which there are enough
	return func(b stock) bool {
		if b.cost >= least {
			return true
		}
		if b.count == int(p.pieces) {
			least = b.cost
		}
		return false
	}
}

// fitsIntegers reports whether sums of prices stay far inside an int64.
func (p *problem) fitsIntegers(supply []Supply) bool {
	if p.scale > 9 {
		return false
	}
	most := decimal.New(1, 12).Div(decimal.NewFromInt(p.pieces + 1))
	for _, s := range supply {
		if s.Price.Decimal.Shift(p.scale).GreaterThan(most) {
			return false
		}
	}
	return true
}

func (p *problem) costOf(s Supply) int64 {
	if p.priced {
		return s.Price.Decimal.Shift(p.scale).IntPart()
	}
	if s.Offcut {
		return 0
	}
	return inHundredths(s.LengthMM)*(p.pieces+1) + 1
}

// addMissing adds bars that are not there, dearer than everything that is, where the stock
// that holds the longest piece is counted: so the plan always exists, and says what to buy.
func (p *problem) addMissing() {
	first := p.bars[0]
	held := int64(0)
	all := int64(1)
	for _, b := range p.bars {
		if b.supply.Count > 0 {
			held += int64(b.count)
		} else if b.width >= p.kinds[0].width {
			return // enough can be bought for every piece
		}
		all += b.cost * int64(b.count)
	}
	first.cost, first.count, first.short, first.offcut = all, int(p.pieces), true, false
	p.bars = append(p.bars, first)
}

// lengthOf is a length in hundredths of a millimetre.
func lengthOf(h int64) quantity.Amount { return quantity.Closely(float64(h) / hundredths) }
