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

// match looks for the best pair whose branches point a way, of those that cost less than the
// bound; proved is false where the work came to its bound before.
func (f *finder) match(w way, g *grid, bound *Cost) (best *couple, proved bool) {
	for first := range 2 {
		c, sure := f.matchFrom(first, w, g, bound)
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
func (f *finder) matchFrom(first int, w way, g *grid, bound *Cost) (best *couple, proved bool) {
	second := 1 - first
	a, alone := f.stream(&f.rooms[0], first, g, w, f.leastTrapped(first), f.keep(mostPaths)), f.stream(&f.rooms[1], second, g, w, f.leastTrapped(second), 1)
	if a == nil || alone == nil || a.free == nil || alone.free == nil {
		return nil, true
	}
	steps := min(sideSteps, f.steps)
	defer func(before int) { f.steps -= before - steps }(steps)
	a.budget, alone.budget = &steps, &steps
	alone.limit = bound.less(a.free)
	if !alone.next() {
		return nil, steps > 0
	}
	floor := alone.found[0].cost // what is trapped at the unit is in neither
	for n := 0; n < f.keep(mostPaths); n++ {
		a.limit = bound.less(&floor)
		if !a.next() {
			return best, steps > 0
		}
		p := &a.found[n]
		b := f.stream(&f.rooms[2], second, g, w, f.trapped(second, p.phase), f.keep(1))
		b.budget, b.other, b.clip, b.limit = &steps, p, f.clip, bound.less(&p.cost)
		if q := f.partner(first, p, b); q != nil {
			c := &couple{cost: p.cost.plus(q.cost)}
			c.cost.Traps += b.trapped[q.phase]
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

// trapped is how many points are trapped at the unit, by the phase one pipe comes to it, where
// the other comes to it in the phase given.
func (f *finder) trapped(of int, other phase) (out [3]int) {
	for p := range phase(3) {
		to, from := p, other
		if of == 1 {
			to, from = other, p
		}
		out[p] = turns(to, f.rise, flip(from))
	}
	return out
}

// leastTrapped is trapped where the other may come as it likes.
func (f *finder) leastTrapped(of int) (out [3]int) {
	out = f.trapped(of, level)
	for _, other := range []phase{rising, falling} {
		for p, n := range f.trapped(of, other) {
			out[p] = min(out[p], n)
		}
	}
	return out
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
