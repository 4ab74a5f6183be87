package stock

import (
	"cmp"
	"slices"
)

// packer looks for the least-cost plan of a problem.
type packer struct {
	*problem
	effort  *effort
	filler  filler
	pool    []column
	chooser chooser
	need    []int32
	dead    map[string]bool // pieces and bars left over that were shown not to go together
}

func newPacker(p *problem, e *effort) *packer {
	s := &packer{problem: p, effort: e}
	s.need = make([]int32, len(p.kinds))
	for i, k := range p.kinds {
		s.need[i] = int32(len(k.numbers))
	}
	s.chooser = chooser{bars: p.bars, effort: e}
	return s
}

// cheapest returns the best plan found, a lower bound of the cost in whole units, and
// whether the two are equal.
func (s *packer) cheapest() (plan []pattern, lower int64, proved bool) {
	c := &s.chooser
	c.conditions = append([]condition{s.lengthCondition()}, s.thresholdConditions()...)
	many := len(s.kinds) >= manyKinds
	open := false       // a cheaper choice was left undecided
	priced := false     // the condition that follows from the least-cost relaxation is there
	var known []pattern // a plan for all that was found on the way
	for {
		count, cost, ok := c.cheapest()
		if !ok {
			break
		}
		if !open {
			lower = cost
		}
		if known != nil && cost >= s.cost(known) {
			return known, lower, !open || s.cost(known) == lower
		}
		if plan := s.quick(s.need, count); plan != nil {
			return plan, lower, !open
		}
		if !priced {
			priced = true
			if d := s.relax(s.costRelaxation(), false); d.cond.need > 0 {
				c.conditions = append(c.conditions, d.cond)
				continue
			}
		}
		if many {
			if plan := s.into(count); plan != nil {
				return plan, lower, !open
			}
			if known == nil {
				known = s.cheap()
			}
		}
		switch plan, answer := s.search(count, many); answer {
		case fits:
			return plan, lower, !open
		case fitsNot:
			if !s.learn(count) {
				c.refused = append(c.refused, count)
			}
		default:
			open = true
			c.refused = append(c.refused, count)
		}
	}
	if known == nil {
		s.effort.left = max(s.effort.left, lastEffort)
		known = s.cheap()
	}
	return known, lower, known != nil && s.cost(known) == lower
}

// lastEffort is left for a plan where the search for the best has used all.
const lastEffort = 10_000_000

// search looks for a way to cut the pieces out of just these bars. In a long list it may take
// a third of what is left, so that other bars are looked at too.
func (s *packer) search(count []int, many bool) ([]pattern, answer) {
	s.dead = map[string]bool{}
	kept := int64(0)
	if many {
		kept = s.effort.left / 3 * 2
	}
	s.effort.left -= kept
	plan, a := s.pack(s.need, count, 0)
	s.effort.left += kept
	return plan, a
}

// learn adds the condition that shuts the bars out, if the relaxation gives one.
func (s *packer) learn(count []int) bool {
	d := s.relax(s.roomRelaxation(s.need, count), true)
	if d.refuted {
		s.chooser.conditions = append(s.chooser.conditions, d.cond)
	}
	return d.refuted
}

// costRelaxation asks for the least cost.
func (s *packer) costRelaxation() *relaxation {
	count := make([]int, len(s.bars))
	for b := range s.bars {
		count[b] = s.bars[b].count
	}
	return s.costRelaxationOf(s.need, count)
}

// costRelaxationOf asks for the least cost of some pieces out of the bars left.
func (s *packer) costRelaxationOf(need []int32, count []int) *relaxation {
	l := &relaxation{kinds: len(s.kinds), bars: len(s.bars), need: need, count: count}
	dearest := int64(1)
	for _, b := range s.bars {
		if !b.short {
			dearest = max(dearest, b.cost)
		}
	}
	for _, b := range s.bars {
		cost := float64(b.cost) / float64(dearest)
		if b.short {
			cost = 4
		}
		l.cost = append(l.cost, cost)
		l.limited = append(l.limited, b.supply.Count > 0 && !b.short)
	}
	for range s.kinds {
		l.penalty = append(l.penalty, 10)
	}
	return l
}

// roomRelaxation asks whether pieces go into bars: what is left out counts by its width.
func (s *packer) roomRelaxation(need []int32, count []int) *relaxation {
	l := &relaxation{kinds: len(s.kinds), bars: len(s.bars), need: need, count: count}
	for range s.bars {
		l.cost = append(l.cost, 0)
		l.limited = append(l.limited, true)
	}
	for _, k := range s.kinds {
		l.penalty = append(l.penalty, float64(k.width)/float64(s.kinds[0].width))
	}
	return l
}

// answer says whether pieces go into bars.
type answer int

const (
	fits answer = iota
	fitsNot
	unknown
)

