package stock

import (
	"cmp"
	"slices"
)

// quick tries a few rules of thumb to cut the pieces out of the bars; nil if none works.
func (s *packer) quick(need []int32, count []int) []pattern {
	for _, longFirst := range []bool{false, true} {
		if plan := s.firstFit(need, count, longFirst, false); plan != nil {
			return plan
		}
		if plan := s.firstFit(need, count, longFirst, true); plan != nil {
			return plan
		}
	}
	for _, longFirst := range []bool{false, true} {
		if plan := s.fullest(need, count, longFirst); plan != nil {
			return plan
		}
	}
	return nil
}

// barOrder lists the bars one by one.
func (s *packer) barOrder(count []int, longFirst bool) []int {
	var out []int
	for b, n := range count {
		for range n {
			out = append(out, b)
		}
	}
	slices.SortStableFunc(out, func(x, y int) int {
		c := cmp.Compare(s.bars[y].width, s.bars[x].width)
		if !longFirst {
			c = -c
		}
		return cmp.Or(c, cmp.Compare(x, y))
	})
	return out
}

// firstFit puts each piece, the longest first, into the first bar it fits, or into the one
// it fills best.
func (s *packer) firstFit(need []int32, count []int, longFirst, tightest bool) []pattern {
	order := s.barOrder(count, longFirst)
	plan := make([]pattern, len(order))
	room := make([]int64, len(order))
	for i, b := range order {
		plan[i] = pattern{bar: b}
		room[i] = s.bars[b].width
	}
	for i, n := range need {
		w := s.kinds[i].width
		s.effort.spend(int(n) * (1 + len(order)/16))
		for range n {
			at := -1
			for j := range order {
				if room[j] >= w && (at < 0 || tightest && room[j] < room[at]) {
					at = j
					if !tightest {
						break
					}
				}
			}
			if at < 0 {
				return nil
			}
			if plan[at].take == nil {
				plan[at].take = make([]int32, len(need))
			}
			plan[at].take[i]++
			room[at] -= w
		}
	}
	return used(plan)
}

// fullest fills bar after bar as full as it goes, each round the longest piece left that fits.
func (s *packer) fullest(need []int32, count []int, longFirst bool) []pattern {
	rest := slices.Clone(need)
	left := 0
	for _, n := range rest {
		left += int(n)
	}
	var plan []pattern
	for _, b := range s.barOrder(count, longFirst) {
		width := s.bars[b].width
		first := -1
		for i, n := range rest {
			if n > 0 && s.kinds[i].width <= width {
				first = i
				break
			}
		}
		if first < 0 {
			continue
		}
		rest[first]--
		take := s.fill(rest, width-s.kinds[first].width)
		take[first]++
		rest[first]++
		for i, n := range take {
			rest[i] -= n
			left -= int(n)
		}
		plan = append(plan, pattern{bar: b, take: take})
		if left == 0 {
			return plan
		}
	}
	return nil
}

// fill returns the pieces that fill the room best.
func (s *packer) fill(rest []int32, room int64) []int32 {
	offer := make([]worth, 0, len(rest))
	for i, n := range rest {
		if n > 0 {
			offer = append(offer, worth{kind: i, width: s.kinds[i].width, value: s.kinds[i].width, copies: int(n)})
		}
	}
	f := s.filler.best(offer, room, 0, len(rest), true, s.effort)
	if f.take == nil {
		return make([]int32, len(rest))
	}
	return f.take
}

// used drops the bars nothing is cut from.
func used(plan []pattern) []pattern {
	return slices.DeleteFunc(plan, func(p pattern) bool { return p.take == nil })
}

// rough is a plan by rule of thumb, for when the effort ran out: the best of first fit over
// all bars and over each kind of bar with what is free, each bar then changed for the
// cheapest that still holds its pieces.
func (s *packer) rough() []pattern {
	var best []pattern
	try := func(count []int) {
		for _, longFirst := range []bool{false, true} {
			for _, tightest := range []bool{false, true} {
				plan := s.firstFit(s.need, count, longFirst, tightest)
				if plan == nil {
					continue
				}
				plan = s.cheaper(plan)
				if best == nil || s.cost(plan) < s.cost(best) {
					best = plan
				}
			}
		}
	}
	all := make([]int, len(s.bars))
	for b := range s.bars {
		all[b] = s.bars[b].count
	}
	try(all)
	for b := range s.bars {
		count := make([]int, len(s.bars))
		for i, t := range s.bars {
			if t.cost == 0 || i == b || t.width == s.bars[0].width {
				count[i] = t.count
			}
		}
		try(count)
	}
	return best
}

// cheaper changes each bar for the cheapest there is that holds its pieces.
func (s *packer) cheaper(plan []pattern) []pattern {
	have := s.unused(plan)
	out := slices.Clone(plan)
	for i, p := range out {
		width := int64(0)
		for k, n := range p.take {
			width += int64(n) * s.kinds[k].width
		}
		for b, t := range s.bars {
			if have[b] > 0 && t.width >= width && t.cost < s.bars[out[i].bar].cost {
				have[out[i].bar]++
				have[b]--
				out[i].bar = b
			}
		}
	}
	return out
}
