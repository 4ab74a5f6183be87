package lists

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/route"
	"dryfit/graph/takeoff"
	"dryfit/graph/takeoff/stock"
	"dryfit/render/table/form"
)

func TestBars(t *testing.T) {
	list := &takeoff.CutList{KerfMM: 1, Pieces: []route.Piece{{Number: 1, CutMM: 536}, {Number: 4, CutMM: 300}, {Number: 5, CutMM: 740}},
		Plans: []takeoff.StockPlan{{Spec: "pvc-pn16", Size: catalog.Size{Metric: true, Nominal: 50}, Bars: []stock.Bar{
			{StockMM: 2000, Pieces: []int{1, 4}, OffcutMM: 1162}, {StockMM: 740, Offcut: true, Pieces: []int{5}}}}}}
	got := drawnBars(list, 50, quantity.MetricSystem)
	want := `pvc-pn16 50 mm
bar 1  2000 mm
|#1 536      |#4 300 |~~~~~~~~ left 1162 ~~~~~~~~|
bar 2  740 mm, in the van
|#5 740            |
`
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if got := drawnBars(nil, 80, quantity.MetricSystem); got != "" {
		t.Errorf("no list gives %q", got)
	}
}

// However many pieces, no line is wider than the terminal and every piece is named once.
func TestBarsKeepTheWidth(t *testing.T) {
	list := &takeoff.CutList{}
	bar := stock.Bar{StockMM: 6000, OffcutMM: 3}
	for n := 1; n <= 60; n++ {
		list.Pieces = append(list.Pieces, route.Piece{Number: n, CutMM: float64(40 + 7*(n%9))})
		bar.Pieces = append(bar.Pieces, n)
	}
	list.Plans = []takeoff.StockPlan{{Bars: []stock.Bar{bar}}}
	for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
		for _, width := range []int{0, 40, 80, 200} {
			text := drawnBars(list, width, units)
			for _, line := range strings.Split(text, "\n") {
				if n := utf8.RuneCountInString(line); n > max(width, 40) {
					t.Errorf("width %d: a line has %d columns: %s", width, n, line)
				}
			}
			for n := 1; n <= 60; n++ {
				if c := strings.Count(text, fmt.Sprintf("#%d ", n)); c != 1 {
					t.Errorf("width %d: piece %d is named %d times", width, n, c)
				}
			}
		}
	}
}

// A piece that is cut on site is marked where it is sawn from: in the plan's row and on its bar.
func TestBarsMarkWhatIsCutOnSite(t *testing.T) {
	list := &takeoff.CutList{Pieces: []route.Piece{{Number: 1, CutMM: 600}, {Number: 2, CutMM: 300, OnSite: true}}}
	plan := &takeoff.StockPlan{Bars: []stock.Bar{{StockMM: 1000, Pieces: []int{1, 2}, OffcutMM: 94}}}
	if got := strings.Join(barsOf(plan, list, 80, form.Style{}), "\n"); !strings.Contains(got, "#2+ 300") || strings.Contains(got, "#1+") {
		t.Error(got)
	}
	if got := string(form.Text([]form.Block{stockBlock(plan, list, form.Style{})}, form.Style{})); !strings.Contains(got, "#1 600 mm + #2+ 300 mm") {
		t.Error(got)
	}
}

// drawnBars are the bars of every plan of a list, as text.
func drawnBars(list *takeoff.CutList, width int, units quantity.System) string {
	if list == nil {
		return ""
	}
	s := form.Style{Units: units}
	var b strings.Builder
	for i := range list.Plans {
		plan := &list.Plans[i]
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintln(&b, strings.TrimSpace(fmt.Sprintf("%s %s", plan.Spec, plan.Size)))
		for _, line := range barsOf(plan, list, width, s) {
			fmt.Fprintln(&b, line)
		}
	}
	return b.String()
}
