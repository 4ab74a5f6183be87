package lead

// reach are the legs that are left at the least with so many turns in height, four bits each.
type reach uint16

const (
	mostTurns = 4  // in height that a pipe of mostLegs legs may have
	noReach   = 15 // legs: none leads there
	nowhere   = reach(0xffff)
)

// note writes down so many legs with so many turns, if there were none before.
func (r *reach) note(turns, legs int) {
	if *r>>(4*turns)&noReach == noReach {
		r.set(turns, legs)
	}
}

// set writes down so many legs with so many turns, whatever there was before.
func (r *reach) set(turns, legs int) { *r = *r&^(noReach<<(4*turns)) | reach(legs)<<(4*turns) }

// better reports whether so many legs with so many turns lead anywhere new: nothing noted has
// no more of both.
func (r reach) better(turns, legs int) bool {
	for range turns + 1 {
		if int(r&noReach) <= legs {
			return false
		}
		r >>= 4
	}
	return true
}

// within tells how many turns and legs are left at the least of those with at most so many
// legs, fewest turns first; ok is false where there are none.
func (r reach) within(most int) (turns, legs int, ok bool) {
	for turns = range mostTurns {
		if legs = int(r & noReach); legs != noReach && legs <= most {
			return turns, legs, true
		}
		r >>= 4
	}
	return 0, 0, false
}

// left tells how many legs and turns in height are needed at least with nothing in the way, by
// how what is left along each axis compares to the least lengths of a leg: a pipe that is a
// little aside of its port has to go away from it first.
type left struct {
	ranges [3][][2]int64 // of what is left, rising
	most   [343][3][3]reach
}

// far is further than any pipe goes.
const far = int64(1) << 40

// leftKey is what a left hangs on: the way of the last leg, the phase it comes to the port in,
// and the least lengths of a leg and of the last.
type leftKey struct {
	end            way
	last           phase
	shortest, long int64
}

// leftOf is what is left with nothing in the way for a pipe whose last leg goes a way and which
// comes to its port in a phase.
func (n *needs) leftOf(arrive way, last phase) *left {
	between, end := n.straight(false, false), n.straight(false, true, n.inLast()...)
	key := leftKey{arrive, last, min(between, end), end}
	known, ok := n.known.left[key]
	if !ok {
		known = newLeft(key)
		if n.known.left == nil {
			n.known.left = map[leftKey]*left{}
		}
		n.known.left[key] = known
	}
	return known
}

// newLeft works the table out backwards from the end.
func newLeft(key leftKey) *left {
	t := &left{}
	end, last, shortest := key.end, key.long, key.shortest
	for i := range t.most {
		for a := range t.most[i] {
			for p := range t.most[i][a] {
				t.most[i][a][p] = nowhere
			}
		}
	}
	for a := range 3 {
		cuts := []int64{shortest}
		if a == end.axis() && last > shortest {
			cuts = append(cuts, last)
		}
		for i := len(cuts) - 1; i >= 0; i-- {
			low := -far
			if i+1 < len(cuts) {
				low = -cuts[i+1] + 1
			}
			t.ranges[a] = append(t.ranges[a], [2]int64{low, -cuts[i]})
		}
		t.ranges[a] = append(t.ranges[a], [2]int64{-shortest + 1, -1}, [2]int64{0, 0}, [2]int64{1, shortest - 1})
		for i := range cuts {
			high := far
			if i+1 < len(cuts) {
				high = cuts[i+1] - 1
			}
			t.ranges[a] = append(t.ranges[a], [2]int64{cuts[i], high})
		}
	}
	t.walk(end, key.last, shortest, last)
	return t
}

// stage is a place in a walk backwards: a range of what is left along each axis, the axis of the
// leg that ends there, and the phase.
type stage struct {
	at    [3]int
	axis  int
	phase phase
}

