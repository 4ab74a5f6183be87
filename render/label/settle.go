package label

import (
	"math"
	"slices"
)

// Bounds of the search: how many moves in a row may leave no fewer labels without a place than
// there were at the best, for each that has none and besides; and how often all are moved to
// better places.
const (
	idleEach = 40
	idleMore = 120
	polishes = 3
)

// Settle finds places for the labels that have none, and returns which have none all the same.
// Each takes the cheapest that is free; then one without a place goes where those in its way
// were placed most easily, and these look for others. What was placed that way is harder to move
// the next time, so that in the end it is others that give way. As many as ever had places at
// once keep them, and are moved to better ones. Once the board's work is done no more is tried.
func (b *Board) Settle() (without []int) {
	for i := range b.labels {
		if b.chosen[i] == nil {
			b.put(i, b.free(i))
		}
	}
	b.makeRoom()
	b.polish()
	return b.without()
}

// free is the cheapest place of a label at which nothing stands; nil: none.
func (b *Board) free(i int) *stand {
	for _, s := range b.labels[i] {
		if b.burden(i, s, 1) == 0 {
			return s
		}
	}
	return nil
}

// easiest is the place of a label with the least burden, the cheapest of those; nil: it has none.
// inWay becomes the labels there.
func (b *Board) easiest(i int) *stand {
	var found *stand
	least := math.MaxInt
	for _, s := range b.labels[i] {
		b.work.Left--
		if n := b.burden(i, s, least); n < least {
			if found, least = s, n; n == 0 {
				break
			}
		}
	}
	if found != nil {
		b.burden(i, found, math.MaxInt)
	}
	return found
}

// without lists the labels that are to stand somewhere and have no place.
func (b *Board) without() []int {
	var out []int
	for i := range b.labels {
		if b.chosen[i] == nil && b.wanted[i] {
			out = append(out, i)
		}
	}
	return out
}

// makeRoom places labels that have no free place where others stand, and these elsewhere.
func (b *Board) makeRoom() {
	waiting := slices.DeleteFunc(b.without(), func(i int) bool { return len(b.labels[i]) == 0 })
	best, fewest := slices.Clone(b.chosen), len(waiting)
	limit := idleMore + idleEach*fewest
	for idle := 0; len(waiting) > 0 && idle < limit && !b.work.Done(); idle++ {
		i := waiting[0]
		waiting = waiting[1:]
		s := b.easiest(i)
		for _, j := range b.inWay {
			b.put(j, nil)
			waiting = append(waiting, j)
		}
		b.put(i, s)
		b.weight[i]++
		if len(waiting) < fewest {
			copy(best, b.chosen)
			fewest, idle = len(waiting), 0
		}
	}
	if len(waiting) == 0 {
		return
	}
	for i, s := range best {
		if b.chosen[i] != nil && b.chosen[i] != s {
			b.put(i, nil)
		}
	}
	for i, s := range best {
		if b.chosen[i] != s {
			b.put(i, s)
		}
	}
}

// polish moves labels to cheaper places that are free, and to one that another label leaves for
// its own next best if both together are cheaper then.
func (b *Board) polish() {
	for range polishes {
		moved := false
		for i := range b.labels {
			if b.work.Done() {
				return
			}
			if b.chosen[i] != nil && b.better(i) {
				moved = true
			}
		}
		if !moved {
			return
		}
	}
}

// better moves a label to a cheaper place, if there is one.
func (b *Board) better(i int) bool {
	was := b.chosen[i]
	for _, s := range b.labels[i] {
		if s.Cost >= was.Cost {
			return false
		}
		b.burden(i, s, math.MaxInt)
		switch len(b.inWay) {
		case 0:
			b.put(i, s)
			return true
		case 1:
			if b.swap(i, s, b.inWay[0]) {
				return true
			}
		}
	}
	return false
}

// leastGain is by how much places must be cheaper together for two labels to be moved.
const leastGain = 0.01

// swap moves a label to a place and another out of it, if both are cheaper then.
func (b *Board) swap(i int, s *stand, j int) bool {
	wasI, wasJ := b.chosen[i], b.chosen[j]
	b.put(j, nil)
	b.put(i, s)
	for _, t := range b.labels[j] {
		if s.Cost+t.Cost > wasI.Cost+wasJ.Cost-leastGain {
			break
		}
		if b.burden(j, t, 1) == 0 {
			b.put(j, t)
			return true
		}
	}
	b.put(i, wasI)
	b.put(j, wasJ)
	return false
}
