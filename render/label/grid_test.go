package label

import (
	"testing"

	"dryfit/render/scene"
)

// What two boxes share, by hand; either way round, and none where they only touch.
func TestShared(t *testing.T) {
	a := scene.Box{MinX: 10, MinY: 20, MaxX: 20, MaxY: 24} // 10 by 4
	for name, c := range map[string]struct {
		b    scene.Box
		want float64
	}{
		"itself":         {a, 40},
		"over a corner":  {scene.Box{MinX: 17, MinY: 23, MaxX: 30, MaxY: 30}, 3},
		"across it":      {scene.Box{MinX: 12, MinY: 0, MaxX: 14, MaxY: 50}, 8},
		"along it":       {scene.Box{MinX: 0, MinY: 21, MaxX: 50, MaxY: 22}, 10},
		"inside":         {scene.Box{MinX: 11, MinY: 21, MaxX: 12, MaxY: 23}, 2},
		"touches a side": {scene.Box{MinX: 20, MinY: 20, MaxX: 30, MaxY: 24}, 0},
		"beside it":      {scene.Box{MinX: 21, MinY: 20, MaxX: 30, MaxY: 24}, 0},
		"above it":       {scene.Box{MinX: 10, MinY: 0, MaxX: 20, MaxY: 19}, 0},
		"past a corner":  {scene.Box{MinX: 21, MinY: 25, MaxX: 30, MaxY: 30}, 0},
	} {
		if x, y := shared(&a, &c.b), shared(&c.b, &a); x != c.want || y != c.want {
			t.Errorf("%s: %g and %g mm², want %g", name, x, y, c.want)
		}
		if x, y := a.Overlaps(c.b), c.b.Overlaps(a); x != (c.want > 0) || y != (c.want > 0) {
			t.Errorf("%s: overlaps %v and %v", name, x, y)
		}
	}
}

// Where every place covers something the one that covers least is taken: 10 by 1 mm of a line 1 mm
// thick, not 10 by 2 of one that is 2 mm thick.
func TestChooseCoversLeast(t *testing.T) {
	fixed := []scene.Box{{MinX: 0, MinY: 1, MaxX: 100, MaxY: 3}, {MinX: 0, MinY: 11, MaxX: 100, MaxY: 12}}
	for name, labels := range map[string][][]Spot{
		"least last":  {{{Box: at(40, 0)}, {Box: at(40, 10)}}},
		"least first": {{{Box: at(40, 10)}, {Box: at(40, 0)}}},
	} {
		got, _ := Choose(labels, fixed)
		if y := labels[0][got[0]].Box.MinY; y != 10 {
			t.Errorf("%s: stands at %g mm", name, y)
		}
	}
}
