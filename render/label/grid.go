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

// grid cuts an area into cells; those at its edge hold what lies outside too.
type grid struct {
	x0, y0     float64
	side       float64
	cols, rows int
}

// span is the cells a box lies in, the last ones included.
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

func (g *grid) cells() int { return g.cols * g.rows }

func (g *grid) span(b scene.Box) span {
	return span{cellOf(b.MinX-g.x0, g.side, g.cols), cellOf(b.MaxX-g.x0, g.side, g.cols), cellOf(b.MinY-g.y0, g.side, g.rows), cellOf(b.MaxY-g.y0, g.side, g.rows)}
}

// cellOf is the column or row, of n, in which something lies. Without math.Max and its like: a
// drawing asks so often that they took one part in twelve of its time.
func cellOf(at, side float64, n int) int16 {
	switch v := at / side; {
	case v >= float64(n-1):
		return int16(n - 1)
	case v > 0:
		return int16(v)
	}
	return 0
}

// each calls do with the numbers of the cells of a span.
func (g *grid) each(s span, do func(cell int)) {
	for y := int(s.y0); y <= int(s.y1); y++ {
		for x := int(s.x0); x <= int(s.x1); x++ {
			do(y*g.cols + x)
		}
	}
}

// shared is the area two boxes share, mm²; 0: none.
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
	s := make(still, g.cells())
	for _, f := range fixed {
		g.each(g.span(f), func(cell int) { s[cell] = append(s[cell], f) })
	}
	return s
}

// coveredBy is the area of what is fixed that a place covers, mm². What lies in several cells
// counts once for each, which only makes a bad place worse.
func (s still) coveredBy(g *grid, p *Spot) float64 {
	sum := 0.0
	for _, b := range p.bare() {
		g.each(g.span(b), func(cell int) {
			for k := range s[cell] {
				sum += shared(&b, &s[cell][k])
			}
		})
	}
	return sum
}

// clear reports whether boxes cover nothing that is fixed.
func (s still) clear(g *grid, boxes []scene.Box) bool {
	for i := range boxes {
		b := &boxes[i]
		at := g.span(*b)
		for y := int(at.y0); y <= int(at.y1); y++ {
			for x := int(at.x0); x <= int(at.x1); x++ {
				in := s[y*g.cols+x]
				for k := range in {
					if b.Overlaps(in[k]) {
						return false
					}
				}
			}
		}
	}
	return true
}

// placed is the parts of the labels at the places chosen, by the cells they lie in.
type placed [][]entry

type entry struct {
	box   scene.Box
	owner int32 // label
	key   int
}

func (c placed) put(g *grid, p *Spot, owner int) {
	for i, b := range p.parts() {
		key := p.key(i)
		g.each(g.span(b), func(cell int) { c[cell] = append(c[cell], entry{b, int32(owner), key}) })
	}
}

// take removes what put has added.
func (c placed) take(g *grid, p *Spot, owner int) {
	for _, b := range p.parts() {
		g.each(g.span(b), func(cell int) {
			c[cell] = slices.DeleteFunc(c[cell], func(e entry) bool { return e.owner == int32(owner) })
		})
	}
}
