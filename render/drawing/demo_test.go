package drawing

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
	"dryfit/render/sheet"
)

// shop are the views a fitter works from in the workshop; schematic and isometric have their
// goldens beside them.
var shop = []string{"detail", "templates", "cutplan", "labels", "curves"}

// demoPlans is the plan of every demo by its name, worked out once.
var demoPlans = sync.OnceValues(func() (map[string]*plan.Plan, error) {
	files, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("no demos: %w", err)
	}
	out := map[string]*plan.Plan{}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		c, _ := description.Read(filepath.Base(file), data)
		if c == nil {
			return nil, fmt.Errorf("%s: no circuit", file)
		}
		p, err := plan.Make(c, Wants("all"))
		if err != nil {
			return nil, err
		}
		out[strings.TrimSuffix(filepath.Base(file), ".toml")] = p
	}
	return out, nil
})

func demos(t testing.TB) map[string]*plan.Plan {
	t.Helper()
	out, err := demoPlans()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestGoldenDemos(t *testing.T) {
	kept := golden.In(t, "testdata/*.svg", differ.Picture)
	for name, p := range demos(t) {
		for _, view := range shop {
			for i, s := range drawn(t, p, view, quantity.MetricSystem) {
				kept.Is(filepath.Join("testdata", fmt.Sprintf("%s-%s-%d.svg", name, view, i+1)), scene.SVG(s))
			}
		}
	}
}

// drawn returns the figures of a view on its own page, drawn once for all tests: each gets
// scenes of its own, to number and to write on.
func drawn(t testing.TB, p *plan.Plan, view string, units quantity.System) []*scene.Scene {
	t.Helper()
	key := drawnKey{p, view, units}
	pages, ok := haveDrawn[key]
	if !ok {
		var err error
		if pages, err = figures(p, view, sheet.Page{}, units); err != nil {
			t.Fatal(err)
		}
		haveDrawn[key] = pages
	}
	var out []*scene.Scene
	for _, s := range pages {
		own := *s
		own.Items = slices.Clone(s.Items)
		out = append(out, &own)
	}
	return out
}

type drawnKey struct {
	p     *plan.Plan
	view  string
	units quantity.System
}

var haveDrawn = map[drawnKey][]*scene.Scene{}

// On every sheet of every demo, paper and unit: no text on another, none outside the frame,
// no label across a line of the figure.
func TestNothingOverlaps(t *testing.T) {
	pages := []sheet.Page{{}, {Orientation: sheet.Portrait, Fixed: true}, {Format: sheet.A3, Fixed: true}, {Format: sheet.A3, Orientation: sheet.Portrait, Fixed: true}}
	for name, p := range demos(t) {
		for _, view := range shop {
			for _, page := range pages {
				for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
					var list []*scene.Scene
					switch {
					case page == sheet.Page{}:
						list = drawn(t, p, view, units)
					case units == quantity.MetricSystem:
						continue // texts are longer in inches
					case page.Format == sheet.A3 && !lots.Named(name, "two-speed", "large-circulation"):
						continue // what takes little of an A3 says no more than what takes much
					default:
						var err error
						if list, err = figures(p, view, page, units); err != nil {
							t.Fatal(err)
						}
					}
					for i, s := range list {
						for _, fault := range faults(s) {
							t.Errorf("%s %s %d, %v, units %v: %s", name, view, i+1, page, units, fault)
						}
					}
				}
			}
		}
	}
}

// faults lists what overlaps on a sheet.
func faults(s *scene.Scene) []string {
	var out []string
	frame := scene.Box{MinX: 20, MinY: 10, MaxX: s.WidthMM - 10, MaxY: s.HeightMM - 10}.Grow(sheet.Thick)
	var texts []scene.Text
	var lines []scene.Shape
	for _, it := range s.Items {
		if b := scene.Bounds(it); !b.IsEmpty() && !frame.Contains(b) {
			out = append(out, fmt.Sprintf("%+v leaves the frame", it))
		}
		switch it := it.(type) {
		case scene.Text:
			texts = append(texts, it)
			if strings.Contains(strings.ReplaceAll(it.Text, ", …:", ""), "…") { // but for "J1, J2, …: joints"
				out = append(out, fmt.Sprintf("%q is cut off", it.Text))
			}
		case scene.Shape:
			switch what, _, _ := strings.Cut(it.Name, ":"); what {
			case "dimension", "extension", "cut-line", "pipe", "insertion", "saw-line", "depth-line", "cut", "duty":
				lines = append(lines, it)
			}
		}
	}
	for i, a := range texts {
		box := inner(a)
		for _, b := range texts[:i] {
			if box.Overlaps(inner(b)) {
				out = append(out, fmt.Sprintf("%q and %q overlap", a.Text, b.Text))
			}
		}
		if what, _, _ := strings.Cut(a.Name, ":"); what != "name" && what != "piece" && what != "label" && what != "old" && what != "on" {
			continue
		}
		for _, l := range lines {
			if box.Overlaps(scene.Bounds(l)) {
				out = append(out, fmt.Sprintf("%q lies on a line, %s", a.Text, l.Name))
			}
		}
	}
	return out
}

// inner is what the letters of a text cover: its box without the room for descenders that
// few of them use.
func inner(t scene.Text) scene.Box {
	return scene.Bounds(t).Grow(-0.12 * t.SizeMM)
}

// The cut lines of the detail stand as far apart as the marking on the old pipe says, at the
// scale of the title block: two rooms' sums of the same lengths agree on paper.
func TestDetailIsTrueToScale(t *testing.T) {
	checked := 0
	for name, p := range demos(t) {
		if p.Proposal == nil {
			continue
		}
		pages := drawn(t, p, "detail", quantity.MetricSystem)
		if len(pages) == 0 {
			t.Errorf("%s: no detail", name)
			continue
		}
		per, x := 0.0, map[string]float64{}
		for _, it := range pages[0].Items {
			switch it := it.(type) {
			case scene.Text:
				if it.Name == "title:Scale" {
					fmt.Sscanf(it.Text, "1:%g", &per)
				}
			case scene.Shape:
				if cut, ok := strings.CutPrefix(it.Name, "cut-line:"); ok {
					x[cut] = scene.Bounds(it).Centre().X
				}
			}
		}
		m := p.Proposal.Marking
		want := m.SecondMM - m.FirstMM
		if got := math.Abs(x["X2"]-x["X1"]) * per; len(x) != 2 || !agree.Within(got, want, 0.05) {
			t.Errorf("%s: the cuts are %.2f mm apart on the detail %v, %.2f mm on the pipe", name, got, x, want)
		}
		checked++
	}
	if checked < 3 {
		t.Errorf("only %d demos have a detail", checked)
	}
}

// A view without pages is one that says why.
func TestEveryViewDrawsOrSaysWhy(t *testing.T) {
	for name, p := range demos(t) {
		for _, view := range Views() {
			if pages := drawn(t, p, view, quantity.MetricSystem); len(pages) == 0 && Nothing(view) == Nothing("") {
				t.Errorf("%s %s: no page and no word why", name, view)
			}
		}
	}
}
