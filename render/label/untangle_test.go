package label

import (
	"slices"
	"testing"

	"dryfit/render/scene"
)

// The first label can only stand where the second does; the second has a place only if the
// third gives way, which it has no reason to by itself.
func TestSettleLetsOthersGiveWay(t *testing.T) {
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	labels := [][]Spot{
		{{Box: at(0, 0), Cost: 1}, {Box: at(20, 0), Cost: 2}},
		{{Box: at(30, 0)}, {Box: at(60, 0), Cost: 9}},
		{{Box: at(0, 0)}, {Box: at(20, 8), Cost: 5}, {Box: at(33, 0), Cost: 7}},
		{{Box: at(20, 0)}},
	}
	_, left := Choose(labels, line)
	b := NewBoard(labels, line)
	overlapping := b.Settle()
	chosen := b.chosen
	if len(overlapping) != 0 {
		t.Errorf("Choose leaves %v; Settle: places %v, overlapping %v, want none", left, chosen, overlapping)
	}
}

func TestSettleTakesBack(t *testing.T) {
	labels := [][]Spot{{{Box: at(0, 8)}, {Box: at(0, 0)}}, {{Box: at(0, 0)}}}
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	was, before := Choose(labels, line)
	b := NewBoard(labels, line)
	overlapping := b.Settle()
	chosen := b.chosen
	if !slices.Equal(chosen, was) || !slices.Equal(overlapping, before) || len(before) == 0 {
		t.Errorf("places %v, overlapping %v; want them as before, %v and %v", chosen, overlapping, was, before)
	}
}

// Extension lines of one mark may lie on each other; other parts may not.
func TestKeysShare(t *testing.T) {
	place := func(key int) []Spot {
		return []Spot{{Box: at(0, 0), Parts: []scene.Box{at(0, 0)}, Keys: []int{key}}}
	}
	for _, c := range []struct{ a, b, overlaps int }{{7, 7, 0}, {7, 8, 2}, {0, 0, 2}} {
		_, over := Choose([][]Spot{place(c.a), place(c.b)}, nil)
		if len(over) != c.overlaps {
			t.Errorf("keys %d and %d: %d overlap, want %d", c.a, c.b, len(over), c.overlaps)
		}
	}
}

func TestExtendAndDrop(t *testing.T) {
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	b := NewBoard([][]Spot{{{Box: at(0, 8)}}, {{Box: at(20, 0)}}, nil}, line)
	if over := b.Settle(); !slices.Equal(over, []int{0}) {
		t.Fatalf("overlapping %v, want 0 on the line", over)
	}
	b.Extend(0, []Spot{{Box: at(20, 0), Cost: 1}})
	b.Drop(1)
	b.Extend(2, []Spot{{Box: at(40, 0)}})
	if over := b.Settle(); len(over) != 0 || b.Chosen(0) != 1 || b.Chosen(1) != -1 || b.Chosen(2) != 0 {
		t.Errorf("overlapping %v, places %v; want 1, none, 0", over, b.chosen)
	}
}
