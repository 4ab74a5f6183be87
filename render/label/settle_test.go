package label

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"dryfit/render/scene"
)

func boardOf(labels [][]Spot, fixed []scene.Box) *Board {
	b := NewBoard(fixed, Anywhere())
	for i := range labels {
		b.Extend(i, labels[i])
	}
	return b
}

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
	b := boardOf(labels, line)
	if without := b.Settle(); len(without) != 0 || len(left) == 0 {
		t.Errorf("Choose leaves %v overlapping, Settle %v without a place; want some and none", left, without)
	}
}

// Where two labels want the only place there is one has it, and nothing stands on a line.
func TestSettleLeavesNothingOverlapping(t *testing.T) {
	labels := [][]Spot{{{Box: at(0, 8)}, {Box: at(0, 0)}}, {{Box: at(0, 0)}}}
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	b := boardOf(labels, line)
	without := b.Settle()
	if len(without) != 1 || b.Chosen(without[0]) != -1 || b.Chosen(1-without[0]) != without[0] {
		t.Errorf("without a place %v, places %d and %d; want one label at 0, 0", without, b.Chosen(0), b.Chosen(1))
	}
}

// Extension lines of one mark may lie on each other; other parts may not.
func TestKeysShare(t *testing.T) {
	place := func(key int) []Spot {
		return []Spot{{Box: at(0, 0), Parts: []scene.Box{at(0, 0)}, Keys: []int{key}}}
	}
	for _, c := range []struct{ a, b, overlap, without int }{{7, 7, 0, 0}, {7, 8, 2, 1}, {0, 0, 2, 1}} {
		labels := [][]Spot{place(c.a), place(c.b)}
		_, over := Choose(labels, nil)
		if n := len(boardOf(labels, nil).Settle()); len(over) != c.overlap || n != c.without {
			t.Errorf("keys %d and %d: %d overlap, %d without a place; want %d, %d", c.a, c.b, len(over), n, c.overlap, c.without)
		}
	}
}

// The leader of a label may cross what is fixed where only its letters must not; another label
// stands in its way all the same.
func TestBare(t *testing.T) {
	line := []scene.Box{{MinX: 15, MinY: -50, MaxX: 15.5, MaxY: 50}}
	leader := func(bare int) []Spot {
		return []Spot{{Parts: []scene.Box{at(0, 0), {MinX: 10, MinY: 2, MaxX: 30, MaxY: 2.5}}, Bare: bare}}
	}
	for _, c := range []struct {
		labels [][]Spot
		want   []int
	}{
		{[][]Spot{leader(0)}, []int{0}},
		{[][]Spot{leader(1)}, nil},
		{[][]Spot{leader(1), {{Box: at(20, 0)}}}, []int{1}},
	} {
		if got := boardOf(c.labels, line).Settle(); !slices.Equal(got, c.want) {
			t.Errorf("without a place %v, want %v", got, c.want)
		}
	}
}

func TestFrame(t *testing.T) {
	b := NewBoard(nil, scene.Box{MaxX: 100, MaxY: 50})
	b.Extend(0, []Spot{{Box: at(95, 0)}, {Box: at(40, 0), Cost: 3}})
	if without := b.Settle(); len(without) != 0 || b.Chosen(0) != 1 {
		t.Errorf("without a place %v, place %d; want the one inside, 1", without, b.Chosen(0))
	}
}

func TestExtendAndDrop(t *testing.T) {
	line := []scene.Box{{MinX: 0, MinY: 10, MaxX: 100, MaxY: 10.5}}
	b := boardOf([][]Spot{{{Box: at(0, 8)}}, {{Box: at(20, 0)}}, nil}, line)
	if without := b.Settle(); !slices.Equal(without, []int{0, 2}) {
		t.Fatalf("without a place %v, want 0, which stands on the line, and 2, which has none to choose", without)
	}
	b.Extend(0, []Spot{{Box: at(20, 0), Cost: 1}})
	b.Drop(1)
	b.Extend(2, []Spot{{Box: at(40, 0)}})
	if without := b.Settle(); len(without) != 0 || b.Chosen(0) != 1 || b.Chosen(1) != -1 || b.Chosen(2) != 0 {
		t.Errorf("without a place %v, places %d, %d, %d; want 1, none, 0", without, b.Chosen(0), b.Chosen(1), b.Chosen(2))
	}
}

// crowd is labels that have places enough if each takes the right one: a sheet is cut into
// cells, a tenth more than there are labels, each of which may stand in the one meant for it and in
// others, drawn by lot, at a lower cost.
func crowd(n int, seed uint64) [][]Spot {
	r := rand.New(rand.NewPCG(seed, 1))
	cell := func(k int) scene.Box { return at(12*float64(k%10), 6*float64(k/10)) }
	own := r.Perm(n + n/10)
	labels := make([][]Spot, n)
	for i := range labels {
		for range 3 {
			k := r.IntN(len(own))
			labels[i] = append(labels[i], Spot{Box: cell(k), Cost: r.Float64()})
		}
		labels[i] = append(labels[i], Spot{Box: cell(own[i]), Cost: 5})
	}
	return labels
}

// All of a crowd find places, with less work than it takes to compare each two places once, and
// with work for nothing none stands on another.
func TestSettlesACrowd(t *testing.T) {
	for seed := range uint64(20) {
		labels := crowd(60, seed)
		for _, most := range []int{4 * 60 * 4 * 60 / 2, 0} {
			b := boardOf(labels, nil)
			work := Work{most}
			b.Bound(&work)
			without := b.Settle()
			if len(without) > 0 && most > 0 {
				t.Errorf("seed %d: %d of 60 labels have no place", seed, len(without))
			}
			seen := map[string]int{}
			for i := range labels {
				if k := b.Chosen(i); k >= 0 {
					seen[fmt.Sprint(labels[i][k].Box)]++
				}
			}
			for box, n := range seen {
				if n > 1 {
					t.Errorf("seed %d: %d labels at %s", seed, n, box)
				}
			}
		}
	}
}

// No label could move to a cheaper place that is free.
func TestSettleLeavesNoCheaperPlaceFree(t *testing.T) {
	for seed := range uint64(20) {
		b := boardOf(crowd(60, seed), nil)
		b.Settle()
		for i, was := range b.chosen {
			for _, s := range b.labels[i] {
				if was != nil && s.Cost < was.Cost && b.burden(i, s, 1) == 0 {
					t.Errorf("seed %d: label %d costs %.2f, %.2f is free", seed, i, was.Cost, s.Cost)
				}
			}
		}
	}
}
