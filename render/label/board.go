package label

import (
	"cmp"
	"math"
	"slices"

	"dryfit/render/scene"
)

// Board is where labels stand while places are chosen for them in several steps.
type Board struct {
	labels [][]stand
	order  [][]int // places of each label, the cheapest first
	chosen []int   // -1: none
	late   []bool  // placed after the work was done: its weight lies on no other place
	grid   grid
	still  still  // what is fixed
	placed placed // the labels at the places chosen

	places int     // how many there are
	fresh  []ref   // places in no layer yet
	layers []layer // all others
	loads  []load  // on each place, by its number

	sums    []load  // for findRivals: all zero but for
	touched []int32 // these

	work *Work
}

// Work is how much search boards may still do, counted in comparisons of places: the same
// drawing always gets as far. What is left serves the next board.
type Work struct{ Left int }

// DefaultWork is what one board may do, if nothing else is said.
const DefaultWork = 4_000_000

// Done reports whether nothing is left.
func (w *Work) Done() bool { return w.Left <= 0 }

// Bound gives the board a share of work of its own, or one with others.
func (b *Board) Bound(w *Work) { b.work = w }

// NewBoard returns a board with nothing placed yet.
func NewBoard(labels [][]Spot, fixed []scene.Box) *Board {
	b := &Board{labels: make([][]stand, len(labels)), chosen: make([]int, len(labels)), late: make([]bool, len(labels)), order: make([][]int, len(labels)), work: &Work{DefaultWork}}
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
	b.grid = newGrid(all, side)
	b.still, b.placed = newStill(&b.grid, fixed), make(placed, b.grid.cols*b.grid.rows)
	for i, places := range labels {
		b.chosen[i] = -1
		b.Extend(i, places)
	}
	return b
}

// Extend gives a label more places to choose from.
func (b *Board) Extend(i int, places []Spot) {
	for _, p := range places {
		k := len(b.labels[i])
		b.order[i] = append(b.order[i], k)
		b.labels[i] = append(b.labels[i], stand{Spot: p, number: b.places})
		b.fresh = append(b.fresh, ref{i, k})
		b.places++
	}
	slices.SortStableFunc(b.order[i], func(x, y int) int { return cmp.Compare(b.labels[i][x].Cost, b.labels[i][y].Cost) })
}

// Drop takes a label off, with all its places.
func (b *Board) Drop(i int) {
	b.put(i, -1)
	b.fresh = slices.DeleteFunc(b.fresh, func(f ref) bool { return f.label == i })
	b.labels[i], b.order[i] = nil, nil
}

// Chosen returns the place a label has; -1: none.
func (b *Board) Chosen(i int) int { return b.chosen[i] }

// Settle places what has no place, moves what overlaps, and returns which labels overlap
// something all the same. After Choose's way it frees labels by putting each where only other
// labels are in its way, and those give way in turn; a try that does not leave fewer labels
// overlapping is taken back. Once the board's work is done no more is tried.
func (b *Board) Settle() (overlapping []int) {
	b.absorb()
	b.choose()
	b.untangle()
	return b.overlapping()
}

// best returns the place of least cost: its own, and far more for each mm² it covers.
func (b *Board) best(i int) int {
	found, least := -1, math.Inf(1)
	for _, k := range b.order[i] {
		if b.labels[i][k].Cost >= least {
			break
		}
		s := b.stand(i, k)
		cost, on := s.Cost, b.loads[s.number]
		if s.fixed > 0 || on.pairs > 0 {
			cost += 1000 + 100*(s.fixed+on.mm2())
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
		s := &b.labels[i][b.chosen[i]]
		b.placed.take(&b.grid, s, i)
		if !b.late[i] {
			b.press(s.rivals, -1)
		}
	}
	b.late[i] = false
	b.chosen[i] = k
	if k >= 0 {
		s := &b.labels[i][k]
		b.placed.put(&b.grid, s, i)
		b.findRivals(s, i)
		b.press(s.rivals, 1)
	}
}

// putLate gives a label the cheapest place that covers nothing, else the cheapest of all,
// looking only at what stands there.
func (b *Board) putLate(i int) {
	if len(b.order[i]) == 0 {
		return
	}
	k := b.order[i][0]
	for _, free := range b.order[i] {
		if !b.covers(i, free) {
			k = free
			break
		}
	}
	b.chosen[i], b.late[i] = k, true
	b.placed.put(&b.grid, &b.labels[i][k], i)
}

// covers reports whether a label would cover something at a place.
func (b *Board) covers(i, k int) bool {
	s := b.stand(i, k)
	return s.fixed > 0 || len(b.placed.owners(&b.grid, s, i, 0)) > 0
}

// overlaps reports whether a label covers something.
func (b *Board) overlaps(i int) bool {
	k := b.chosen[i]
	if k < 0 {
		return false
	}
	if b.late[i] {
		return b.covers(i, k)
	}
	s := b.stand(i, k)
	return s.fixed > 0 || b.loads[s.number].pairs > 0
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