// walk notes for every stage the legs and turns it takes to the goal at the least, by turns and
// then by legs. A stage that was reached with no more of either leads nowhere that is not led to
// already.
func (t *left) walk(end way, last phase, shortest, lastLeast int64) {
	goal := stage{axis: end.axis(), phase: last}
	for a := range 3 {
		goal.at[a] = t.rangeOf(a, 0)
	}
	var reached [mostTurns][mostLegs + 1][]stage
	reached[0][0] = []stage{goal}
	t.at(&goal).note(0, 0)
	for turns := range mostTurns {
		for legs := range mostLegs {
			for _, s := range reached[turns][legs] {
				if had := *t.at(&s) >> (4 * turns) & noReach; int(had) < legs {
					continue // with fewer legs, noted after this was
				}
				ways, least := [2]way{way(2 * s.axis), way(2*s.axis + 1)}, shortest
				n := len(ways)
				if legs == 0 {
					ways[0], n, least = end, 1, lastLeast
				}
				for _, w := range ways[:n] {
					t.before(s, w, least, func(b stage, turned bool) {
						now := turns + at(turned)
						if now < mostTurns && t.at(&b).better(now, legs+1) {
							t.at(&b).set(now, legs+1)
							reached[now][legs+1] = append(reached[now][legs+1], b)
						}
					})
				}
			}
		}
	}
}

// before goes through what one leg a way, at least so long, leads to a stage from.
func (t *left) before(s stage, w way, least int64, each func(b stage, turned bool)) {
	a := w.axis()
	to := t.ranges[a][s.at[a]]
	for i, from := range t.ranges[a] {
		far := from[1] - to[0]
		if w.sign() < 0 {
			far = to[1] - from[0]
		}
		if far < least {
			continue
		}
		b := s
		b.at[a] = i
		for b.phase = range phase(3) {
			after, turned := b.phase.after(w)
			if after != s.phase {
				continue
			}
			for b.axis = range 3 {
				if b.axis != a {
					each(b, turned)
				}
			}
		}
	}
}

func (t *left) at(s *stage) *reach {
	return &t.most[s.at[0]+7*(s.at[1]+7*s.at[2])][s.axis][s.phase]
}

// rangeOf is which range something left along an axis is in.
func (t *left) rangeOf(axis int, v int64) int {
	i := 0
	for v > t.ranges[axis][i][1] && i+1 < len(t.ranges[axis]) {
		i++
	}
	return i
}

// bound returns the cost of a whole path at the least, given what is walked; ok is false where
// no path from there ends as it should.
func (s *stream) bound(n *node) (c Cost, ok bool) {
	c = n.cost
	st := stage{axis: n.way.axis(), phase: n.phase}
	var cells [3]int
	for a := range 3 {
		left := s.end[a] - n.at[a]
		c.LengthUM += abs(left)
		st.at[a] = s.left.rangeOf(a, left)
		if s.ahead != nil {
			cells[a] = s.ahead.cell(a, n.at[a])
		}
	}
	if n.whole {
		return c, n.phase == s.last
	}
	return s.toCome(c, &st, &cells, mostLegs-int(n.legs))
}

// boundOf is bound where a leg ends that costs so much with those before.
func (s *stream) boundOf(l *leg, end int64, c Cost, whole bool) (Cost, bool) {
	a := l.stage.axis
	left := s.end[a] - end
	c.LengthUM += l.beyond + abs(left)
	if whole {
		return c, l.stage.phase == s.last
	}
	l.stage.at[a] = s.left.rangeOf(a, left)
	if s.ahead != nil {
		l.cells[a] = s.ahead.cell(a, end)
	}
	return s.toCome(c, &l.stage, &l.cells, mostLegs-int(l.next.legs))
}

// toCome adds the turns and legs that are left at the least, of at most so many legs.
func (s *stream) toCome(c Cost, st *stage, cells *[3]int, most int) (Cost, bool) {
	turns, legs, ok := s.left.at(st).within(most)
	if !ok {
		return c, false
	}
	if s.ahead != nil {
		round, more, ok := s.ahead.after(cells, st.axis, st.phase).within(most)
		switch {
		case !ok:
			return c, false
		case round > turns:
			turns, legs = round, more
		case round == turns:
			legs = max(legs, more)
		}
	}
	c.Traps += turns
	c.Elbows += legs
	return c, true
}

func abs(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}
