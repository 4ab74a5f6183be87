package place

import (
	"math"
	"reflect"
	"testing"
)

func ladder() ([]Box, []Edge) {
	boxes := []Box{{40, 20}, {12, 12}, {5, 5}, {8, 5}, {26, 16}, {5, 5}, {12, 8}}
	edges := []Edge{{0, 1, 5, false}, {1, 2, 5, false}, {2, 3, 5, false}, {3, 5, 5, false},
		{2, 4, 1, false}, {4, 5, 1, false}, {5, 6, 5, false}, {6, 0, 1, true}}
	return boxes, edges
}

func TestBoxesDoNotOverlapAndFlowRight(t *testing.T) {
	boxes, edges := ladder()
	pts, err := Boxes(boxes, edges, 15, 12)
	if err != nil {
		t.Fatal(err)
	}
	for i := range boxes {
		for j := range i {
			dx := math.Abs(pts[i].X-pts[j].X) - (boxes[i].W+boxes[j].W)/2
			dy := math.Abs(pts[i].Y-pts[j].Y) - (boxes[i].H+boxes[j].H)/2
			if dx < 0 && dy < 0 {
				t.Errorf("boxes %d and %d overlap: %v %v", i, j, pts[i], pts[j])
			}
		}
	}
	for _, e := range edges {
		if !e.Free && pts[e.To].X <= pts[e.From].X {
			t.Errorf("edge %v runs back: %v to %v", e, pts[e.From], pts[e.To])
		}
	}
	again, err := Boxes(boxes, edges, 15, 12)
	if err != nil || !reflect.DeepEqual(pts, again) {
		t.Errorf("a second layout differs (%v)", err)
	}
}

func TestBoxesRefuseNonsense(t *testing.T) {
	for name, c := range map[string]struct {
		boxes []Box
		edges []Edge
	}{
		"no width":       {[]Box{{0, 5}}, nil},
		"not a number":   {[]Box{{math.NaN(), 5}}, nil},
		"huge":           {[]Box{{1e9, 5}}, nil},
		"edge to no box": {[]Box{{5, 5}}, []Edge{{From: 0, To: 1}}},
	} {
		if _, err := Boxes(c.boxes, c.edges, 5, 5); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	if pts, err := Boxes(nil, nil, 5, 5); err != nil || pts != nil {
		t.Errorf("nothing to place: %v %v", pts, err)
	}
}

func TestReadRefusesJunk(t *testing.T) {
	for _, out := range []string{"", "{}", `{"bb":"0,0,1,1","objects":[]}`,
		`{"bb":"0,0,1,1","objects":[{"name":"n0","pos":"nan,1"}]}`,
		`{"bb":"0,0,1,1","objects":[{"name":"n0","pos":"1,1"},{"name":"n0","pos":"1,1"}]}`,
		`{"bb":"0,0,1,1","objects":[{"name":"n7","pos":"1,1"}]}`} {
		if _, err := read([]byte(out), 1); err == nil {
			t.Errorf("%q was read", out)
		}
	}
}

func BenchmarkBoxes500(b *testing.B) {
	var boxes []Box
	var edges []Edge
	for i := range 500 {
		boxes = append(boxes, Box{12, 8})
		if i > 0 {
			edges = append(edges, Edge{From: i - 1, To: i, Weight: 5})
		}
		if i%7 == 0 && i > 7 {
			edges = append(edges, Edge{From: i - 5, To: i, Weight: 1})
		}
	}
	for b.Loop() {
		if _, err := Boxes(boxes, edges, 10, 10); err != nil {
			b.Fatal(err)
		}
	}
}
