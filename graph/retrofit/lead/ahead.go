package lead

import (
	"math/bits"
	"slices"
)

// ahead tells, for every place, how many legs and turns in height a bare pipe still needs from
// there to its port round the blocks, whatever coordinates its legs end at: room is cut into
// cells at the faces of the blocks (grown by the pipe's radius) and at the port, so that within
// a cell nothing differs, and legs are walked backwards from the port, all cells of a step at
// once. What stands in legs and how long they are at least is left out, so that it is never too
// much.
type ahead struct {
	cuts  [3][]int64 // where each cell but the first begins, rising
	size  [3]int
	left  []reach // of each cell, by the axis of the leg that ends there and the phase
	free  [3][]uint64
	last  []uint64 // for the last leg
	end   [3]int
	stack [mostTurns][mostLegs + 2][3][3]cellSet // what is reached backwards, by turns, legs, axis and phase; nil: nothing
	from  cellSet                                // what a step backwards writes on
}

// mostCells is how many cells an axis may have: the bits of a word.
const mostCells = 64

// cellSet holds cells, those along X in a word.
type cellSet []uint64

// newAhead works the table out for a pipe that comes to its port in a phase.
func newAhead(n *needs, blocks []block, other *path, clip int64, end point, arrive way, last phase) *ahead {
	a := &ahead{}
	grown := a.cut(n, blocks, other, clip, end)
	for k := range 3 {
		a.size[k] = len(a.cuts[k]) + 1
		a.end[k] = a.cell(k, end[k])
	}
	rows := a.size[1] * a.size[2]
	for k := range 3 {
		a.free[k] = a.clear(rows, grown, func(b *grownBlock) bool { return b.near == Wall && b.thin == k })
	}
	a.last = a.clear(rows, grown, func(b *grownBlock) bool {
		return b.near == Unit || b.near == Wall && b.thin == arrive.axis()
	})
	a.left = make([]reach, rows*a.size[0]*9)
	for i := range a.left {
		a.left[i] = nowhere
	}
	a.walk(arrive, last)
	return a
}

// grownBlock is what the axis of a bare leg stays out of: from low to below high.
type grownBlock struct {
	low, high point
	near      Near
	thin      int
}

// cut finds the cells: blocks beyond what an axis has room for are left out.
func (a *ahead) cut(n *needs, blocks []block, other *path, clip int64, end point) []grownBlock {
	for k := range 3 {
		a.cuts[k] = []int64{end[k], end[k] + 1}
	}
	var out []grownBlock
	add := func(b grownBlock) {
		for k := range 3 {
			if len(a.cuts[k])+3 > mostCells {
				return
			}
		}
		for k := range 3 {
			for _, v := range []int64{b.low[k], b.high[k]} {
				if at, there := slices.BinarySearch(a.cuts[k], v); !there {
					a.cuts[k] = slices.Insert(a.cuts[k], at, v)
				}
			}
		}
		out = append(out, b)
	}
	if other != nil {
		// within a square of this half side two axes are nearer than the clip distance
		half := clip * 7071 / 10000
		for i := 1; i < len(other.points); i++ {
			p, q := other.points[i-1], other.points[i]
			w, _ := between(p, q)
			b := grownBlock{}
			for k := range 3 {
				b.low[k], b.high[k] = min(p[k], q[k])-half, max(p[k], q[k])+half+1
				if w != noWay && k == w.axis() {
					b.low[k], b.high[k] = b.low[k]+half, b.high[k]-half
				}
			}
			add(b)
		}
	}
	for i := range blocks {
		b := grownBlock{near: blocks[i].near, thin: blocks[i].thin()}
		for k := range 3 {
			b.low[k], b.high[k] = blocks[i].low[k]-n.radius+1, blocks[i].high[k]+n.radius
		}
		add(b)
	}
	return out
}

// cell is the cell of a coordinate.
func (a *ahead) cell(axis int, v int64) int {
	at, there := slices.BinarySearch(a.cuts[axis], v)
	if there {
		at++
	}
	return at
}

