package label

import (
	"cmp"
	"math"
	"slices"

	"dryfit/render/scene"
)

// passes bounds how often labels are moved out of each other's way.
const passes = 6

// Choose picks one place for each label; the labels named first get the first choice, then
// each is moved to a better place as long as that helps. It returns the index of the
// place chosen for each label (-1 where it has none to choose from) and which labels
// still overlap something.
func Choose(labels [][]Spot, fixed []scene.Box) (chosen, overlapping []int) {
	c := newChooser(labels, fixed)
	for range passes + 1 { // the first time each gets a place
		moved := false
		for i := range labels {
			if k := c.best(i); k != c.chosen[i] {
				c.put(i, k)
				moved = true
			}
		}
		if !moved || c.work.Done() {
			break
		}
	}
	for i, k := range c.chosen {
		if k >= 0 && c.cover(i, k).any() {
			overlapping = append(overlapping, i)
		}
	}
	return c.chosen, overlapping
}

// chooser is where labels stand while places are chosen for them.
type chooser struct {
	labels [][]Spot
	order  [][]int     // places of each label, the cheapest first
	on     [][]float64 // how much of what is fixed each place covers, mm²; less than 0: not worked out
	chosen []int       // -1: none
	grid   grid
	still  still
	placed placed
	work   Work
}

func newChooser(labels [][]Spot, fixed []scene.Box) *chooser {
	c := &chooser{labels: labels, order: make([][]int, len(labels)), on: make([][]float64, len(labels)), chosen: make([]int, len(labels)), work: Work{DefaultWork}}
	all, side := scene.Empty(), wideCell
	for _, f := range fixed {
		all = all.Union(f)
	}
	for i, places := range labels {
		c.chosen[i] = -1
		c.order[i], c.on[i] = make([]int, len(places)), make([]float64, len(places))
		for k := range places {
			c.order[i][k], c.on[i][k] = k, -1
			for _, p := range places[k].parts() {
				all = all.Union(p)
			}
		}
		slices.SortStableFunc(c.order[i], func(x, y int) int { return cmp.Compare(places[x].Cost, places[y].Cost) })
		if len(places) > 0 && places[0].Parts != nil {
			side = fineCell
		}
	}
	c.grid = newGrid(all, side)
	c.still, c.placed = newStill(&c.grid, fixed), make(placed, c.grid.cells())
	return c
}

// covered is what lies where a label would stand.
type covered struct {
	fixed float64 // mm²
	pairs int     // of parts that overlap, once for each cell in which both lie
	area  int64   // they share, in steps of areaStep
}

// areaStep is in what steps areas are added up, mm²: the sum of whole numbers is the same in
// whatever order they are taken.
const areaStep = 1.0 / (1 << 24)

func (c covered) any() bool { return c.fixed > 0 || c.pairs > 0 }

// cover works out what a label covers at one of its places.
func (c *chooser) cover(i, k int) covered {
	s := &c.labels[i][k]
	if c.on[i][k] < 0 {
		c.on[i][k] = c.still.coveredBy(&c.grid, s)
	}
	out := covered{fixed: c.on[i][k]}
	for n, box := range s.parts() {
		key, self := s.key(n), int32(i)
		c.grid.each(c.grid.span(box), func(cell int) {
			c.work.Left -= len(c.placed[cell])
			for _, e := range c.placed[cell] {
				if a := shared(&box, &e.box); a > 0 && e.owner != self && (key == 0 || e.key != key) {
					out.pairs++
					out.area += int64(a / areaStep)
				}
			}
		})
	}
	return out
}

// best returns the place of least cost: its own, and far more for each mm² it covers.
func (c *chooser) best(i int) int {
	found, least := -1, math.Inf(1)
	for _, k := range c.order[i] {
		cost := c.labels[i][k].Cost
		if cost >= least {
			break
		}
		if on := c.cover(i, k); on.any() {
			cost += 1000 + 100*(on.fixed+float64(on.area)*areaStep)
		}
		if cost < least {
			found, least = k, cost
		}
	}
	return found
}

// put moves a label to a place.
func (c *chooser) put(i, k int) {
	if was := c.chosen[i]; was >= 0 {
		c.placed.take(&c.grid, &c.labels[i][was], i)
	}
	c.chosen[i] = k
	if k >= 0 {
		c.placed.put(&c.grid, &c.labels[i][k], i)
	}
}
