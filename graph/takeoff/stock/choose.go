package stock

import (
	"math"
	"math/bits"
)

// chooser finds the cheapest bars that meet every condition.
type chooser struct {
	bars       []stock
	conditions []condition
	refused    [][]int // bars that do not hold the pieces, nor does anything within them
	effort     *effort

	count    []int
	best     int64
	bestOf   []int
	collect  int64 // not below 0: every choice of just this cost is wanted
	found    [][]int
	mostSets int
}

// cheapest returns the cheapest choice of bars that meets all conditions and is not within a
// refused one; ok is false where there is none or the effort ran out.
func (c *chooser) cheapest() (count []int, cost int64, ok bool) {
	c.count = make([]int, len(c.bars))
	c.best, c.bestOf, c.collect = math.MaxInt64, nil, -1
	c.descend(0, 0)
	if c.bestOf == nil || c.effort.spent() {
		return nil, 0, false
	}
	return c.bestOf, c.best, true
}

// all returns the choices of just the cost, at most so many.
func (c *chooser) all(cost int64, most int) [][]int {
	c.count = make([]int, len(c.bars))
	c.found, c.collect, c.mostSets = nil, cost, most
	c.descend(0, 0)
	return c.found
}

// fewBars is of how many kinds of bar a condition is looked at in one step; of more it takes as much
// longer.
const fewBars = 2

// descend chooses the number of bars from index b on.
func (c *chooser) descend(b int, cost int64) {
	if !c.effort.spend((len(c.conditions)+1)*max(1, len(c.bars)/fewBars)) || c.hopeless(b, cost) {
		return
	}
	if b == len(c.bars) {
		c.leaf(cost)
		return
	}
	s := c.bars[b]
	if s.cost == 0 { // free bars are always all there
		c.count[b] = s.count
		c.descend(b+1, cost)
		c.count[b] = 0
		return
	}
	for n := 0; n <= s.count; n++ {
		c.count[b] = n
		if c.over(cost + int64(n)*s.cost) {
			break
		}
		c.descend(b+1, cost+int64(n)*s.cost)
	}
	c.count[b] = 0
}

// over reports whether a cost is of no use any more.
func (c *chooser) over(cost int64) bool {
	if c.collect >= 0 {
		return cost > c.collect || len(c.found) >= c.mostSets
	}
	return cost >= c.best
}

// hopeless reports whether the bars chosen so far cannot be made up to a useful choice.
func (c *chooser) hopeless(b int, cost int64) bool {
	if c.over(cost) {
		return true
	}
	for i := range c.conditions {
		more, ok := c.makeUp(&c.conditions[i], b)
		if !ok || c.over(cost+more) {
			return true
		}
	}
	return false
}

// makeUp returns at least what it costs to meet a condition with bars from index b on, whole
// or in part; ok is false where they do not suffice.
func (c *chooser) makeUp(k *condition, b int) (cost int64, ok bool) {
	need := k.need
	for i := range b {
		need -= k.most[i] * int64(c.count[i])
	}
	used := make([]bool, len(c.bars))
	for need > 0 {
		at := -1
		for i := b; i < len(c.bars); i++ {
			if used[i] || k.most[i] == 0 {
				continue
			}
			if at < 0 || compareProducts(c.bars[i].cost, k.most[at], c.bars[at].cost, k.most[i]) < 0 {
				at = i
			}
		}
		if at < 0 {
			return 0, false
		}
		used[at] = true
		s := c.bars[at]
		if full := k.most[at] * int64(s.count); full <= need {
			need -= full
			cost += s.cost * int64(s.count)
			continue
		}
		// the last bar counts in part; rounded up to a whole unit of cost
		whole, rest := need/k.most[at], need%k.most[at]
		cost += s.cost*whole + partOf(s.cost, rest, k.most[at])
		need = 0
	}
	return cost, true
}

// partOf returns cost·rest/most rounded up.
func partOf(cost, rest, most int64) int64 {
	hi, lo := bits.Mul64(uint64(cost), uint64(rest)) // rest < most: the quotient is below cost
	q, r := bits.Div64(hi, lo, uint64(most))
	if r > 0 {
		q++
	}
	return int64(q)
}

func (c *chooser) leaf(cost int64) {
	for _, r := range c.refused {
		if within(c.count, r) {
			return
		}
	}
	count := append([]int(nil), c.count...)
	if c.collect >= 0 {
		if cost == c.collect {
			c.found = append(c.found, count)
		}
		return
	}
	c.best, c.bestOf = cost, count
}

// within reports whether a has nowhere more bars than b.
func within(a, b []int) bool {
	for i := range a {
		if a[i] > b[i] {
			return false
		}
	}
	return true
}
