package cutplan

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/golden"
	"dryfit/graph/route"
	"dryfit/graph/takeoff"
	"dryfit/graph/takeoff/stock"
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
	"dryfit/render/sheet"
)

// list is an invented cut list: bars full of short pieces, a bar in the van, a piece longer
// than any stock.
func list() *takeoff.CutList {
	inch, half := catalog.Size{Nominal: 2}, catalog.Size{Nominal: 1.5}
	l := &takeoff.CutList{KerfMM: 1.3, KerfSource: "as described"}
	add := func(size catalog.Size, lengths ...float64) (numbers []int) {
		for _, mm := range lengths {
			n := len(l.Pieces) + 1
			l.Pieces = append(l.Pieces, route.Piece{Number: n, Spec: "pvc-sch40", Size: size, CutMM: mm, Measure: n == 2})
			numbers = append(numbers, n)
		}
		return numbers
	}
	bar := func(length float64, price string, own bool, pieces []int) stock.Bar {
		left := length
		for _, n := range pieces {
			left -= l.Pieces[n-1].CutMM + l.KerfMM
		}
		return stock.Bar{StockMM: length, Price: price, Offcut: own, Pieces: pieces, OffcutMM: left}
	}
	a := bar(3000, "11.40", false, add(half, 2219.3, 74.9, 74.9, 74.9, 411))
	b := bar(3000, "11.40", false, add(half, 74.9, 74.9, 74.9, 74.9, 74.9, 74.9, 74.9, 74.9))
	l.Plans = append(l.Plans, takeoff.StockPlan{Spec: "pvc-sch40", Size: half, KerfMM: 1.3, Bars: []stock.Bar{a, b}, Cost: "22.80",
		ProvedOptimal: true, LowerBound: "22.80", Proof: "least possible: lower bound equals the plan", Unplaced: add(half, 6800)})
	c := bar(740, "0", true, add(inch, 81.2, 326.4, 82))
	l.Plans = append(l.Plans, takeoff.StockPlan{Spec: "pvc-sch40", Size: inch, KerfMM: 1.3, Bars: []stock.Bar{c}, Cost: "0",
		ProvedOptimal: true, LowerBound: "0", Proof: "least possible: lower bound equals the plan"})
	return l
}

func job() graph.Job {
	return graph.Job{Name: "Invented job: a tub by the shed", Reference: "J-7", Date: "2026-04-18", Currency: "EUR"}
}

func TestGolden(t *testing.T) {
	kept := golden.In(t, "testdata/*.svg", differ.Picture)
	for name, in := range map[string]Input{
		"metric": {List: list(), Job: job()},
		"inch":   {List: list(), Job: job(), Units: quantity.InchSystem, Page: sheet.Page{Orientation: sheet.Portrait, Fixed: true}},
	} {
		for i, s := range Draw(in) {
			kept.Is(filepath.Join("testdata", fmt.Sprintf("%s-%d.svg", name, i+1)), scene.SVG(s))
		}
	}
}

// Every piece stands on the sheets once, no text touches another, all stay in the frame.
func TestNothingOverlaps(t *testing.T) {
	long := list()
	for range 4 { // several sheets
		long.Plans = append(long.Plans, long.Plans[0], long.Plans[1])
	}
	for _, l := range []*takeoff.CutList{list(), long} {
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			seen := 0
			for _, s := range Draw(Input{List: l, Job: job(), Units: units}) {
				var texts []scene.Text
				for _, it := range s.Items {
					if txt, ok := it.(scene.Text); ok {
						texts = append(texts, txt)
						if txt.Name == "piece" || txt.Name == "call" && strings.Contains(txt.Text, ":") {
							seen++
						}
					}
				}
				page := scene.Box{MinX: 20, MinY: 10, MaxX: s.WidthMM - 10, MaxY: s.HeightMM - 10}
				for i, a := range texts {
					if !page.Contains(scene.Bounds(a)) {
						t.Errorf("%q leaves the frame", a.Text)
					}
					for _, b := range texts[:i] {
						if scene.Bounds(a).Overlaps(scene.Bounds(b)) {
							t.Errorf("%q and %q overlap", a.Text, b.Text)
						}
					}
				}
			}
			want := 0
			for _, p := range l.Plans {
				for _, b := range p.Bars {
					want += len(b.Pieces)
				}
			}
			if seen != want {
				t.Errorf("%d pieces drawn, want %d", seen, want)
			}
		}
	}
}

// The widths on the sheet are the lengths over the scale the title block says.
func TestToScale(t *testing.T) {
	s := Draw(Input{List: list(), Job: job()})[0]
	per := 0.0
	for _, it := range s.Items {
		if txt, ok := it.(scene.Text); ok && txt.Name == "title:Scale" {
			if _, err := fmt.Sscanf(txt.Text, "bars 1:%g along", &per); err != nil {
				t.Fatal(err)
			}
		}
	}
	var widths []float64
	for _, it := range s.Items {
		if sh, ok := it.(scene.Shape); ok && sh.Name == "stock" {
			widths = append(widths, scene.Bounds(sh).W()-sheet.Thin)
		}
	}
	want := []float64{3000 / per, 3000 / per, 740 / per}
	if len(widths) != len(want) {
		t.Fatalf("%d bars drawn, want %d", len(widths), len(want))
	}
	for i := range want {
		if d := widths[i] - want[i]; d > 1e-6 || d < -1e-6 {
			t.Errorf("bar %d is %.3f mm wide, want %.3f", i+1, widths[i], want[i])
		}
	}
}

func TestSpread(t *testing.T) {
	limit := scene.Box{MinX: 0, MaxX: 100}
	calls := []call{{1, "12: 1000"}, {2, "13: 1000"}, {3, "14: 1000"}, {99, "15: 1000"}}
	width := func(t string) float64 { return scene.TextWidth(t, 2, false) }
	at := spread(calls, limit, width)
	for i, c := range calls {
		half := scene.TextWidth(c.text, 2, false) / 2
		if at[i]-half < limit.MinX || at[i]+half > limit.MaxX {
			t.Errorf("%q at %.1f leaves the limit", c.text, at[i])
		}
		if i > 0 && at[i]-half < at[i-1]+half {
			t.Errorf("%q at %.1f touches the one before it", c.text, at[i])
		}
	}
	if got := spread([]call{{50, "x"}}, limit, width)[0]; got != 50 {
		t.Errorf("a text alone moved to %g", got)
	}
}
