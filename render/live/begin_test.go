package live

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	"dryfit/graph/whatif"
	"dryfit/render/scene"
	"dryfit/render/schematic"
)

// invented answers to the blanks of a template, by key: the first that reads is taken. What
// they say does not matter: no figure of theirs is drawn.
var invented = map[string][]string{
	"size": {"2 in", "50 mm", "38 mm"}, "ports-size": {"1 1/2 in", "50 mm"}, "measured-outside-diameter": {"60.3 mm", "63 mm"}, "material": {"pvc-u"},
	"volume": {"1200 l"}, "region": {"eu"}, "earthing": {"tn-s"}, "runs-for-heat": {"hours"}, "cover-rating": {"34 m3/h"}, "legs": {"right 1200 mm"}, "count": {"12"},
	"highest-pressure": {"3 bar"}, "at": {"right 1500 mm"}, "ports-face": {"left"}, "refrigerant": {"R32"}, "stands-on": {"slab"}, "faces": {"up"},
}

// anything is tried where no answer is listed.
var anything = []string{"true", "A tub", "500 mm", "3 m3/h", "5 kPa", "38 °C", "3 bar", "2 kW", "230 V", "12 A"}

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
			for _, a := range append(invented[key], anything...) {
				if text, err := j.Fill(f.Path, a); err == nil {
					j.Text, done = text, true
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
				tag = it.Tag
			case scene.Text:
				tag = it.Tag
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
