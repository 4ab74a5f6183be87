package takeoff

import (
	"strings"
	"testing"

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
	plan := StockPlan{Bars: []stock.Bar{{StockMM: 1000, Pieces: []int{1, 2}}, {StockMM: 1000, Pieces: []int{3}, OffcutMM: 500}}}
	got := tightBars(&plan, pieces)
	if len(got) != 1 || got[0].Bar != 1 || got[0].Moves != 2 || got[0].To != 2 || got[0].LongerMM != 8 {
		t.Fatalf("%+v", got)
	}
	if w := got[0].Words("bar").In(quantity.MetricSystem); !strings.Contains(w, "bar 1 has nothing over") || !strings.HasSuffix(w, "should it come out longer, by up to 8 mm, piece 2 comes out of bar 2") {
		t.Error(w)
	}
	plan.Bars[1].OffcutMM = 300
	if got = tightBars(&plan, pieces); len(got) != 1 || got[0].To != 0 || !strings.Contains(string(got[0].Words("bar")), "one more bar, which the order counts") {
		t.Errorf("%+v", got)
	}
	plan.Bars[0].OffcutMM = 8 // as much as it may need
	if got = tightBars(&plan, pieces); len(got) != 0 {
		t.Errorf("%+v", got)
	}
}
