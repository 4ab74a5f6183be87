package label

import (
	"testing"

	"dryfit/render/scene"
)

func at(x, y float64) scene.Box { return scene.Box{MinX: x, MinY: y, MaxX: x + 10, MaxY: y + 4} }

func TestChoose(t *testing.T) {
	line := scene.Box{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}
	for name, c := range map[string]struct {
		labels   [][]Place
		fixed    []scene.Box
		want     []int
		overlaps int
	}{
		"cheapest free place":  {[][]Place{{{at(0, 0), 2}, {at(20, 0), 1}}}, nil, []int{1}, 0},
		"a line is in the way": {[][]Place{{{at(0, 8), 0}, {at(0, 12), 5}}}, []scene.Box{line}, []int{1}, 0},
		"the first has the first choice": {[][]Place{{{at(0, 0), 0}, {at(0, 5), 9}}, {{at(0, 0), 0}, {at(0, 20), 1}}},
			nil, []int{0, 1}, 0},
		"the first gives way": {[][]Place{{{at(0, 0), 0}, {at(0, 20), 1}}, {{at(0, 0), 0}}}, nil, []int{1, 0}, 0},
		"no way out":          {[][]Place{{{at(0, 8), 0}}}, []scene.Box{line}, []int{0}, 1},
		"nothing to choose":   {[][]Place{nil}, nil, []int{-1}, 0},
	} {
		got, over := Choose(c.labels, c.fixed)
		n := len(over)
		if len(got) != len(c.want) || n != c.overlaps {
			t.Errorf("%s: %v, %d overlaps; want %v, %d", name, got, n, c.want, c.overlaps)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: %v, want %v", name, got, c.want)
			}
		}
	}
}
