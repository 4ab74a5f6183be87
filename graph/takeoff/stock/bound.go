package stock

import (
	"math"
	"slices"
)

// condition is what every set of bars that holds the pieces meets: Σ most·count ≥ need.
// It follows from a weight of each kind of piece: need is the weight of all pieces, most the
// greatest weight one bar of a kind can hold.
type condition struct {
	weight []int64
	most   []int64
	need   int64
}

// met reports whether the bars can hold the weight.
func (c *condition) met(count []int) bool {
	sum := int64(0)
	for b, n := range count {
		sum += c.most[b] * int64(n)
	}
	return sum >= c.need
}

// metBy reports whether the bars can hold the weight of a part of the pieces.
func (c *condition) metBy(need []int32, count []int) bool {
	sum := int64(0)
	for b, n := range count {
		sum += c.most[b] * int64(n)
	}
	for i, n := range need {
		sum -= c.weight[i] * int64(n)
	}
	return sum >= 0
}

// weightScale is what a weight of one dearest bar counts in integers.
const weightScale = 1 << 30

// lengthCondition weighs pieces by their width.
func (p *problem) lengthCondition() condition {
	c := condition{weight: make([]int64, len(p.kinds)), most: make([]int64, len(p.bars))}
	for i, k := range p.kinds {
		c.weight[i] = k.width
		c.need += k.width * int64(len(k.numbers))
	}
	for b, s := range p.bars {
		c.most[b] = s.width
	}
	return c
}

// thresholdConditions weigh pieces 1 that are longer than half of some bar, 0 otherwise: just
// one such piece comes out of that bar; of a longer bar the most there can be is counted.
// Source: the simplest of the dual feasible functions of Lueker, 24th Symposium on
// Foundations of Computer Science (1983) 322–329, from memory.
func (p *problem) thresholdConditions() []condition {
	var out []condition
	for _, s := range p.bars {
		c := condition{weight: make([]int64, len(p.kinds)), most: make([]int64, len(p.bars))}
		least := int64(math.MaxInt64)
		for i, k := range p.kinds {
			if 2*k.width > s.width {
				c.weight[i] = 1
				c.need += int64(len(k.numbers))
				least = min(least, k.width)
			}
		}
		if c.need == 0 || slices.ContainsFunc(out, func(o condition) bool { return slices.Equal(o.weight, c.weight) }) {
			continue // of bars between whose lengths no piece comes to more than half one condition is enough
		}
		for b, t := range p.bars {
			c.most[b] = t.width / least
		}
		out = append(out, c)
	}
	return out
}

// How near to the end of a relaxation it is enough to come, in bars: no pattern there is
// could save more than a ten-thousandth, or a millionth, of a bar. The condition counts what is left out.
const (
	costTail = weightScale / 10_000
	roomTail = weightScale / 1_000_000
)

// dualResult is what solving a relaxation gives.
type dualResult struct {
	cond    condition
	refuted bool      // the bars of the relaxation do not meet cond
	use     []float64 // of each pattern of the pool
}

// relax solves the relaxation by adding patterns as they are wanted, and returns the
// condition that follows from its duals, counted in integers. With stopRefuted it stops as
// soon as the condition shuts the bars out, and does not go on once everything fits.
func (s *packer) relax(l *relaxation, stopRefuted bool) dualResult {
	l.pool = s.pool
	l.start()
	defer func() { s.pool = l.pool }()
	offer := make([]worth, l.kinds)
	tail := int64(roomTail)
	if !stopRefuted {
		tail = costTail
	}
	eager := true
	for range 1000 {
		settled := l.settle(s.effort)
		cond := condition{weight: make([]int64, l.kinds), most: make([]int64, l.bars)}
		for i := range offer {
			v := int64(max(0, math.Floor(l.dual[i]*weightScale)))
			cond.weight[i] = v
			cond.need += v * int64(l.need[i])
			offer[i] = worth{kind: i, width: s.kinds[i].width, value: v, copies: int(l.need[i])}
		}
		added, exact, near := false, true, true
		for b := range l.bars {
			if l.limited[b] && l.count[b] == 0 {
				continue // see widen
			}
			floor := int64(max(0, math.Ceil((l.cost[b]-l.dual[l.kinds+b])*weightScale)))
			f := s.filler.best(offer, s.bars[b].width, floor, l.kinds, eager, s.effort)
			cond.most[b] = f.most
			exact = exact && f.exact
			near = near && f.most-floor <= tail
			if f.take != nil && f.value-floor > 8 {
				l.add(newColumn(pattern{bar: b, take: f.take}))
				added = true
				if l.kinds >= manyKinds {
					s.more(l, b, offer, f.take, floor)
				}
			}
		}
		refuted := stopRefuted && !cond.met(l.count)
		over := refuted || stopRefuted && l.objective() < 1e-6 || !settled || near || s.effort.spent()
		if !over && !added && eager && !exact {
			eager = false // nothing was found at a glance: look closer
			continue
		}
		eager = eager || l.kinds >= manyKinds
		if over || !added {
			s.widen(&cond, l, offer)
			return dualResult{cond: cond, refuted: refuted, use: l.use()}
		}
	}
	return dualResult{use: l.use()}
}

// mostColumns is how many patterns of other pieces are added to the relaxation of a long list at
// a time.
const mostColumns = 12

// more adds patterns of the pieces that the first, which are worth most, does not take.
func (s *packer) more(l *relaxation, bar int, offer []worth, take []int32, floor int64) {
	rest := slices.Clone(offer)
	for range mostColumns {
		for i, n := range take {
			if n > 0 {
				rest[i].copies = 0
			}
		}
		f := s.filler.best(rest, s.bars[bar].width, floor, l.kinds, true, s.effort)
		if f.take == nil || f.value-floor <= 8 {
			return
		}
		take = f.take
		l.add(newColumn(pattern{bar: bar, take: take}))
	}
}

// widen counts the most weight of the bars that the relaxation had none of, so that the
// condition holds for any choice of bars.
func (s *packer) widen(cond *condition, l *relaxation, offer []worth) {
	for b := range l.bars {
		if l.limited[b] && l.count[b] == 0 {
			cond.most[b] = s.filler.best(offer, s.bars[b].width, 0, l.kinds, false, s.effort).most
		}
	}
}
