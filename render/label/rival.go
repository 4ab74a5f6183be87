package label

import (
	"slices"

	"dryfit/render/scene"
)

// Most of the search asks how much of the labels at their places another place would cover.
// So each place that a label is put to finds its rivals, once, and adds to what lies on each
// of them, and takes it off when the label leaves.

// rival is a place of another label that overlaps a place.
type rival struct {
	number int32
	load
}

// load is what of other labels lies on a place.
type load struct {
	pairs int32 // of parts that overlap, once for each cell in which both lie
	area  int64 // they share, in steps of areaStep
}

// areaStep is in what steps areas are added up, mm²: of whole numbers, unlike others, nothing
// is left when all are taken off again.
const areaStep = 1.0 / (1 << 24)

func (l load) mm2() float64 { return float64(l.area) * areaStep }

// layer is places that came to the board at one time: their parts, and which of these lie in
// each cell, in[start[n]:start[n+1]] for cell n.
type layer struct {
	parts     []part
	start, in []int32
}

type part struct {
	box           scene.Box
	label, number int32
	key           int
}

// absorb takes in the places added since, as one layer.
func (b *Board) absorb() {
	if len(b.fresh) == 0 {
		return
	}
	n := 0
	for _, f := range b.fresh {
		n += len(b.labels[f.label][f.place].parts())
	}
	l := layer{parts: make([]part, 0, n), start: make([]int32, b.grid.cols*b.grid.rows+1)}
	spans := make([]span, 0, n)
	for _, f := range b.fresh {
		s := &b.labels[f.label][f.place]
		first := len(spans)
		for i, p := range s.parts() {
			spans = append(spans, b.grid.span(p))
			l.parts = append(l.parts, part{box: p, label: int32(f.label), number: int32(s.number), key: s.key(i)})
		}
		s.spans = spans[first:len(spans):len(spans)]
	}
	for _, s := range spans {
		b.grid.each(s, func(cell int) { l.start[cell+1]++ })
	}
	for n := range l.start[1:] {
		l.start[n+1] += l.start[n]
	}
	l.in = make([]int32, l.start[len(l.start)-1])
	next := slices.Clone(l.start)
	for i, s := range spans {
		b.grid.each(s, func(cell int) {
			l.in[next[cell]] = int32(i)
			next[cell]++
		})
	}
	b.fresh, b.layers = nil, append(b.layers, l)
	b.loads = append(b.loads, make([]load, b.places-len(b.loads))...)
	b.sums = append(b.sums, make([]load, b.places-len(b.sums))...)
	for i, k := range b.chosen {
		if k >= 0 && !b.late[i] {
			s := &b.labels[i][k]
			known := len(s.rivals)
			b.findRivals(s, i)
			b.press(s.rivals[known:], 1)
		}
	}
}

// findRivals looks for the rivals of a place in the layers not read yet.
func (b *Board) findRivals(s *stand, self int) {
	for ; s.read < len(b.layers); s.read++ {
		l := &b.layers[s.read]
		b.touched = b.touched[:0]
		for i, box := range s.parts() {
			b.pair(l, box, s.spans[i], int32(self), s.key(i))
		}
		for _, n := range b.touched {
			s.rivals = append(s.rivals, rival{n, b.sums[n]})
			b.sums[n] = load{}
		}
	}
}

// pair adds up what one part of a label shares with the places of a layer.
func (b *Board) pair(l *layer, box scene.Box, s span, self int32, key int) {
	sums := b.sums
	for y := int(s.y0); y <= int(s.y1); y++ {
		for x := int(s.x0); x <= int(s.x1); x++ {
			cell := y*b.grid.cols + x
			b.work.Left -= int(l.start[cell+1] - l.start[cell])
			for _, n := range l.in[l.start[cell]:l.start[cell+1]] {
				p := &l.parts[n]
				w := min(box.MaxX, p.box.MaxX) - max(box.MinX, p.box.MinX)
				h := min(box.MaxY, p.box.MaxY) - max(box.MinY, p.box.MinY)
				if w <= 0 || h <= 0 || p.label == self || (key != 0 && p.key == key) {
					continue
				}
				sum := &sums[p.number]
				if sum.pairs == 0 {
					b.touched = append(b.touched, p.number)
				}
				sum.pairs++
				sum.area += int64(w * h / areaStep)
			}
		}
	}
}

// press puts a label's weight on the rivals of its place (sign 1), or takes it off (-1).
func (b *Board) press(rivals []rival, sign int64) {
	b.work.Left -= len(rivals)
	for k := range rivals {
		r := &rivals[k]
		on := &b.loads[r.number]
		on.pairs += int32(sign) * r.pairs
		on.area += sign * r.area
	}
}
