package live

import (
	"fmt"
	"html"
	"math"
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/scene"
	"dryfit/render/schematic"
)

// invented answers to the blanks of a template, by key: the first that reads is taken. What
// they say does not matter: no figure of theirs is drawn.
var invented = map[string][]string{
	"size": {"2 in", "50 mm", "38 mm"}, "ports-size": {"1 1/2 in", "50 mm"}, "measured-outside-diameter": {"60.3 mm", "63 mm"}, "material": {"pvc-u"},
	"volume": {"1200 l"}, "region": {"eu"}, "earthing": {"tn-s"}, "runs-for-heat": {"hours"}, "cover-rating": {"34 m3/h"}, "legs": {"right 1200 mm"}, "count": {"12"},
	"output": {"8 kW"}, "input": {"2 kW"}, "highest-pressure": {"3 bar"}, "at": {"right 1500 mm"}, "ports-face": {"front"}, "refrigerant": {"R32"}, "stands-on": {"slab"}, "faces": {"up"},
}

// anything is tried where no answer is listed.
var anything = []string{"true", "A tub", "500 mm", "3 m3/h", "5 kPa", "38 °C", "3 bar", "2 kW", "230 V", "12 A"}

// fits is what was taken for a key before: it is tried first.
var fits = map[string]string{}

// filled is a template with its blanks filled by whatever reads.
func filled(t *testing.T, name string) whatif.Job {
	t.Helper()
	text, err := description.Template(name)
	if err != nil {
		t.Fatal(err)
	}
	j := whatif.Job{File: name, Text: text}
	for _, table := range j.Form() {
		for _, f := range table.Fields {
			if !f.Blank {
				continue
			}
			key := f.Label[strings.LastIndexAny(f.Label, " .")+1:]
			done := false
			for _, a := range append(append([]string{fits[key]}, invented[key]...), anything...) {
				if a == "" {
					continue
				}
				if text, err := j.Fill(f.Path, a); err == nil {
					j.Text, done, fits[key] = text, true, a
					break
				}
			}
			if !done {
				t.Fatalf("%s: nothing fits %s", name, f.Label)
			}
		}
	}
	return j
}

// The small drawings are those of the templates as they are now: what stands in the cabinet,
// without the sheet around it.
func TestCircuitsAreDrawn(t *testing.T) {
	files := golden.In(t, "circuits/*.svg", nil)
	for _, name := range description.Templates() {
		j := filled(t, name)
		c, found := j.Read()
		if c == nil {
			t.Fatalf("%s: %v", name, found)
		}
		pages := schematic.Draw(schematic.Input{Circuit: c, Stage: graph.Before})
		if len(pages) != 1 {
			t.Fatalf("%s: %d sheets", name, len(pages))
		}
		small := &scene.Scene{}
		box := scene.Empty()
		for _, it := range pages[0].Items {
			tag := ""
			switch it := it.(type) {
			case scene.Shape:
				tag = it.Name
			case scene.Text:
				tag = it.Name
			}
			kind, _, _ := strings.Cut(tag, ":")
			if words, ok := it.(scene.Text); ok && (words.Text == "disconnected" || words.Text != "" && words.Text[0] >= '0' && words.Text[0] <= '9') {
				continue // an answer of ours
			}
			if kind == "run" || kind == "symbol" || kind == "flow" || kind == "label" {
				b := scene.Bounds(it)
				box = box.Add(scene.Point{X: b.MinX, Y: b.MinY}).Add(scene.Point{X: b.MaxX, Y: b.MaxY})
				small.Add(it)
			}
		}
		for _, it := range toBeFitted(t, c, small.Items) {
			b := scene.Bounds(it)
			box = box.Add(scene.Point{X: b.MinX, Y: b.MinY}).Add(scene.Point{X: b.MaxX, Y: b.MaxY})
			small.Add(it)
		}
		box = box.Grow(2)
		whole := scene.SVG(&scene.Scene{WidthMM: math.Ceil(box.W()), HeightMM: math.Ceil(box.H()), Items: moved(small.Items, -box.MinX, -box.MinY)})
		svg := string(whole[strings.Index(string(whole), "<svg"):])
		svg = strings.Replace(svg, "<svg ", `<svg role="img" aria-label="the circuit `+name+`" `, 1)
		if n := strings.Count(svg, `class="symbol:`); n < 5 {
			t.Errorf("%s: %d symbols", name, n)
		}
		files.Is("circuits/"+name+".svg", []byte(svg))
	}
}

