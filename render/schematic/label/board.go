package label

import (
	"cmp"
	"math"
	"slices"

	"dryfit/render/scene"
)

// board is where the labels stand while places are chosen.
type board struct {
	labels [][]Place
	order  [][]int     // places of each label, the cheapest first
	fixed  [][]float64 // of each place: how much of what is fixed it covers, mm²
	grid   *grid       // the labels at the places chosen
	chosen []int       // -1: none
}

func newBoard(labels [][]Place, fixed []scene.Box) *board {
	b := &board{labels: labels, chosen: make([]int, len(labels)), order: make([][]int, len(labels)), fixed: make([][]float64, len(labels))}
	all := scene.Empty()
	side := wideCell
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
	still := newGrid(all, side)
	for _, f := range fixed {
		still.add(f, -1, 0)
	}
	b.grid = newGrid(all, side)
	for i, places := range labels {
		b.chosen[i] = -1
		b.order[i] = make([]int, len(places))
		b.fixed[i] = make([]float64, len(places))
		for k := range places {
			b.order[i][k] = k
			b.fixed[i][k] = still.coveredBy(&places[k], i, math.Inf(1))
		}
		slices.SortStableFunc(b.order[i], func(x, y int) int { return cmp.Compare(places[x].Cost, places[y].Cost) })
	}
	return b
}

// best returns the place of least cost: its own, and far more for each mm² it covers.
func (b *board) best(i int) int {
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
func (b *board) put(i, k int) {
	if b.chosen[i] >= 0 {
		b.grid.take(&b.labels[i][b.chosen[i]], i)
	}
	b.chosen[i] = k
	if k >= 0 {
		b.grid.put(&b.labels[i][k], i)
	}
}

// overlaps reports whether a label covers something.
func (b *board) overlaps(i int) bool {
	k := b.chosen[i]
	return k >= 0 && (b.fixed[i][k] > 0 || b.grid.coveredBy(&b.labels[i][k], i, 0) > 0)
}

func (b *board) overlapping() []int {
	var out []int
	for i := range b.labels {
		if b.overlaps(i) {
			out = append(out, i)
		}
	}
	return out
}
