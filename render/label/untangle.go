package label

import "slices"

// Bounds of the search: how often untangle goes over the labels that overlap, how many places
// it tries for one, how many labels may stand there, and how many may give way in a row.
const (
	rounds     = 4
	mostTries  = 14
	mostInWay  = 3
	mostInARow = 2
)

// untangle frees labels that overlap.
func (b *Board) untangle() {
	for range rounds {
		freed := false
		for i := range b.labels {
			if b.work.Done() {
				return
			}
			if b.overlaps(i) && b.free(i, mostInARow, map[int]bool{}) {
				freed = true
			}
		}
		if !freed {
			return
		}
	}
}

// free tries the places of a label that nothing fixed stands in, the cheapest first. Labels
// in held stay where they are.
func (b *Board) free(i, deep int, held map[int]bool) bool {
	tries := 0
	for _, k := range b.order[i] {
		if b.work.Done() {
			return false
		}
		b.work.Left--
		s := b.stand(i, k)
		if k == b.chosen[i] || s.fixed > 0 {
			continue
		}
		var inWay []int
		if b.loads[s.number].pairs > 0 {
			inWay = b.placed.owners(&b.grid, s, i, mostInWay)
		}
		if len(inWay) > mostInWay || slices.ContainsFunc(inWay, func(j int) bool { return held[j] }) {
			continue
		}
		if b.try(i, k, inWay, deep, held) {
			return true
		}
		if tries++; tries >= mostTries {
			break
		}
	}
	return false
}

// try moves a label to a place and lets those in the way find others; it keeps that only if
// fewer of all the labels that were moved overlap than before.
func (b *Board) try(i, k int, inWay []int, deep int, held map[int]bool) bool {
	was := slices.Clone(b.chosen)
	moved := append([]int{i}, inWay...)
	before := b.count(moved)
	b.put(i, k)
	held[i] = true
	for _, j := range inWay {
		if next := b.best(j); next != b.chosen[j] {
			b.put(j, next)
		}
		if deep > 1 && b.overlaps(j) {
			b.free(j, deep-1, held)
		}
	}
	delete(held, i)
	if b.count(moved) < before {
		return true
	}
	for j := range b.chosen {
		if b.chosen[j] != was[j] {
			b.put(j, was[j])
		}
	}
	return false
}

func (b *Board) count(labels []int) int {
	n := 0
	for _, j := range labels {
		if b.overlaps(j) {
			n++
		}
	}
	return n
}