// toBeFitted is the unit beside the line that is cut, and its two pipes dashed: the blanks of the
// unit and of the request for it are asked for there.
func toBeFitted(t *testing.T, c *graph.Circuit, items []scene.Item) []scene.Item {
	t.Helper()
	line, fitted := "", "unit"
	if c.Retrofit != nil {
		line, fitted = c.Retrofit.Cut.Run, c.Retrofit.Unit
	} else { // described with the work in it: where old pipe goes
		for _, r := range c.Runs {
			if r.Removed {
				line = r.ID
			}
		}
	}
	var a, b scene.Point // the longest straight of it
	for _, it := range items {
		s, ok := it.(scene.Shape)
		if !ok || s.Name != "run:"+line && !strings.HasPrefix(s.Name, "run:"+line+" ") {
			continue
		}
		for _, p := range s.Paths {
			at := p.Start
			for _, g := range p.Segments {
				if math.Hypot(g.To.X-at.X, g.To.Y-at.Y) > math.Hypot(b.X-a.X, b.Y-a.Y) {
					a, b = at, g.To
				}
				at = g.To
			}
		}
	}
	if a == b {
		t.Fatalf("no line to fit the unit in: %q", line)
	}
	centre := scene.Point{}
	for _, it := range items {
		box := scene.Bounds(it)
		centre.X += (box.MinX + box.MaxX) / 2 / float64(len(items))
		centre.Y += (box.MinY + box.MaxY) / 2 / float64(len(items))
	}
	mid := scene.Point{X: (a.X + b.X) / 2, Y: (a.Y + b.Y) / 2}
	long := math.Hypot(b.X-a.X, b.Y-a.Y)
	along := scene.Point{X: (b.X - a.X) / long, Y: (b.Y - a.Y) / long}
	out := scene.Point{X: -along.Y, Y: along.X} // away from the middle of the drawing
	if out.X*(mid.X-centre.X)+out.Y*(mid.Y-centre.Y) < 0 {
		out = scene.Point{X: -out.X, Y: -out.Y}
	}
	at := func(u, v float64) scene.Point {
		return scene.Point{X: mid.X + u*along.X + v*out.X, Y: mid.Y + u*along.Y + v*out.Y}
	}
	dashed := scene.Style{StrokeMM: 0.35, Dash: []float64{1.6, 1}}
	var made []scene.Item
	apart, far := 5.0, 8.0
	if long < 20 { // a short line between two symbols: over them
		apart, far = long/4, 14
	}
	for _, u := range []float64{-apart, apart} {
		pipe := scene.Line(at(u, 0), at(u, far), dashed)
		pipe.Name = "run:retrofit"
		made = append(made, pipe)
	}
	p, q := at(-9, far), at(9, far+11)
	x, y := math.Min(p.X, q.X), math.Min(p.Y, q.Y)
	unit := scene.Rect(x, y, math.Abs(p.X-q.X), math.Abs(p.Y-q.Y), scene.Style{StrokeMM: 0.35, Fill: true, FillGrey: 1})
	unit.Name = "symbol:" + fitted
	words := scene.Text{At: scene.Point{X: (p.X + q.X) / 2, Y: (p.Y + q.Y) / 2}, Text: fitted, SizeMM: 4.05, Anchor: scene.Centre, Middle: true, Name: "label:" + fitted}
	return append(made, unit, words)
}

