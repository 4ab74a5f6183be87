package isometric

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	"dryfit/graph/plan"
	"dryfit/render/isometric/picture"
	"dryfit/render/scene"
	"dryfit/render/scene/differ"
	"dryfit/render/tag"
)

// input is what the isometric of a description is drawn from, worked out once for all tests:
// none of them changes what it points at.
func input(t testing.TB, file string) Input {
	t.Helper()
	in, err := inputs.of(file)
	if err != nil {
		t.Fatal(err)
	}
	return in
}

var inputs = once[string, Input]{do: func(file string) (Input, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return Input{}, err
	}
	c, ds := description.Read(filepath.Base(file), data)
	for _, d := range ds {
		if d.Severity == graph.Error {
			return Input{}, fmt.Errorf("%s: %s", file, d.Message)
		}
	}
	p, err := plan.Make(c, plan.Findings)
	if err != nil {
		return Input{}, err
	}
	return Input{Layout: p.After.Layout, Assembly: p.Assembly, Names: tag.Of(p.Circuit, p.Net()), Asked: c.Retrofit}, nil
}}

// drawnFile is the isometric of a description on its own page, drawn once for all tests: none
// of them changes it.
func drawnFile(t testing.TB, file string) []*scene.Scene {
	t.Helper()
	pages, err := drawings.of(file)
	if err != nil {
		t.Fatal(err)
	}
	return pages
}

var drawings = once[string, []*scene.Scene]{do: func(file string) ([]*scene.Scene, error) {
	in, err := inputs.of(file)
	if err != nil {
		return nil, err
	}
	return Draw(in), nil
}}

// once works out a value for each key the first time it is asked for.
type once[K comparable, V any] struct {
	do   func(K) (V, error)
	mu   sync.Mutex
	have map[K]V
}

func (o *once[K, V]) of(key K) (V, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	if v, ok := o.have[key]; ok {
		return v, nil
	}
	v, err := o.do(key)
	if err == nil {
		if o.have == nil {
			o.have = map[K]V{}
		}
		o.have[key] = v
	}
	return v, err
}

func demos(t testing.TB) []string {
	t.Helper()
	top, _ := filepath.Glob("../../testdata/*.toml")
	own, _ := filepath.Glob("testdata/*.toml")
	if len(top) == 0 || len(own) == 0 {
		t.Fatal("no examples")
	}
	return append(top, own...)
}

// Look at a golden file before it is committed.
func TestGoldenDemos(t *testing.T) {
	kept := golden.In(t, "testdata/*.svg", differ.Picture)
	for _, file := range demos(t) {
		pages := drawnFile(t, file)
		for k, s := range pages {
			name := strings.TrimSuffix(filepath.Base(file), ".toml")
			if len(pages) > 1 {
				name += "-" + picture.Number(k+1)
			}
			kept.Is(filepath.Join("testdata", name+".svg"), scene.SVG(s))
		}
	}
}

// Drawn once more it is the same: nothing of the first time is left over.
func TestDrawsTheSameAgain(t *testing.T) {
	in := input(t, "../../testdata/plunge-pool.toml")
	pages := Draw(in)
	for k, again := range Draw(in) {
		if !bytes.Equal(scene.SVG(pages[k]), scene.SVG(again)) {
			t.Errorf("sheet %d is drawn differently the second time", k+1)
		}
	}
}

// No label stands on another or on a line, no dimension or leader crosses a line, and nothing
// leaves the frame, on any page of any example.
func TestNothingOverlaps(t *testing.T) {
	for _, file := range demos(t) {
		for k, s := range drawnFile(t, file) {
			for _, c := range clashes(s) {
				t.Errorf("%s, sheet %d: %s", file, k+1, c)
			}
			frame := scene.Box{MinX: 20, MinY: 10, MaxX: s.WidthMM - 10, MaxY: s.HeightMM - 10}.Grow(0.36)
			for _, it := range s.Items {
				if b := scene.Bounds(it); !b.IsEmpty() && !frame.Contains(b) {
					t.Errorf("%s, sheet %d: %+v leaves the frame", file, k+1, b)
				}
			}
		}
	}
}

// The test above fails when labels are moved onto each other or onto a line.
func TestOverlapIsFound(t *testing.T) {
	var page *scene.Scene // one with two lengths or more
	for _, s := range drawnFile(t, "../../testdata/two-speed.toml") {
		n := 0
		for _, it := range s.Items {
			if x, ok := it.(scene.Text); ok && x.Name == "label:length" {
				n++
			}
		}
		if n > 1 {
			page = s
			break
		}
	}
	if page == nil {
		t.Fatal("no page has two lengths")
	}
	if c := clashes(page); len(c) > 0 {
		t.Fatalf("the page as drawn has %v", c)
	}
	var lengths []int
	var pipe scene.Shape
	for i, it := range page.Items {
		switch it := it.(type) {
		case scene.Text:
			if it.Name == "label:length" {
				lengths = append(lengths, i)
			}
		case scene.Shape:
			if strings.HasPrefix(it.Name, "run:") {
				pipe = it
			}
		}
	}
	moved := func(i int, to scene.Point) *scene.Scene {
		out := *page
		out.Items = append([]scene.Item{}, page.Items...)
		text := out.Items[i].(scene.Text)
		text.At = to
		out.Items[i] = text
		return &out
	}
	if c := clashes(moved(lengths[0], page.Items[lengths[1]].(scene.Text).At)); len(c) == 0 {
		t.Error("a label on another label is not found")
	}
	if c := clashes(moved(lengths[0], pipe.Paths[0].Start)); len(c) == 0 {
		t.Error("a label on a pipe is not found")
	}
}
