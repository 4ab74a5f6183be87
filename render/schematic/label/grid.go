package label

import (
	"math"
	"slices"

	"dryfit/render/scene"
)

// Sides of a cell of the grid, mm: for whole labels, and for labels in parts.
const (
	wideCell = 20.0
	fineCell = 5.0
)

// mostCells bounds the grid's columns and its rows.
const mostCells = 400

// grid finds what lies near a box.
type grid struct {
	cells      [][]entry
	x0, y0     float64
	side       float64
	cols, rows int
}

type entry struct {
	box   scene.Box
	owner int // label, or -1
	key   int
}

// newGrid returns a grid over an area.
func newGrid(area scene.Box, side float64) *grid {
	if area.IsEmpty() {
		area = scene.Box{}
	}
	side = math.Max(side, math.Max(area.W(), area.H())/mostCells)
	g := &grid{x0: math.Floor(area.MinX/side) * side, y0: math.Floor(area.MinY/side) * side, side: side}
	g.cols, g.rows = 1+int((area.MaxX-g.x0)/side), 1+int((area.MaxY-g.y0)/side)
	g.cells = make([][]entry, g.cols*g.rows)
	return g
}

// span returns the cells a box lies in; ok is false for one outside the area.
func (g *grid) span(b scene.Box) (x0, x1, y0, y1 int, ok bool) {
	x0, x1 = int(math.Floor((b.MinX-g.x0)/g.side)), int(math.Floor((b.MaxX-g.x0)/g.side))
	y0, y1 = int(math.Floor((b.MinY-g.y0)/g.side)), int(math.Floor((b.MaxY-g.y0)/g.side))
	if x1 < 0 || y1 < 0 || x0 >= g.cols || y0 >= g.rows {
		return 0, 0, 0, 0, false
	}
	return max(x0, 0), min(x1, g.cols-1), max(y0, 0), min(y1, g.rows-1), true
}

func (g *grid) add(b scene.Box, owner, key int) {
	x0, x1, y0, y1, ok := g.span(b)
	if !ok {
		return
	}
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			c := &g.cells[y*g.cols+x]
			*c = append(*c, entry{b, owner, key})
		}
	}
}

func (g *grid) put(p *Place, owner int) {
	for i, b := range p.parts() {
		g.add(b, owner, p.key(i))
	}
}

// take removes what put has added.
func (g *grid) take(p *Place, owner int) {
	for _, b := range p.parts() {
		x0, x1, y0, y1, ok := g.span(b)
		if !ok {
			continue
		}
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				c := &g.cells[y*g.cols+x]
				*c = slices.DeleteFunc(*c, func(e entry) bool { return e.owner == owner })
			}
		}
	}
}

// coveredBy is the area of all a label covers that others cover, mm²; counting stops beyond
// enough. What lies in several cells counts once for each, which only makes a bad place worse.
func (g *grid) coveredBy(p *Place, self int, enough float64) float64 {
	sum := 0.0
	for i, b := range p.parts() {
		if sum += g.covered(b, self, p.key(i)); sum > max(enough, 0) {
			break
		}
	}
	return sum
}

func (g *grid) covered(b scene.Box, self, key int) float64 {
	x0, x1, y0, y1, ok := g.span(b)
	if !ok {
		return 0
	}
	sum := 0.0
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for k := range g.cells[y*g.cols+x] {
				e := &g.cells[y*g.cols+x][k]
				if !b.Overlaps(e.box) || (e.owner == self && self >= 0) || (key != 0 && e.key == key) {
					continue
				}
				w := min(b.MaxX, e.box.MaxX) - max(b.MinX, e.box.MinX)
				h := min(b.MaxY, e.box.MaxY) - max(b.MinY, e.box.MinY)
				sum += w * h
			}
		}
	}
	return sum
}

// owners lists the labels that overlap a place.
func (g *grid) owners(p *Place, self int) []int {
	var out []int
	for i, b := range p.parts() {
		key := p.key(i)
		x0, x1, y0, y1, ok := g.span(b)
		if !ok {
			continue
		}
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				for _, e := range g.cells[y*g.cols+x] {
					if e.owner != self && !(key != 0 && e.key == key) && b.Overlaps(e.box) && !slices.Contains(out, e.owner) {
						out = append(out, e.owner)
					}
				}
			}
		}
	}
	return out
}
