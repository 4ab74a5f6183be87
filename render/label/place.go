// Package label finds places for labels on a drawing: for each label it is given some
// places to choose from, and it takes those that cover no line, no sign and no other label.
// Choose does it in one go, and a label without a free place stands where it covers least; a
// Board lets labels give way to each other, and one that finds no free place stands nowhere.
package label

import (
	"dryfit/render/scene"
)

// LineShare is how high a line of a label is, in heights of its em.
const LineShare = 1.3

// Spot is where a label could stand; of free places the one of least Cost is taken.
type Spot struct {
	Box   scene.Box
	Cost  float64
	Parts []scene.Box // what the label covers, where that is much less than Box; nil: Box
	Keys  []int       // of Parts, or shorter: parts with the same key, not 0, may lie on each other
	Bare  int         // not 0: only so many of the first Parts keep clear of what is fixed; a leader crosses it
}

// parts returns what a label covers at the spot.
func (p *Spot) parts() []scene.Box {
	if p.Parts != nil {
		return p.Parts
	}
	return []scene.Box{p.Box}
}

// bare returns what of a label must be clear of what is fixed.
func (p *Spot) bare() []scene.Box {
	if p.Bare > 0 {
		return p.Parts[:p.Bare]
	}
	return p.parts()
}

// key returns the key of a part.
func (p *Spot) key(i int) int {
	if i < len(p.Keys) {
		return p.Keys[i]
	}
	return 0
}

// Work is how much search boards may still do, counted in comparisons of places: the same
// drawing always gets as far. What is left serves the next board.
type Work struct{ Left int }

// DefaultWork is what one board may do, if nothing else is said.
const DefaultWork = 4_000_000

// Done reports whether nothing is left.
func (w *Work) Done() bool { return w.Left <= 0 }
