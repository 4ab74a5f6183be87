package lead

import (
	"container/heap"
	"slices"
)

// couple is two paths that are clear of each other.
type couple struct {
	to, from path
	cost     Cost
}

// match looks for the best two paths of two streams that are clear of each other and cost
// less than a bound. floor is what the best of each cost together, whether or not they are
// clear of each other; proved is false where paths were left out that might have done.
func match(to, from *stream, rise phase, clip int64, bound *Cost, budget *int) (best *couple, floor *Cost, proved bool) {
	has := func(s *stream, i int) bool {
		for len(s.found) <= i {
			if !s.next() {
				return false
			}
		}
		return true
	}
	if !has(to, 0) || !has(from, 0) {
		return nil, nil, *budget > 0
	}
	f := to.found[0].cost.plus(from.found[0].cost)
	floor = &f
	tries := tryList{{0, 0, f}}
	for len(tries) > 0 && *budget > 0 {
		t := heap.Pop(&tries).(try)
		if bound != nil && t.cost.Compare(*bound) >= 0 {
			return best, floor, true
		}
		*budget--
		a, b := &to.found[t.to], &from.found[t.from]
		whole := t.cost
		whole.Traps += turns(a.phase, rise, flip(b.phase))
		if (bound == nil || whole.Compare(*bound) < 0) && apart(a, b, clip) {
			best, bound = &couple{*a, *b, whole}, &whole
		}
		if has(from, t.from+1) {
			heap.Push(&tries, try{t.to, t.from + 1, a.cost.plus(from.found[t.from+1].cost)})
		}
		if t.from == 0 && has(to, t.to+1) {
			heap.Push(&tries, try{t.to + 1, 0, to.found[t.to+1].cost.plus(from.found[0].cost)})
		}
	}
	return best, floor, *budget > 0 && !to.capped && !from.capped
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

// apart reports whether two paths are clear of each other.
func apart(a, b *path, clip int64) bool {
	for i := 1; i < len(a.points); i++ {
		for j := 1; j < len(b.points); j++ {
			if nearer(a.points[i-1], a.points[i], b.points[j-1], b.points[j], clip) {
				return false
			}
		}
	}
	return true
}

// try is two paths, by their numbers in their streams.
type try struct {
	to, from int
	cost     Cost
}

// tryList is a heap, the cheapest first.
type tryList []try

func (l tryList) Len() int { return len(l) }
func (l tryList) Less(i, j int) bool {
	if c := l[i].cost.Compare(l[j].cost); c != 0 {
		return c < 0
	}
	return slices.Compare([]int{l[i].to + l[i].from, l[i].to}, []int{l[j].to + l[j].from, l[j].to}) < 0
}
func (l tryList) Swap(i, j int) { l[i], l[j] = l[j], l[i] }

// Push is heap.Interface's.
func (l *tryList) Push(x any) { *l = append(*l, x.(try)) }

// Pop is heap.Interface's.
func (l *tryList) Pop() any {
	last := len(*l) - 1
	x := (*l)[last]
	*l = (*l)[:last]
	return x
}
