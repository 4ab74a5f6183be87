package lead

// couple is two paths that are clear of each other.
type couple struct {
	paths [2]path // to the unit, from it
	cost  Cost
}

// The best pair is looked for from both sides: the paths of one pipe are taken in the order of
// their cost, and to each the best path of the other that is clear of it is found. Once the
// next path, with the best there is of the other pipe whatever lies in its way, costs as much
// as the best pair so far, no better pair is left.

// match looks for the best pair of a kind, of those that cost less than the bound; proved is
// false where the work came to its bound before.
func (f *finder) match(k *kind, g *grid, bound *Cost, most int) (best *couple, proved bool) {
	for first := range 2 {
		c, sure := f.matchFrom(first, k, g, bound, most)
		if c != nil {
			best, bound = c, &c.cost
		}
		if sure {
			return best, true
		}
	}
	return best, false
}

// matchFrom takes the paths of one of the pipes in order.
func (f *finder) matchFrom(first int, k *kind, g *grid, bound *Cost, most int) (best *couple, proved bool) {
	second := 1 - first
	a, alone := f.stream(&f.rooms[0], first, g, k.way, k.phases[first], f.keep(mostPaths)), f.stream(&f.rooms[1], second, g, k.way, k.phases[second], 1)
	atUnit := &Cost{Traps: k.atUnit}
	steps := min(most, f.steps)
	defer func(before int) { f.steps -= before - steps }(steps)
	a.budget, alone.budget = &steps, &steps
	alone.limit = bound.less(atUnit).less(a.free)
	if !alone.next() {
		return nil, steps > 0
	}
	floor := alone.found[0].cost
	for n := 0; n < f.keep(mostPaths); n++ {
		a.limit = bound.less(atUnit).less(&floor)
		if !a.next() {
			return best, steps > 0
		}
		p := &a.found[n]
		b := f.stream(&f.rooms[2], second, g, k.way, k.phases[second], f.keep(1))
		b.budget, b.other, b.clip, b.limit = &steps, p, f.clip, bound.less(atUnit).less(&p.cost)
		if q := f.partner(first, p, b); q != nil {
			c := &couple{cost: p.cost.plus(q.cost).plus(*atUnit)}
			if bound == nil || c.cost.Compare(*bound) < 0 {
				c.paths[first], c.paths[second] = *p, *q
				best, bound = c, &c.cost
			}
		}
	}
	return best, false
}

// partner is the best path of a stream beside one of the other pipe that was not refused with
// it; of a stream that is written, its path where that is clear of the other.
func (f *finder) partner(first int, p *path, s *stream) *path {
	for n := 0; n < f.keep(1); n++ {
		if n == len(s.found) && !s.next() {
			return nil
		}
		q := &s.found[n]
		if f.refused(first, p, q) {
			continue
		}
		for i := 1; i < len(q.points); i++ {
			if s.other.near(q.points[i-1], q.points[i], f.clip) {
				return nil
			}
		}
		return q
	}
	return nil
}

func flip(p phase) phase {
	switch p {
	case rising:
		return falling
	case falling:
		return rising
	}
	return level
}

// turns counts the points where the water turns in height at the unit: the way it comes to it,
// from its inlet to its outlet, and away from it.
func turns(ps ...phase) int {
	n, last := 0, level
	for _, p := range ps {
		if p == level {
			continue
		}
		if last != level && p != last {
			n++
		}
		last = p
	}
	return n
}