// mostPatterns bounds the patterns tried at one step of the search; more leave it undecided.
const mostPatterns = 20_000

// pack looks for a way to cut the pieces out of the bars; complete unless it says unknown.
func (s *packer) pack(need []int32, count []int, depth int) ([]pattern, answer) {
	if none(need) {
		return nil, fits
	}
	key := stateKey(need, count)
	if s.dead[key] {
		return nil, fitsNot
	}
	for i := range s.chooser.conditions {
		if !s.chooser.conditions[i].metBy(need, count) {
			return nil, fitsNot
		}
	}
	if plan := s.quick(need, count); plan != nil {
		return plan, fits
	}
	d := s.relax(s.roomRelaxation(need, count), true)
	if d.refuted {
		s.dead[key] = true
		return nil, fitsNot
	}
	if s.effort.spent() {
		return nil, unknown
	}
	options, complete := s.options(need, count, d.use)
	for _, o := range options {
		rest, bars := slices.Clone(need), slices.Clone(count)
		for i, n := range o.take {
			rest[i] -= n
		}
		bars[o.bar]--
		plan, a := s.pack(rest, bars, depth+1)
		if a == fits {
			return append(plan, o), fits
		}
		if a == unknown {
			complete = false
		}
		if s.effort.spent() {
			return nil, unknown
		}
	}
	if !complete {
		return nil, unknown
	}
	s.dead[key] = true
	return nil, fitsNot
}

// options returns every way to cut a bar that holds the longest piece left and to which no
// piece left could be added, as one of them is in every plan: first those the relaxation
// uses most, then those that leave least.
func (s *packer) options(need []int32, count []int, use []float64) ([]pattern, bool) {
	first := 0
	for need[first] == 0 {
		first++
	}
	room := int64(0)
	for b, n := range count {
		room += int64(n) * s.bars[b].width
	}
	for i, n := range need {
		room -= int64(n) * s.kinds[i].width
	}
	var out []option
	complete := true
	take := make([]int32, len(need))
	for b, n := range count {
		w := s.bars[b].width
		if n == 0 || w < s.kinds[first].width {
			continue
		}
		var fill func(i int, w int64)
		fill = func(i int, w int64) {
			if len(out) >= mostPatterns || !s.effort.spend(1) {
				complete = false
				return
			}
			for i < len(need) && (need[i] == take[i] || s.kinds[i].width > w) {
				i++
			}
			if i == len(need) {
				if w <= room && s.full(need, take, w) {
					s.effort.spend(len(need))
					out = append(out, option{pattern: pattern{bar: b, take: slices.Clone(take)}, left: w})
				}
				return
			}
			most := min(int64(need[i]), w/s.kinds[i].width)
			for m := most; m >= 0; m-- {
				take[i] = int32(m)
				fill(i+1, w-m*s.kinds[i].width)
			}
			take[i] = 0
		}
		// the longest piece is in: at least one
		for m := min(int64(need[first]), w/s.kinds[first].width); m >= 1; m-- {
			take[first] = int32(m)
			fill(first+1, w-m*s.kinds[first].width)
		}
		take[first] = 0
	}
	return s.ranked(out, use), complete
}

// option is a way to cut a bar: how much the relaxation uses it, and what it leaves.
type option struct {
	pattern
	use  float64
	left int64
}

// ranked puts ways to cut in the order in which they are tried: first those the relaxation uses
// most, then those that leave least.
func (s *packer) ranked(out []option, use []float64) []pattern {
	by := map[string]float64{}
	for j, x := range use {
		if x > 1e-6 {
			by[patternKey(s.pool[j].pattern)] += x
		}
	}
	for i := range out {
		out[i].use = by[patternKey(out[i].pattern)]
	}
	slices.SortStableFunc(out, func(a, b option) int {
		return cmp.Or(cmp.Compare(b.use, a.use), cmp.Compare(a.left, b.left),
			cmp.Compare(a.bar, b.bar), slices.Compare(b.take, a.take))
	})
	patterns := make([]pattern, len(out))
	for i, o := range out {
		patterns[i] = o.pattern
	}
	return patterns
}

// full reports whether no piece left goes into the rest of the bar.
func (s *packer) full(need, take []int32, rest int64) bool {
	for i := len(need) - 1; i >= 0; i-- {
		if need[i] > take[i] {
			return s.kinds[i].width > rest
		}
	}
	return true
}

func none(need []int32) bool {
	for _, n := range need {
		if n > 0 {
			return false
		}
	}
	return true
}

func stateKey(need []int32, count []int) string {
	b := make([]byte, 0, 2*(len(need)+len(count)))
	for _, n := range need {
		b = append(b, byte(n), byte(n>>8))
	}
	for _, n := range count {
		b = append(b, byte(n), byte(n>>8))
	}
	return string(b)
}

func patternKey(p pattern) string {
	return stateKey(p.take, []int{p.bar})
}