// clear are the cells no block is in but those left out.
func (a *ahead) clear(rows int, blocks []grownBlock, but func(*grownBlock) bool) cellSet {
	out := make(cellSet, rows)
	all := ^uint64(0) >> (mostCells - a.size[0])
	for i := range out {
		out[i] = all
	}
	for i := range blocks {
		b := &blocks[i]
		if but(b) {
			continue
		}
		from, to := a.cell(0, b.low[0]), a.cell(0, b.high[0])
		mask := (uint64(1)<<(to-from) - 1) << from
		for z := a.cell(2, b.low[2]); z < a.cell(2, b.high[2]); z++ {
			for y := a.cell(1, b.low[1]); y < a.cell(1, b.high[1]); y++ {
				out[z*a.size[1]+y] &^= mask
			}
		}
	}
	return out
}

// walk goes backwards from the port: fewest turns first, then fewest legs.
func (a *ahead) walk(arrive way, last phase) {
	rows := a.size[1] * a.size[2]
	a.from = make(cellSet, rows)
	var done [mostTurns][3][3]cellSet
	end := make(cellSet, rows)
	end[a.end[2]*a.size[1]+a.end[1]] = 1 << a.end[0]
	a.note(end, arrive.axis(), last, 0, 0)
	a.before(end, a.last, arrive, last, 0, 0)
	for turns := range mostTurns {
		for legs := 1; legs <= mostLegs; legs++ {
			for axis := range 3 {
				for p := range phase(3) {
					reached := a.stack[turns][legs][axis][p]
					if reached == nil {
						continue
					}
					was := &done[turns][axis][p]
					if *was == nil {
						*was = make(cellSet, rows)
					}
					fresh := false
					for i, w := range reached {
						w &^= (*was)[i]
						reached[i] = w
						(*was)[i] |= w
						fresh = fresh || w != 0
					}
					if !fresh {
						continue
					}
					a.note(reached, axis, p, turns, legs)
					a.before(reached, a.free[axis], way(2*axis), p, turns, legs)
					a.before(reached, a.free[axis], way(2*axis+1), p, turns, legs)
				}
			}
		}
	}
}

// note writes down what is left from cells.
func (a *ahead) note(cells cellSet, axis int, p phase, turns, legs int) {
	for row, w := range cells {
		for ; w != 0; w &= w - 1 {
			a.left[(row*a.size[0]+bits.TrailingZeros64(w))*9+axis*3+int(p)].note(turns, legs)
		}
	}
}

// before adds the cells from which one leg a way leads to those given, in a phase.
func (a *ahead) before(cells, free cellSet, w way, p phase, turns, legs int) {
	if legs == mostLegs || w == up && p != rising || w == down && p != falling {
		return
	}
	from := a.from
	for i := range cells {
		from[i] = cells[i] & free[i]
	}
	nx, ny, nz := a.size[0], a.size[1], a.size[2]
	switch w.axis() {
	case 0:
		for i := range from {
			for range nx {
				next := from[i] >> 1
				if w.sign() < 0 {
					next = from[i] << 1
				}
				if next &= free[i] &^ from[i]; next == 0 {
					break
				}
				from[i] |= next
			}
		}
	case 1:
		for z := range nz {
			spread(from[z*ny:], free[z*ny:], ny, 1, w.sign() > 0)
		}
	case 2:
		for y := range ny {
			spread(from[y:], free[y:], nz, ny, w.sign() > 0)
		}
	}
	for axis := range 3 {
		if axis == w.axis() {
			continue
		}
		switch w {
		case up, down:
			a.add(turns, legs+1, axis, level, from)
			a.add(turns, legs+1, axis, p, from)
			a.add(turns+1, legs+1, axis, flip(p), from)
		default:
			a.add(turns, legs+1, axis, p, from)
		}
	}
}

// spread goes on over rows that lie so far apart, towards the first or the last.
func spread(cells, free cellSet, n, apart int, toFirst bool) {
	for i := 1; i < n; i++ {
		at, before := i*apart, (i-1)*apart
		if toFirst {
			at, before = (n-1-i)*apart, (n-i)*apart
		}
		cells[at] |= cells[before] & free[at]
	}
}

func (a *ahead) add(turns, legs, axis int, p phase, cells cellSet) {
	if turns >= mostTurns {
		return
	}
	set := &a.stack[turns][legs][axis][p]
	if *set == nil {
		*set = slices.Clone(cells)
		return
	}
	for i, w := range cells {
		(*set)[i] |= w
	}
}

// after tells how many legs are left at the least with so many turns in height, from a cell after a
// leg along an axis.
func (a *ahead) after(cells *[3]int, axis int, p phase) reach {
	row := cells[2]*a.size[1] + cells[1]
	return a.left[(row*a.size[0]+cells[0])*9+axis*3+int(p)]
}
