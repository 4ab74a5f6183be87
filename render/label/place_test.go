package label

import (
	"testing"

	"dryfit/render/scene"
)

func at(x, y float64) scene.Box { return scene.Box{MinX: x, MinY: y, MaxX: x + 10, MaxY: y + 4} }

func TestChoose(t *testing.T) {
	line := scene.Box{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}
	for name, c := range map[string]struct {
		labels   [][]Spot
		fixed    []scene.Box
		want     []int
		overlaps int
	}{
		"cheapest free place":  {[][]Spot{{{Box: at(0, 0), Cost: 2}, {Box: at(20, 0), Cost: 1}}}, nil, []int{1}, 0},
		"a line is in the way": {[][]Spot{{{Box: at(0, 8), Cost: 0}, {Box: at(0, 12), Cost: 5}}}, []scene.Box{line}, []int{1}, 0},
		"the first has the first choice": {[][]Spot{{{Box: at(0, 0), Cost: 0}, {Box: at(0, 5), Cost: 9}}, {{Box: at(0, 0), Cost: 0}, {Box: at(0, 20), Cost: 1}}},
			nil, []int{0, 1}, 0},
		"the first gives way":     {[][]Spot{{{Box: at(0, 0), Cost: 0}, {Box: at(0, 20), Cost: 1}}, {{Box: at(0, 0), Cost: 0}}}, nil, []int{1, 0}, 0},
		"no way out":              {[][]Spot{{{Box: at(0, 8), Cost: 0}}}, []scene.Box{line}, []int{0}, 1},
		"in parts, past a corner": {[][]Spot{{{Box: at(0, 8), Parts: []scene.Box{{MinX: 0, MinY: 8, MaxX: 10, MaxY: 9}}}, {Box: at(0, 30), Cost: 1}}}, []scene.Box{line}, []int{0}, 0},
		"in parts, in the way":    {[][]Spot{{{Box: at(0, 8), Parts: []scene.Box{{MinX: 0, MinY: 8, MaxX: 10, MaxY: 11}}}, {Box: at(0, 30), Cost: 1}}}, []scene.Box{line}, []int{1}, 0},
		"nothing to choose":       {[][]Spot{nil}, nil, []int{-1}, 0},
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
