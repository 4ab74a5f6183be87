package label

import (
	"cmp"
	"math"
	"slices"

	"dryfit/render/scene"
)

// Board is where labels stand while places are chosen for them in several steps: each at a place
// where it covers nothing, or nowhere.
type Board struct {
	labels [][]*stand // places that cover nothing fixed, the cheapest first
	wanted []bool     // labels that are to stand somewhere
	given  []int      // how many places each label was given, those among them that cover something
	chosen []*stand   // nil: none
	weight []int      // how hard it was to place each label
	grid   grid
	frame  scene.Box
	still  still  // what is fixed
	placed placed // the labels at the places chosen
	work   *Work

	inWay []int // labels that overlap the place last looked at
	seen  []int // the look at which each label was found in the way
	looks int
}

// stand is a place as the board keeps it.
type stand struct {
	*Spot
	number int    // among all its label was given
	spans  []span // the cells of the parts
}

// Anywhere is the frame of a board without bounds.
func Anywhere() scene.Box {
	return scene.Box{MinX: math.Inf(-1), MinY: math.Inf(-1), MaxX: math.Inf(1), MaxY: math.Inf(1)}
}

// NewBoard returns a board with no labels yet: Extend brings them. None leaves the frame.
func NewBoard(fixed []scene.Box, frame scene.Box) *Board {
	all := scene.Empty()
	for _, f := range fixed {
		all = all.Union(f)
	}
	b := &Board{grid: newGrid(all.Grow(4*fineCell), fineCell), frame: frame, work: &Work{DefaultWork}}
	b.still, b.placed = newStill(&b.grid, fixed), make(placed, b.grid.cells())
	return b
}

// Bound gives the board a share of work of its own, or one with others.
func (b *Board) Bound(w *Work) { b.work = w }

// Clear reports whether boxes stay in the frame and cover nothing that is fixed.
func (b *Board) Clear(boxes []scene.Box) bool {
	for i := range boxes {
		if !b.frame.Contains(boxes[i]) {
			return false
		}
	}
	return b.still.clear(&b.grid, boxes)
}

// Extend gives a label places to choose from, besides those it has. The board keeps the slice.
func (b *Board) Extend(i int, places []Spot) {
	for len(b.labels) <= i {
		b.labels, b.given, b.chosen = append(b.labels, nil), append(b.given, 0), append(b.chosen, nil)
		b.wanted, b.weight, b.seen = append(b.wanted, false), append(b.weight, 1), append(b.seen, 0)
	}
	b.wanted[i] = true
	for k := range places {
		s := &places[k]
		if b.Clear(s.bare()) {
			n := &stand{Spot: s, number: b.given[i] + k, spans: make([]span, len(s.parts()))}
			for j, box := range s.parts() {
				n.spans[j] = b.grid.span(box)
			}
			b.labels[i] = append(b.labels[i], n)
		}
	}
	b.given[i] += len(places)
	slices.SortStableFunc(b.labels[i], func(x, y *stand) int { return cmp.Compare(x.Cost, y.Cost) })
}

// Drop takes a label off, with all its places.
func (b *Board) Drop(i int) {
	b.put(i, nil)
	b.labels[i], b.given[i], b.wanted[i] = nil, 0, false
}

// Chosen returns the spot a label has, as an index into all it was given; -1: none.
func (b *Board) Chosen(i int) int {
	if i >= len(b.chosen) || b.chosen[i] == nil {
		return -1
	}
	return b.chosen[i].number
}

// put moves a label to a place; nil: to none.
func (b *Board) put(i int, s *stand) {
	if was := b.chosen[i]; was != nil {
		b.placed.take(&b.grid, was.Spot, i)
	}
	if b.chosen[i] = s; s != nil {
		b.placed.put(&b.grid, s.Spot, i)
	}
}

// burden is how hard the labels were to place that stand where another would, at a place of
// it: 0 if it is free. Where that is most or more it is not worked out to the end. inWay
// becomes the labels there.
func (b *Board) burden(i int, s *stand, most int) int {
	b.looks++
	b.inWay = b.inWay[:0]
	self, sum := int32(i), 0
	parts := s.parts()
	for n := range parts {
		box, key, at := &parts[n], s.key(n), s.spans[n]
		for y := int(at.y0); y <= int(at.y1); y++ {
			for x := int(at.x0); x <= int(at.x1); x++ {
				in := b.placed[y*b.grid.cols+x]
				b.work.Left -= len(in)
				for k := range in {
					e := &in[k]
					if !box.Overlaps(e.box) || e.owner == self || b.seen[e.owner] == b.looks || key != 0 && e.key == key {
						continue
					}
					b.seen[e.owner] = b.looks
					b.inWay = append(b.inWay, int(e.owner))
					if sum += b.weight[e.owner]; sum >= most {
						return sum
					}
				}
			}
		}
	}
	return sum
}
