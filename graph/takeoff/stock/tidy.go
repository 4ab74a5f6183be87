package stock

import "slices"

// useful is how useful what is left is: the sum of the squares of the lengths left, of bars
// cut into and of offcuts in the van that stay whole. One long offcut counts more than
// several short ones of the same length together. mm².
func (p *problem) useful(plan []pattern) float64 {
	sum := 0.0
	spare := make([]int, len(p.bars))
	for b, s := range p.bars {
		if s.offcut {
			spare[b] = s.count
		}
	}
	for _, b := range plan {
		sum += p.square(b)
		if spare[b.bar] > 0 {
			spare[b.bar]--
		}
	}
	for b, n := range spare {
		left := float64(p.bars[b].width-p.kerf) / hundredths
		sum += float64(left*left) * float64(n)
	}
	return sum
}

// mostTies bounds the choices of bars of equal cost that are looked at.
const mostTies = 24

// tidyEffort bounds the steps spent on what is left over.
const tidyEffort = 6_000_000

// tidy returns the plan of the same cost, as far as one is found, that leaves the most
// useful offcuts.
func (s *packer) tidy(plan []pattern) []pattern {
	if plan == nil {
		return nil
	}
	s.effort = &effort{left: tidyEffort}
	s.chooser.effort = s.effort
	best := s.exchange(plan)
	for _, count := range s.chooser.all(s.cost(plan), mostTies) {
		if s.effort.spent() {
			break
		}
		other := s.quick(s.need, count)
		if other == nil || s.cost(other) != s.cost(plan) {
			continue
		}
		if other = s.exchange(other); s.useful(other) > s.useful(best) {
			best = other
		}
	}
	return best
}

// exchange raises the usefulness of what is left by cutting the pieces of two bars anew,
// one of them as full as it goes, for as long as that helps; and by cutting a bar's pieces
// out of one that costs the same. Free bars that nothing was cut from take part.
func (s *packer) exchange(plan []pattern) []pattern {
	best := slices.Clone(plan)
	for b, n := range s.unused(plan) {
		for range n {
			if s.bars[b].cost == 0 {
				best = append(best, pattern{bar: b, take: make([]int32, len(s.kinds))})
			}
		}
	}
	for again := true; again && !s.effort.spent(); {
		again = false
		for i := range best {
			for j := range best {
				if i == j || s.effort.spent() {
					continue
				}
				if a, b, ok := s.recut(best[i], best[j]); ok && s.square(a)+s.square(b) > s.square(best[i])+s.square(best[j])+0.01 {
					best[i], best[j], again = a, b, true
				}
			}
			if other, ok := s.swapBar(best, i); ok && s.useful(other) > s.useful(best)+0.01 {
				best, again = other, true
			}
		}
	}
	return slices.DeleteFunc(best, func(p pattern) bool { return none(p.take) })
}

// unused returns how many bars of each stock a plan leaves.
func (s *packer) unused(plan []pattern) []int {
	have := make([]int, len(s.bars))
	for b := range s.bars {
		have[b] = s.bars[b].count
	}
	for _, p := range plan {
		have[p.bar]--
	}
	return have
}

// square is the square of what is left of a bar, mm².
func (p *problem) square(b pattern) float64 {
	left := float64(p.left(b)) / hundredths
	return float64(left * left)
}

// recut fills bar a as full as the pieces of bars a and b allow and puts the rest into b.
func (s *packer) recut(a, b pattern) (fuller, other pattern, ok bool) {
	s.effort.spend(4 * len(s.kinds))
	pool := slices.Clone(a.take)
	total := int64(0)
	for k, n := range b.take {
		pool[k] += n
		total += int64(pool[k]) * s.kinds[k].width
	}
	take := s.fill(pool, s.bars[a.bar].width)
	for k := range pool {
		pool[k] -= take[k]
		total -= int64(take[k]) * s.kinds[k].width
	}
	if total > s.bars[b.bar].width {
		return a, b, false
	}
	return pattern{bar: a.bar, take: take}, pattern{bar: b.bar, take: pool}, true
}

// swapBar cuts the pieces of bar i out of another of the same cost that is still there and
// leaves more useful ends.
func (s *packer) swapBar(plan []pattern, i int) ([]pattern, bool) {
	width := int64(0)
	for k, n := range plan[i].take {
		width += int64(n) * s.kinds[k].width
	}
	have := s.unused(plan)
	var best []pattern
	for b, t := range s.bars {
		if none(plan[i].take) || have[b] <= 0 || t.cost != s.bars[plan[i].bar].cost || t.width < width {
			continue
		}
		s.effort.spend(len(plan) * len(s.kinds))
		out := slices.Clone(plan)
		out[i].bar = b
		if best == nil || s.useful(out) > s.useful(best) {
			best = out
		}
	}
	return best, best != nil
}
