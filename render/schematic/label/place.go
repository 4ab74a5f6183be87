// Package label finds places for labels on a drawing: for each label it is given some
// places to choose from, and it takes those that cover no line, no sign and no other label.
package label

import (
	"math"

	"dryfit/render/scene"
)

// Place is where a label could stand; of free places the one of least Cost is taken.
type Place struct {
	Box   scene.Box
	Cost  float64
	Parts []scene.Box // what the label covers, where that is much less than Box; nil: Box
	Keys  []int       // of Parts, or shorter: parts with the same key, not 0, may lie on each other
}

// parts returns what a label covers at the place.
func (p *Place) parts() []scene.Box {
	if p.Parts != nil {
		return p.Parts
	}
	return []scene.Box{p.Box}
}

// key returns the key of a part.
func (p *Place) key(i int) int {
	if i < len(p.Keys) {
		return p.Keys[i]
	}
	return 0
}

// passes bounds how often labels are moved out of each other's way.
const passes = 6

// Choose picks one place for each label; the labels named first get the first choice, then
// each is moved to a better place as long as that helps. It returns the index of the
// place chosen for each label (-1 where it has none to choose from) and how many labels
// still overlap something.
func Choose(labels [][]Place, fixed []scene.Box) (chosen, overlapping []int) {
	g := newGrid(labels)
	for _, b := range fixed {
		g.add(b, -1, 0)
	}
	chosen = make([]int, len(labels))
	for i := range labels {
		chosen[i] = -1
	}
	for i, places := range labels {
		if k := best(g, places, i); k >= 0 {
			chosen[i] = k
			g.put(&places[k], i)
		}
	}
	for range passes {
		moved := false
		for i, places := range labels {
			if len(places) < 2 {
				continue
			}
			g.take(&places[chosen[i]], i)
			k := best(g, places, i)
			if k != chosen[i] {
				chosen[i], moved = k, true
			}
			g.put(&places[k], i)
		}
		if !moved {
			break
		}
	}
	for i, places := range labels {
		if chosen[i] >= 0 && g.coveredBy(&places[chosen[i]], i, math.Inf(1)) > 0 {
			overlapping = append(overlapping, i)
		}
	}
	return chosen, overlapping
}

// best returns the place of least cost: its own, and far more for each mm² it covers.
func best(g *grid, places []Place, self int) int {
	found, least := -1, math.Inf(1)
	for k := range places {
		p := &places[k]
		if p.Cost >= least {
			continue
		}
		cost := p.Cost
		if c := g.coveredBy(p, self, (least-cost-1000)/100); c > 0 {
			cost += 1000 + 100*c
		}
		if cost < least {
			found, least = k, cost
		}
	}
	return found
}

// Sides of a cell of the grid, mm: for whole labels, and for labels in parts.
const (
	wideCell = 20.0
	fineCell = 5.0
)

// grid finds what lies near a box.
type grid struct {
	cells map[[2]int][]entry
	cell  float64
}

type entry struct {
	box   scene.Box
	owner int // label, or -1
	key   int
}

func newGrid(labels [][]Place) *grid {
	g := &grid{cells: map[[2]int][]entry{}, cell: wideCell}
	for _, places := range labels {
		if len(places) > 0 && places[0].Parts != nil {
			g.cell = fineCell
		}
	}
	return g
}

func (g *grid) put(p *Place, owner int) {
	for i, b := range p.parts() {
		g.add(b, owner, p.key(i))
	}
}

func (g *grid) take(p *Place, owner int) {
	for _, b := range p.parts() {
		g.remove(b, owner)
	}
}

// coveredBy is the area of all a label covers that others cover, mm²; counting stops
// beyond enough.
func (g *grid) coveredBy(p *Place, self int, enough float64) float64 {
	sum := 0.0
	for i, b := range p.parts() {
		if sum += g.covered(b, self, p.key(i)); sum > max(enough, 0) {
			break
		}
	}
	return sum
}

// farthest bounds where a box may stand, mm: what lies beyond is on no sheet.
const farthest = 1e5

func (g *grid) each(b scene.Box, f func(key [2]int)) {
	if !(b.MinX > -farthest && b.MinY > -farthest && b.MaxX < farthest && b.MaxY < farthest) {
		return // nor is what is no number
	}
	x0, x1 := int(math.Floor(b.MinX/g.cell)), int(math.Floor(b.MaxX/g.cell))
	y0, y1 := int(math.Floor(b.MinY/g.cell)), int(math.Floor(b.MaxY/g.cell))
	for x := x0; x <= x1; x++ {
		for y := y0; y <= y1; y++ {
			f([2]int{x, y})
		}
	}
}

func (g *grid) add(b scene.Box, owner, key int) {
	g.each(b, func(k [2]int) { g.cells[k] = append(g.cells[k], entry{b, owner, key}) })
}

func (g *grid) remove(b scene.Box, owner int) {
	g.each(b, func(k [2]int) {
		list := g.cells[k]
		for i, e := range list {
			if e.owner == owner {
				g.cells[k] = append(list[:i], list[i+1:]...)
				return
			}
		}
	})
}

// covered returns the area of b that others cover, mm²; what lies in several cells counts
// once for each, which only makes a bad place worse.
func (g *grid) covered(b scene.Box, self, key int) float64 {
	sum := 0.0
	g.each(b, func(k [2]int) {
		for _, e := range g.cells[k] {
			if (e.owner == self && self >= 0) || (key != 0 && e.key == key) {
				continue
			}
			w := math.Min(b.MaxX, e.box.MaxX) - math.Max(b.MinX, e.box.MinX)
			h := math.Min(b.MaxY, e.box.MaxY) - math.Max(b.MinY, e.box.MinY)
			if w > 0 && h > 0 {
				sum += w * h
			}
		}
	})
	return sum
}
