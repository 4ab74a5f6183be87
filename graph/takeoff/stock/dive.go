package stock

import (
	"cmp"
	"slices"
)

// manyKinds is from how many lengths on a plan is looked for by diving before the complete
// search: that seldom ends there.
const manyKinds = 40

// Bounds of a dive: how many relaxations it solves, and how many patterns are tried at a step.
const (
	diveNodes   = 300
	diveBreadth = 3
)

// rounder looks for a plan as the relaxation has it, rounded: what that cuts a whole number of
// times is cut so often, else one of the patterns it uses most once; what is left is relaxed
// anew, and where that shows that it cannot end well the step before is taken another way.
// Source of the idea: the residual heuristics of Wäscher and Gau, OR Spektrum 18 (1996)
// 131–144, from memory.
type rounder struct {
	*packer
	relaxed func(need []int32, count []int) *relaxation // of the pieces and bars left
	exact   bool                                        // it asks whether the pieces go into the bars at all
	nodes   int
}

// into rounds the relaxation of just these bars.
func (s *packer) into(count []int) []pattern {
	r := rounder{packer: s, relaxed: s.roomRelaxation, exact: true, nodes: diveNodes}
	return r.dive(s.need, count)
}

// cheap rounds the relaxation of least cost from all bars there are, and returns the better of
// that and the rules of thumb.
func (s *packer) cheap() []pattern {
	best := s.rough()
	all := make([]int, len(s.bars))
	for b := range s.bars {
		all[b] = s.bars[b].count
	}
	r := rounder{packer: s, relaxed: s.costRelaxationOf, nodes: diveNodes}
	if plan := r.dive(s.need, all); plan != nil {
		if plan = s.cheaper(plan); best == nil || s.cost(plan) < s.cost(best) {
			best = plan
		}
	}
	return best
}

// dive cuts the pieces out of the bars; nil where it found no way.
func (r *rounder) dive(need []int32, count []int) []pattern {
	if none(need) {
		return []pattern{}
	}
	if r.nodes--; r.nodes < 0 || r.effort.spent() {
		return nil
	}
	if plan := r.quick(need, count); plan != nil {
		return plan
	}
	d := r.relax(r.relaxed(need, count), r.exact)
	if d.refuted {
		return nil
	}
	l := leftOver{need: slices.Clone(need), count: slices.Clone(count)}
	var part []int // patterns used in part, the most used first
	for j, x := range d.use {
		for ; x > 1-1e-6; x-- {
			l.cut(r.pool[j].pattern)
		}
		if x > 1e-6 {
			part = append(part, j)
			d.use[j] = x
		}
	}
	if len(l.plan) > 0 {
		return l.with(r.dive(l.need, l.count))
	}
	slices.SortStableFunc(part, func(a, b int) int {
		return cmp.Or(cmp.Compare(d.use[b], d.use[a]), cmp.Compare(r.left(r.pool[a].pattern), r.left(r.pool[b].pattern)))
	})
	for k := range min(diveBreadth, len(part)) {
		l := leftOver{need: slices.Clone(need), count: slices.Clone(count)}
		l.cut(r.pool[part[k]].pattern)
		for _, j := range part[k+1:] {
			if d.use[j] < 0.75 {
				break
			}
			l.cut(r.pool[j].pattern)
		}
		if len(l.plan) == 0 {
			continue
		}
		if plan := l.with(r.dive(l.need, l.count)); plan != nil {
			return plan
		}
	}
	return nil
}

// leftOver is what is left when some bars are cut.
type leftOver struct {
	need  []int32
	count []int
	plan  []pattern
}

// cut cuts a bar, if it is there and so are its pieces.
func (l *leftOver) cut(p pattern) {
	if l.count[p.bar] == 0 {
		return
	}
	for i, n := range p.take {
		if n > l.need[i] {
			return
		}
	}
	for i, n := range p.take {
		l.need[i] -= n
	}
	l.count[p.bar]--
	l.plan = append(l.plan, pattern{bar: p.bar, take: slices.Clone(p.take)})
}

// with is the bars cut and those of a plan for the rest; nil where there is none.
func (l *leftOver) with(rest []pattern) []pattern {
	if rest == nil {
		return nil
	}
	return append(l.plan, rest...)
}
