package label

import (
	"slices"
	"testing"

	"dryfit/render/scene"
)

// The first label has one place; the second stands there and has another, which costs it
// what Choose would not pay while a third is in the way there.
func TestUntangleLetsOthersGiveWay(t *testing.T) {
	labels := [][]Place{
		{{Box: at(0, 8)}, {Box: at(0, 0), Cost: 3}}, // its first place is on the line
		{{Box: at(0, 0)}, {Box: at(30, 0), Cost: 5}},
		{{Box: at(30, 0)}, {Box: at(60, 0), Cost: 9}},
	}
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	chosen, overlapping := Untangle(labels, line, []int{0, 0, 1})
	if want := []int{1, 1, 1}; !slices.Equal(chosen, want) || len(overlapping) != 0 {
		t.Errorf("places %v, overlapping %v; want %v and none", chosen, overlapping, want)
	}
}

func TestUntangleTakesBack(t *testing.T) {
	labels := [][]Place{{{Box: at(0, 8)}, {Box: at(0, 0)}}, {{Box: at(0, 0)}}}
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	chosen, overlapping := Untangle(labels, line, []int{0, 0})
	if !slices.Equal(chosen, []int{0, 0}) || !slices.Equal(overlapping, []int{0}) {
		t.Errorf("places %v, overlapping %v; want nothing moved and label 0 left", chosen, overlapping)
	}
}

// Extension lines of one mark may lie on each other; other parts may not.
func TestKeysShare(t *testing.T) {
	place := func(key int) []Place {
		return []Place{{Box: at(0, 0), Parts: []scene.Box{at(0, 0)}, Keys: []int{key}}}
	}
	for _, c := range []struct{ a, b, overlaps int }{{7, 7, 0}, {7, 8, 2}, {0, 0, 2}} {
		_, over := Choose([][]Place{place(c.a), place(c.b)}, nil)
		if len(over) != c.overlaps {
			t.Errorf("keys %d and %d: %d overlap, want %d", c.a, c.b, len(over), c.overlaps)
		}
	}
}
