package cutplan

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph/route"
	"dryfit/graph/takeoff"
	"dryfit/graph/takeoff/stock"
	"dryfit/render/scene"
)

// Of many pieces that are longer than any stock each is named: the line was cut short behind a dozen of them.
func TestEveryPieceWithoutStockIsNamed(t *testing.T) {
	l := &takeoff.CutList{KerfMM: 1.3}
	plan := takeoff.StockPlan{Spec: "pvc-sch40", Size: catalog.Size{Nominal: 2}, Proof: "none"}
	for n := 1; n <= 60; n++ {
		l.Pieces = append(l.Pieces, route.Piece{Number: n, Spec: plan.Spec, Size: plan.Size, CutMM: 6000 + float64(n)})
		plan.Unplaced = append(plan.Unplaced, n)
	}
	l.Plans = []takeoff.StockPlan{plan}
	var said []string
	for _, s := range Draw(Input{List: l, Job: job()}) {
		for _, i := range s.Items {
			if x, ok := i.(scene.Text); ok && x.Name == "unplaced" {
				said = append(said, x.Text)
			}
		}
	}
	all := strings.Join(said, " ")
	for n := 1; n <= 60; n++ {
		if want := fmt.Sprintf(" %d (%d mm)", n, 6000+n); !strings.Contains(all, want) {
			t.Fatalf("no%s in %q", want, all)
		}
	}
}

// Bars without room for a longer piece are told in one note for their size, not in one each, which took the
// room of the bars: twenty made seven sheets of four bars.
func TestTightBarsInOneNote(t *testing.T) {
	for _, c := range []struct {
		bars []int
		want string
	}{
		{nil, ""},
		{[]int{3}, "2 in, bar 3 has no room"},
		{[]int{3, 4}, "2 in, bars 3, 4 have no room"},
		{[]int{1, 2, 3, 5, 7, 8, 9, 10}, "2 in, bars 1 to 3, 5, 7 to 10 have no room"},
	} {
		plan := takeoff.StockPlan{Spec: "pvc-sch40", Size: catalog.Size{Nominal: 2}, Bars: make([]stock.Bar, 10)}
		for _, n := range c.bars {
			plan.Tight = append(plan.Tight, takeoff.Tight{Bar: n})
		}
		if got := tight(&plan); !strings.HasPrefix(got, c.want) || (got == "") != (c.want == "") {
			t.Errorf("%v: %q", c.bars, got)
		}
	}
}
