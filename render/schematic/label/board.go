package label

import (
	"cmp"
	"math"
	"slices"

	"dryfit/render/scene"
)

// Board is where labels stand while places are chosen for them in several steps.
type Board struct {
	labels [][]Place
	order  [][]int     // places of each label, the cheapest first
	fixed  [][]float64 // of each place: how much of what is fixed it covers, mm²
	still  *grid       // what is fixed
	grid   *grid       // the labels at the places chosen
	chosen []int       // -1: none
}

// NewBoard returns a board with nothing placed yet.
func NewBoard(labels [][]Place, fixed []scene.Box) *Board {
	b := &Board{labels: make([][]Place, len(labels)), chosen: make([]int, len(labels)), order: make([][]int, len(labels)), fixed: make([][]float64, len(labels))}
	all := scene.Empty()
	side := wideCell
	for _, f := range fixed {
		all = all.Union(f)
	}
	for _, places := range labels {
		for k := range places {
			for _, p := range places[k].parts() {
				all = all.Union(p)
			}
		}
		if len(places) > 0 && places[0].Parts != nil {
			side = fineCell
		}
	}
	b.still, b.grid = newGrid(all, side), newGrid(all, side)
	for _, f := range fixed {
		b.still.add(f, -1, 0)
	}
	for i, places := range labels {
		b.chosen[i] = -1
		b.Extend(i, places)
	}
	return b
}

// Extend gives a label more places to choose from.
func (b *Board) Extend(i int, places []Place) {
	for _, p := range places {
		b.order[i] = append(b.order[i], len(b.labels[i]))
		b.labels[i] = append(b.labels[i], p)
		b.fixed[i] = append(b.fixed[i], b.still.coveredBy(&p, i, math.Inf(1)))
	}
	slices.SortStableFunc(b.order[i], func(x, y int) int { return cmp.Compare(b.labels[i][x].Cost, b.labels[i][y].Cost) })
}

// Drop takes a label off, with all its places.
func (b *Board) Drop(i int) {
	b.put(i, -1)
	b.labels[i], b.order[i], b.fixed[i] = nil, nil, nil
}

// Chosen returns the place a label has; -1: none.
func (b *Board) Chosen(i int) int { return b.chosen[i] }

// Settle places what has no place, moves what overlaps, and returns which labels overlap
// something all the same. After Choose's way it frees labels by putting each where only other
// labels are in its way, and those give way in turn; a try that does not leave fewer labels
// overlapping is taken back.
func (b *Board) Settle() (overlapping []int) {
	b.choose()
	b.untangle()
	return b.overlapping()
}

// best returns the place of least cost: its own, and far more for each mm² it covers.
func (b *Board) best(i int) int {
	found, least := -1, math.Inf(1)
	for _, k := range b.order[i] {
		p := &b.labels[i][k]
		if p.Cost >= least {
			break
		}
		cost := p.Cost
		c := b.fixed[i][k]
		if c == 0 || p.Cost+1000+100*c < least {
			c += b.grid.coveredBy(p, i, (least-cost-1000)/100-c)
		}
		if c > 0 {
			cost += 1000 + 100*c
		}
		if cost < least {
			found, least = k, cost
		}
	}
	return found
}

// put moves a label to a place.
func (b *Board) put(i, k int) {
	if b.chosen[i] >= 0 {
		b.grid.take(&b.labels[i][b.chosen[i]], i)
	}
	b.chosen[i] = k
	if k >= 0 {
		b.grid.put(&b.labels[i][k], i)
	}
}

// overlaps reports whether a label covers something.
func (b *Board) overlaps(i int) bool {
	k := b.chosen[i]
	return k >= 0 && (b.fixed[i][k] > 0 || b.grid.coveredBy(&b.labels[i][k], i, 0) > 0)
}

func (b *Board) overlapping() []int {
	var out []int
	for i := range b.labels {
		if b.overlaps(i) {
			out = append(out, i)
		}
	}
	return out
}
