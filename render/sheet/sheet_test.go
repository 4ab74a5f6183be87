package sheet

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/golden"
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
)

func job() graph.Job {
	return graph.Job{Name: "Invented job: six-seat tub by the shed, one two-speed pump and a heat pump on the slab behind it",
		Reference: "J-0042/7", PreparedBy: "A. Fitter", Revision: "B", Date: "2026-04-18"}
}

func filled(f Format, o Orientation) *Sheet {
	h := HeadOf(job(), "Schematic")
	h.Sheet, h.Of = 1, 3
	h.Symbols = "after ISO 10628-2"
	s := New(f, o, h)
	var entries []Entry
	for _, n := range []string{"gate valve", "ball valve", "existing pipe", "new pipe", "cut line", "union", "pump"} {
		entries = append(entries, Entry{Symbol: []scene.Item{scene.Circle(scene.Point{}, 5, scene.Stroke(Thin))}, W: 10, H: 10, Text: n})
	}
	s.Legend(entries...)
	s.Notes("Isolate and lock off the supply before the panel is opened.", strings.Repeat("Measure the outside diameter before ordering. ", 4))
	return s
}

func TestGoldenSheets(t *testing.T) {
	kept := golden.In(t, "testdata/*", differ.Picture)
	for name, s := range map[string]*Sheet{
		"a4-landscape.svg": filled(A4, Landscape), "a4-portrait.svg": filled(A4, Portrait),
		"a3-landscape.svg": filled(A3, Landscape), "a3-portrait.svg": filled(A3, Portrait),
	} {
		kept.Is(filepath.Join("testdata", name), scene.SVG(s.Scene))
	}
}

// Nothing may leave the page's frame or touch the free area, however long the texts.
func TestEverythingInTheFrameOutsideTheArea(t *testing.T) {
	long := strings.Repeat("supercalibrated ", 40) + strings.Repeat("W", 3000)
	for _, f := range []Format{A4, A3, Letter} {
		for _, o := range []Orientation{Landscape, Portrait} {
			h := Head{Title: long, Document: long, Reference: long, Revision: long, Date: long, PreparedBy: long, Scale: long, Symbols: long}
			s := New(f, o, h)
			s.Legend(Entry{Text: long}, Entry{Text: "b"}, Entry{Text: long})
			s.Notes(long, long, long, long, long, long, long, long)
			w, ht := f.Size(o)
			frame := scene.Box{MinX: marginLeft, MinY: margin, MaxX: w - margin, MaxY: ht - margin}.Grow(Thick)
			area := s.Area()
			if area.H() < ht/3 || area.W() < w/2 {
				t.Errorf("%v %v: only %v left", f, o, area)
			}
			for _, it := range s.Scene.Items {
				b := scene.Bounds(it)
				if !frame.Contains(b) {
					t.Errorf("%v %v: %+v leaves the frame", f, o, it)
				}
				if sh, ok := it.(scene.Shape); ok && sh.Name == "frame" {
					continue
				}
				if b.Overlaps(area) {
					t.Errorf("%v %v: %+v stands in the free area", f, o, it)
				}
			}
		}
	}
}

func TestFit(t *testing.T) {
	for _, c := range []struct {
		text  string
		width float64
		want  string
	}{
		{"short", 100, "short"},
		{"", 10, ""},
		{"abc", 0, "…"},
		{"well over the width", scene.TextWidth("well over…", 3, false), "well over…"},
	} {
		if got := Fit(c.text, 3, c.width, false); got != c.want {
			t.Errorf("Fit(%q, %g) = %q, want %q", c.text, c.width, got, c.want)
		}
	}
}

func TestWrap(t *testing.T) {
	text := "cut the pipe once with the new string beside it " + strings.Repeat("m", 60)
	lines := Wrap(text, 3, 40, false)
	for _, l := range lines {
		if w := scene.TextWidth(l, 3, false); w > 40 {
			t.Errorf("line %q is %.1f mm wide", l, w)
		}
	}
	if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.ReplaceAll(text, " ", "") {
		t.Errorf("wrapping lost letters: %q", got)
	}
	for _, long := range []string{strings.Repeat("a word and ", 700), strings.Repeat("ü", 6000)} { // longer than any one line
		lines := Wrap(long, 3, 40, false)
		if got := strings.ReplaceAll(strings.Join(lines, ""), " ", ""); got != strings.ReplaceAll(long, " ", "") {
			t.Errorf("of %d letters wrapping kept %d", len(long), len(got))
		}
		for _, l := range lines {
			if w := scene.TextWidth(l, 3, false); w > 40 {
				t.Errorf("line %q is %.1f mm wide", l, w)
			}
		}
	}
	if got := Wrap("  ", 3, 40, false); len(got) != 0 {
		t.Errorf("Wrap of blanks = %q", got)
	}
}

func TestParsePage(t *testing.T) {
	for text, want := range map[string]Page{
		"a4": {Fixed: true}, "A3": {Format: A3, Fixed: true},
		"a4 portrait": {Orientation: Portrait, Fixed: true}, "A3-landscape": {Format: A3, Fixed: true},
		"letter": {Format: Letter, Fixed: true}, "Letter portrait": {Format: Letter, Orientation: Portrait, Fixed: true},
	} {
		if got, err := ParsePage(text); err != nil || got != want {
			t.Errorf("ParsePage(%q) = %+v, %v; want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "a5", "portrait", "a4 a4", "a4 portrait now"} {
		if p, err := ParsePage(text); err == nil {
			t.Errorf("ParsePage(%q) = %+v, want an error", text, p)
		}
	}
}

func TestNotesStayWhole(t *testing.T) {
	s := New(A4, Portrait, HeadOf(job(), "Schematic"))
	long := ""
	for i := range 40 {
		long += fmt.Sprintf("two-%d ", i)
	}
	s.Notes("one", long, "three")
	columns := map[string]float64{}
	for _, it := range s.Scene.Items {
		if x, ok := it.(scene.Text); ok && x.Name == "note" && strings.Contains(x.Text, "two") {
			columns[x.Text] = x.At.X
		}
	}
	least, most := 1e9, 0.0
	for _, x := range columns {
		least, most = min(least, x), max(most, x)
	}
	if len(columns) < 2 || most-least > 10 {
		t.Errorf("a note of %d lines is split over columns: %v", len(columns), columns)
	}
}
