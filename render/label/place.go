// Package label finds places for labels on a drawing: for each label it is given some
// places to choose from, and it takes those that cover no line, no sign and no other label.
package label

import (
	"dryfit/render/scene"
)

// Spot is where a label could stand; of free places the one of least Cost is taken.
type Spot struct {
	Box   scene.Box
	Cost  float64
	Parts []scene.Box // what the label covers, where that is much less than Box; nil: Box
	Keys  []int       // of Parts, or shorter: parts with the same key, not 0, may lie on each other
}

// parts returns what a label covers at the spot.
func (p *Spot) parts() []scene.Box {
	if p.Parts != nil {
		return p.Parts
	}
	return []scene.Box{p.Box}
}

// key returns the key of a part.
func (p *Spot) key(i int) int {
	if i < len(p.Keys) {
		return p.Keys[i]
	}
	return 0
}

// passes bounds how often labels are moved out of each other's way.
const passes = 6

// Choose picks one place for each label; the labels named first get the first choice, then
// each is moved to a better place as long as that helps. It returns the index of the
// place chosen for each label (-1 where it has none to choose from) and which labels
// still overlap something.
func Choose(labels [][]Spot, fixed []scene.Box) (chosen, overlapping []int) {
	b := NewBoard(labels, fixed)
	b.absorb()
	b.choose()
	return b.chosen, b.overlapping()
}

// choose gives each label that has no place its best one, then moves labels to better ones.
// Once the board's work is done the others get the cheapest free place of those left.
func (b *Board) choose() {
	for i := range b.labels {
		if b.chosen[i] >= 0 {
			continue
		}
		if b.work.Done() {
			b.putLate(i)
		} else if k := b.best(i); k >= 0 {
			b.put(i, k)
		}
	}
	if b.work.Done() {
		return
	}
	for range passes {
		moved := false
		for i, places := range b.labels {
			if len(places) < 2 {
				continue
			}
			if k := b.best(i); k != b.chosen[i] {
				b.put(i, k)
				moved = true
			}
		}
		if !moved || b.work.Done() {
			break
		}
	}
}
