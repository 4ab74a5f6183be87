package lead

// legsLeft tells how many more legs are needed at least, with nothing in the way, from a
// point whose leg came a way, to end with a leg of a given way: by the signs of what is left
// along each axis.
type legsLeft [27][6]int8

// newLegsLeft works the table out backwards from the end, breadth first.
func newLegsLeft(end way) *legsLeft {
	t := &legsLeft{}
	for i := range t {
		for w := range t[i] {
			t[i][w] = -1
		}
	}
	t[signs(point{})][end] = 0
	for n, changed := int8(1), true; changed; n++ {
		changed = false
		for i := range t {
			for w := range way(6) {
				if t[i][w] < 0 && t.reaches(i, w, n-1) {
					t[i][w], changed = n, true
				}
			}
		}
	}
	return t
}

// reaches reports whether a leg square to a way leads to a state with so many legs left.
func (t *legsLeft) reaches(i int, came way, left int8) bool {
	s := [3]int{i%3 - 1, i/3%3 - 1, i/9 - 1}
	for w := range way(6) {
		if w.axis() == came.axis() {
			continue
		}
		a, sign := w.axis(), int(w.sign())
		outcomes := []int{-sign}
		if s[a] == sign {
			outcomes = []int{sign, 0, -sign}
		}
		for _, o := range outcomes {
			to := s
			to[a] = o
			if t[to[0]+1+3*(to[1]+1)+9*(to[2]+1)][w] == left {
				return true
			}
		}
	}
	return false
}

// signs is the index of what is left along each axis.
func signs(left point) int {
	i := 0
	for a := 2; a >= 0; a-- {
		i *= 3
		switch {
		case left[a] > 0:
			i += 2
		case left[a] == 0:
			i++
		}
	}
	return i
}

// bound returns the cost of a whole path at the least, given what is walked, with what is
// trapped at the unit; ok is false where no path from there ends as it should.
func (s *stream) bound(n *node) (c Cost, ok bool) {
	c = n.cost
	var left point
	for a := range 3 {
		left[a] = s.end[a] - n.at[a]
		c.LengthUM += abs(left[a])
	}
	legs := s.left[signs(left)][n.way]
	c.Elbows += int(legs)
	least := -1
	for last := range phase(3) {
		if turns, can := turnsLeft(n.phase, left[2], last); can && (least < 0 || turns+s.trapped[last] < least) {
			least = turns + s.trapped[last]
		}
	}
	c.Traps += least
	return c, legs >= 0 && least >= 0 && int(n.legs)+int(legs) <= mostLegs
}

// turnsLeft is how often a path must still turn in height, from a phase, with so much height
// left, to end in another; ok is false where it can't.
func turnsLeft(now phase, height int64, last phase) (turns int, ok bool) {
	if last == level {
		return 0, now == level && height == 0
	}
	// what must still come, in order: the way the height asks for, then the last
	through := []phase{last}
	switch {
	case height > 0 && last == falling:
		through = []phase{rising, falling}
	case height < 0 && last == rising:
		through = []phase{falling, rising}
	case height == 0 && now == level: // what goes up comes down again
		through = []phase{flip(last), last}
	}
	for _, p := range through {
		if now != level && p != now {
			turns++
		}
		now = p
	}
	return turns, true
}

func abs(v int64) int64 {
	if v < 0 {
		return -v
	}
	return v
}
