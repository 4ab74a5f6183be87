package schematic

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// What is too much for A4 is cut into sheets of A4: every name stands on one of them, as often as
// on the one sheet of A3, in letters that can be read (1.8 mm, ISO 3098 from memory), and every
// match line on two, each of which names the other's number.
func TestCutIntoSheets(t *testing.T) {
	names := func(pages []*scene.Scene) map[string]int {
		out := map[string]int{}
		for _, p := range pages {
			for _, it := range p.Items {
				if x, ok := it.(scene.Text); ok && strings.HasPrefix(x.Name, "label") && x.Name != "label:match" {
					out[x.Name+" "+x.Text]++
				}
			}
		}
		return out
	}
	c := read(t, "testdata/every-kind.toml")
	pages, whole := Draw(Input{Circuit: c, Sheet: 4}), names(Draw(Input{Circuit: c, Page: a3}))
	if len(pages) < 2 || len(whole) < 40 {
		t.Fatalf("%d sheets, %d names", len(pages), len(whole))
	}
	got := names(pages)
	for name, n := range whole {
		if got[name] != n {
			t.Errorf("%q stands %d times, on one sheet %d", name, got[name], n)
		}
	}
	where := map[string][]int{}
	goes := map[string][]string{}
	note := regexp.MustCompile(`([A-Z](?:, [A-Z])*) on sheet (\d+)`)
	for n, p := range pages {
		if p.WidthMM*p.HeightMM != 297*210 {
			t.Errorf("sheet %d is %g by %g mm", n+1, p.WidthMM, p.HeightMM)
		}
		words := ""
		for _, it := range p.Items {
			x, ok := it.(scene.Text)
			if !ok {
				continue
			}
			if x.SizeMM < sheet.LeastEm-1e-9 {
				t.Errorf("sheet %d: %q is %.2f mm high", n+1, x.Text, x.SizeMM)
			}
			if x.Name == "label:match" {
				where[x.Text] = append(where[x.Text], n+4)
			}
			if x.Name == "note" {
				words += " " + x.Text
			}
		}
		for _, m := range note.FindAllStringSubmatch(words, -1) {
			for _, name := range strings.Split(m[1], ", ") {
				goes[name] = append(goes[name], m[2])
			}
		}
	}
	for name, on := range where {
		if len(on) != 2 || len(goes[name]) != 2 || goes[name][0] != strconv.Itoa(on[1]) || goes[name][1] != strconv.Itoa(on[0]) {
			t.Errorf("match line %s stands on sheets %v, and its notes say %v", name, on, goes[name])
		}
	}
}

// A sheet that a pipe only passes is none: the pipe goes on by one letter from the sheet before it to
// that behind it. One on which something stands, or that two pipes pass, stays.
func TestSheetsThatPipesOnlyPass(t *testing.T) {
	run := func(name string, pts ...scene.Point) scene.Item {
		return scene.Polyline(pts, scene.Stroke(0.5)).Named("run:" + name)
	}
	box := func(x, y float64) tile { return tile{box: scene.Box{MinX: x, MinY: y, MaxX: x + 10, MaxY: y + 10}} }
	join := func(d *drawing, tiles []tile) []tile {
		n := 0
		for i := range tiles {
			for k := range i {
				n = d.join(&tiles[k], &tiles[i], n)
			}
		}
		return d.busy(tiles)
	}
	sign := scene.Circle(scene.Point{X: 5, Y: 5}, 1, scene.Stroke(0.5)).Named("symbol:a")
	far := scene.Circle(scene.Point{X: 15, Y: 5}, 1, scene.Stroke(0.5)).Named("symbol:b")
	// out of the first tile, down through the one under the second, and into the second
	round := run("r", scene.Point{X: 5, Y: 5}, scene.Point{X: 5, Y: 15}, scene.Point{X: 15, Y: 15}, scene.Point{X: 15, Y: 5})
	square := func() []tile { return []tile{box(0, 0), box(10, 0), box(0, 10), box(10, 10)} }
	d := &drawing{items: []scene.Item{sign, far, round}}
	got := join(d, square())
	if len(got) != 2 || len(got[0].marks) != 1 || len(got[1].marks) != 1 || got[0].marks[0].name != "A" || got[1].marks[0].name != "A" {
		t.Errorf("of four tiles two of which a pipe only passes %d are left: %+v", len(got), got)
	}
	if words := goesOn(got, 0, 1); words != "Match lines: A on sheet 2." {
		t.Errorf("the first sheet says %q", words)
	}
	valve := scene.Circle(scene.Point{X: 15, Y: 15}, 1, scene.Stroke(0.5)).Named("symbol:v")
	if got := join(&drawing{items: []scene.Item{sign, far, round, valve}}, square()); len(got) != 3 {
		t.Errorf("a valve stands on the fourth: %d tiles", len(got))
	}
	second := run("s", scene.Point{X: 4, Y: 5}, scene.Point{X: 4, Y: 16}, scene.Point{X: 16, Y: 16}, scene.Point{X: 16, Y: 5})
	if got := join(&drawing{items: []scene.Item{sign, far, round, second}}, square()); len(got) != 4 {
		t.Errorf("two pipes pass: %d tiles", len(got))
	}
}

// However long the name of a mouth at the foot of the tub, it stands within the tub's walls.
func TestMouthsWithinTheTub(t *testing.T) {
	c := read(t, "testdata/bypass-spring.toml")
	for _, p := range c.OfKind(graph.Tub) {
		for i := range p.Ports {
			long := p.Ports[i].Name + "-behind-the-filter-well-left"
			for _, r := range c.Runs {
				for _, end := range []*graph.PortRef{&r.From, &r.To} {
					if end.Part == p.ID && end.Port == p.Ports[i].Name {
						end.Port = long
					}
				}
			}
			p.Ports[i].Name = long
		}
	}
	seen := 0
	for _, page := range Draw(Input{Circuit: c}) {
		var tub scene.Box
		for _, it := range page.Items {
			if s, ok := it.(scene.Shape); ok && s.Name == "symbol:tub" {
				tub = tub.Union(scene.Bounds(s))
			}
		}
		for _, it := range page.Items {
			if x, ok := it.(scene.Text); ok && strings.HasPrefix(x.Name, "label:port:") {
				seen++
				if b := scene.Bounds(x); b.MinX < tub.MinX || b.MaxX > tub.MaxX {
					t.Errorf("%q goes from %.1f to %.1f, the tub from %.1f to %.1f", x.Text, b.MinX, b.MaxX, tub.MinX, tub.MaxX)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no mouth has a name")
	}
}
