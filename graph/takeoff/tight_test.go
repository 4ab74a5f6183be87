package takeoff

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/route"
	"dryfit/graph/takeoff/stock"
)

// By hand: bar 1 of 1000 mm holds 600 and 397 with a saw's 3 mm: nothing over. Piece 2 is to be
// measured and may come out 8 mm longer (4 at each end). Bar 2 has 500 mm over and takes it; with
// 300 mm over it does not, and one more bar is bought.
func TestTightBars(t *testing.T) {
	pieces := []route.Piece{{Number: 1, CutMM: 600}, {Number: 2, CutMM: 397, Measure: true,
		From: route.End{TolMinusMM: 4}, To: route.End{TolMinusMM: 4}}, {Number: 3, CutMM: 497}}
	plan := StockPlan{KerfMM: 3, Bars: []stock.Bar{{StockMM: 1000, Pieces: []int{1, 2}}, {StockMM: 1000, Pieces: []int{3}, OffcutMM: 500}}}
	sale := []stock.Supply{{LengthMM: 500}, {LengthMM: 400}, {LengthMM: 450, Offcut: true, Count: 1}}
	bars := func() []Tight { return tightBars(&plan, pieces, newSpareBars(&plan, sale)) }
	got := bars()
	if len(got) != 1 || got[0].Bar != 1 || got[0].Moves != 2 || got[0].To != 2 || got[0].LongerMM != 8 {
		t.Fatalf("%+v", got)
	}
	if w := got[0].Words("bar").In(quantity.MetricSystem); !strings.Contains(w, "bar 1 has nothing over") || !strings.HasSuffix(w, "should it come out longer, by up to 8 mm, piece 2 comes out of bar 2") {
		t.Error(w)
	}
	plan.Bars[1].OffcutMM = 300
	if got = bars(); len(got) != 1 || got[0].To != 0 || !got[0].Spare || !strings.Contains(string(got[0].Words("bar")), "one more bar, which the order counts") {
		t.Errorf("%+v", got)
	}
	sale = []stock.Supply{{LengthMM: 404}, {LengthMM: 450, Offcut: true, Count: 1}} // 397 and 8 do not go into 404
	if got = bars(); len(got) != 1 || got[0].Spare || !strings.Contains(string(got[0].Words("bar")), "no other bar that is there or on sale holds piece 2") {
		t.Errorf("%+v", got)
	}
	plan.Bars[0].OffcutMM = 8 // as much as it may need
	if got = bars(); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}

// Spares, by hand: 2000 mm is the shortest that holds 1200, and 1200 with a saw's 3 mm leave 797
// for another 797, but not for 798; of 1000 mm there is one, which the plan has taken. What is in the
// van is not bought.
func TestSpareBars(t *testing.T) {
	plan := StockPlan{Bars: []stock.Bar{{StockMM: 1000, Pieces: []int{4}}, {StockMM: 700, Offcut: true}}}
	sale := []stock.Supply{{LengthMM: 3000}, {LengthMM: 1000, Count: 1}, {LengthMM: 2000, Count: 1}, {LengthMM: 700, Offcut: true, Count: 1}}
	plan.KerfMM = 3
	s := newSpareBars(&plan, sale)
	for _, c := range []struct {
		mm   float64
		bars []float64
		ok   bool
	}{{1200, []float64{2000}, true}, {798, []float64{2000, 3000}, true}, {797, []float64{2000, 3000}, true}, {3001, []float64{2000, 3000}, false}} {
		ok := s.hold(1, c.mm)
		var got []float64
		for _, b := range s.bars {
			got = append(got, b.StockMM)
		}
		if ok != c.ok || !slices.Equal(got, c.bars) {
			t.Errorf("%g mm: %v, bars %v", c.mm, ok, got)
		}
	}
}

// A plan that leaves less than a tenth of its pipe has one more bar, which holds its longest piece:
// the shortest bar that is bought did not. Of hose and of a plan with enough left there is none.
func TestSpareHoldsTheLongestPiece(t *testing.T) {
	pieces := []route.Piece{{Number: 1, CutMM: 1990}, {Number: 2, CutMM: 480}}
	sale := []stock.Supply{{LengthMM: 500}, {LengthMM: 2000}}
	for _, c := range []struct {
		spec catalog.Spec
		over float64
		want int
	}{{"pvc-sch40", 10, 1}, {"hose", 10, 0}, {"pvc-sch40", 300, 0}} {
		plan := StockPlan{Spec: c.spec, Bars: []stock.Bar{{StockMM: 2000, Pieces: []int{1}, OffcutMM: c.over}, {StockMM: 500, Pieces: []int{2}, OffcutMM: 20}}}
		plan.KerfMM = 0
		s := newSpareBars(&plan, sale)
		s.allow(&plan, pieces)
		if len(s.bars) != c.want || c.want == 1 && s.bars[0].StockMM != 2000 {
			t.Errorf("%s with %g mm over: %+v", c.spec, c.over, s.bars)
		}
	}
}
