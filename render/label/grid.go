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

// grid cuts an area into cells.
type grid struct {
	x0, y0     float64
	side       float64
	cols, rows int
}

// span is the cells a box lies in, the last ones included; x1 < x0 for one outside the area.
type span struct{ x0, x1, y0, y1 int16 }

// newGrid returns a grid over an area.
func newGrid(area scene.Box, side float64) grid {
	if area.IsEmpty() {
		area = scene.Box{}
	}
	side = math.Max(side, math.Max(area.W(), area.H())/mostCells)
	g := grid{x0: math.Floor(area.MinX/side) * side, y0: math.Floor(area.MinY/side) * side, side: side}
	g.cols, g.rows = 1+int((area.MaxX-g.x0)/side), 1+int((area.MaxY-g.y0)/side)
	return g
}

func (g *grid) span(b scene.Box) span {
	x0, x1 := int(math.Floor((b.MinX-g.x0)/g.side)), int(math.Floor((b.MaxX-g.x0)/g.side))
	y0, y1 := int(math.Floor((b.MinY-g.y0)/g.side)), int(math.Floor((b.MaxY-g.y0)/g.side))
	if x1 < 0 || y1 < 0 || x0 >= g.cols || y0 >= g.rows {
		return span{x1: -1}
	}
	return span{int16(max(x0, 0)), int16(min(x1, g.cols-1)), int16(max(y0, 0)), int16(min(y1, g.rows-1))}
}

// each calls do with the numbers of the cells of a span.
func (g *grid) each(s span, do func(cell int)) {
	for y := int(s.y0); y <= int(s.y1); y++ {
		for x := int(s.x0); x <= int(s.x1); x++ {
			do(y*g.cols + x)
		}
	}
}

// shared is the area two boxes share, mm²; 0 or less: none.
func shared(a, b *scene.Box) float64 {
	w := min(a.MaxX, b.MaxX) - max(a.MinX, b.MinX)
	h := min(a.MaxY, b.MaxY) - max(a.MinY, b.MinY)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

// still is what is fixed, by the cells it lies in.
type still [][]scene.Box

func newStill(g *grid, fixed []scene.Box) still {
	s := make(still, g.cols*g.rows)
	for _, f := range fixed {
		g.each(g.span(f), func(cell int) { s[cell] = append(s[cell], f) })
	}
	return s
}

// coveredBy is the area of what is fixed that a place covers, mm². What lies in several cells
// counts once for each, which only makes a bad place worse.
func (s still) coveredBy(g *grid, p *stand) float64 {
	sum := 0.0
	for i, b := range p.parts() {
		g.each(p.spans[i], func(cell int) {
			for k := range s[cell] {
				sum += shared(&b, &s[cell][k])
			}
		})
	}
	return sum
}

// placed is the parts of the labels at the places chosen, by the cells they lie in.
type placed [][]entry

type entry struct {
	box   scene.Box
	owner int // label
	key   int
}

func (c placed) put(g *grid, p *stand, owner int) {
	for i, b := range p.parts() {
		key := p.key(i)
		g.each(p.spans[i], func(cell int) { c[cell] = append(c[cell], entry{b, owner, key}) })
	}
}

// take removes what put has added.
func (c placed) take(g *grid, p *stand, owner int) {
	for _, s := range p.spans {
		g.each(s, func(cell int) {
			if slices.ContainsFunc(c[cell], func(e entry) bool { return e.owner == owner }) {
				c[cell] = slices.DeleteFunc(c[cell], func(e entry) bool { return e.owner == owner })
			}
		})
	}
}

// owners lists the labels that overlap a place, or more than most of them.
func (c placed) owners(g *grid, p *stand, self, most int) []int {
	var out []int
	for i, b := range p.parts() {
		key := p.key(i)
		g.each(p.spans[i], func(cell int) {
			for k := range c[cell] {
				e := &c[cell][k]
				if b.Overlaps(e.box) && e.owner != self && !(key != 0 && e.key == key) && !slices.Contains(out, e.owner) {
					out = append(out, e.owner)
				}
			}
		})
		if len(out) > most {
			break
		}
	}
	return out
}