func moved(items []scene.Item, dx, dy float64) []scene.Item {
	out := make([]scene.Item, len(items))
	move := func(p scene.Point) scene.Point { return scene.Point{X: p.X + dx, Y: p.Y + dy} }
	for i, it := range items {
		switch it := it.(type) {
		case scene.Text:
			it.At = move(it.At)
			out[i] = it
		case scene.Shape:
			paths := make([]scene.SubPath, len(it.Paths))
			for k, p := range it.Paths {
				paths[k] = scene.SubPath{Start: move(p.Start), Closed: p.Closed}
				for _, g := range p.Segments {
					paths[k].Segments = append(paths[k].Segments, scene.Segment{Curve: g.Curve, C1: move(g.C1), C2: move(g.C2), To: move(g.To)})
				}
			}
			it.Paths = paths
			out[i] = it
		}
	}
	return out
}

// Every circuit there is a template of is offered, in words and drawn.
func TestBeginOffersEveryCircuit(t *testing.T) {
	page := BeginHTML()
	for _, name := range description.Templates() {
		if !strings.Contains(page, `data-begin="`+name+`"`) || circuitWords[name] == "" || smallCircuit(name) == "" {
			t.Errorf("%s is not offered", name)
		}
	}
}

// Every table with blanks that is of the circuit has its place in the small drawing: its own symbol
// or pipe, any old pipe, or the unit with the two pipes to it. The rest is of no place in it.
func TestBlanksHaveAPlaceInTheDrawing(t *testing.T) {
	nowhere := map[string]bool{"[site]": true, "[job]": true, "[supply]": true, "[climate]": true, "[tariff]": true, "[stock]": true}
	for _, name := range description.Templates() {
		text, err := description.Template(name)
		if err != nil {
			t.Fatal(err)
		}
		drawn := smallCircuit(name)
		if strings.Count(drawn, `class="run:retrofit"`) != 2 || !strings.Contains(drawn, `class="symbol:unit"`) {
			t.Errorf("%s: the unit has no place", name)
		}
		j := whatif.Job{File: name, Text: text}
		for _, table := range j.Form() {
			switch {
			case table.Blanks == 0 || nowhere[table.Title]:
			case table.Owner == "":
				t.Errorf("%s: %s has no place", name, table.Title)
			case table.Title == "[water]" && !strings.Contains(drawn, `class="symbol:`+table.Owner+`"`):
				t.Errorf("%s: the water is asked for at %q, which is not drawn", name, table.Owner)
			}
		}
	}
}

// Where a filled-in job can't be built, its form says at the key what is wrong and what would be
// right, and leads there from its head and from the findings.
func TestFormLeadsOut(t *testing.T) {
	text, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	whole := strings.Replace(string(text), `flow = { least = "2.8 m3/h", rated = "4.2 m3/h"`, `flow = { least = "7.8 m3/h", rated = "7.9 m3/h"`, 1) // more than there is at low
	j := whatif.Job{File: "job.toml", Text: []byte(whole)}
	_, found := j.Plan(plan.Flows | plan.Findings)
	var wrong graph.Diagnostic
	for _, d := range graph.Errors(found) {
		if d.Rule == "unit-least-flow" {
			wrong = d
		}
	}
	if wrong.Message == "" {
		t.Fatal("it gets its water after all")
	}
	form, words := FormHTML(&j, found, quantity.MetricSystem), html.EscapeString(wrong.Message.In(quantity.MetricSystem))
	at := fmt.Sprintf("line-%d", wrong.Pos.Line)
	head, rest, _ := strings.Cut(form, "</ul>")
	if !strings.Contains(head, `href="#`+at+`"`) || !strings.Contains(head, words) {
		t.Errorf("the head of the form says nothing of %q", words)
	}
	place := strings.Index(rest, `id="`+at+`"`)
	if place < 0 || strings.Count(form, `id="`+at+`"`) != 1 || !strings.Contains(rest[place:min(len(rest), place+3000)], "flow, least") {
		t.Errorf("%q does not stand before its key", words)
	}
	if open := strings.LastIndex(rest[:max(0, place)], "<details"); open < 0 || !strings.Contains(rest[open:place], " open") {
		t.Error("its table is not open")
	}
	if f := FindingsHTML(&j, found, quantity.MetricSystem); !strings.Contains(f, `href="#`+at+`"`) {
		t.Error("the findings don't lead to the key")
	}
}
