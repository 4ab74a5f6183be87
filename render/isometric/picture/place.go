package picture

import (
	"math"

	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
)

// keepOff is how far a leader or an arrow keeps from a crossing and from each other, mm.
const keepOff = 4.5

// leaderShare is where on a leg the leader of its piece starts: its middle, or beside a pipe
// that crosses there, or a coupling.
func (p *Picture) leaderShare(i int) float64 {
	return p.freeShare(i, 0.45, append(p.crossings(i), p.sleeveShares(i)...))
}

// crossings are the places, as shares of a leg, where others cross it on the page.
func (p *Picture) crossings(i int) []float64 {
	var out []float64
	for j := range p.Ms {
		if j == i || members.Meet(&p.Ms[i], &p.Ms[j]) {
			continue
		}
		if s, _, ok := members.Crossing(space.Project(p.A[i]), space.Project(p.B[i]), space.Project(p.A[j]), space.Project(p.B[j])); ok {
			out = append(out, s)
		}
	}
	return out
}

// freeShare is the place on a leg, as a share of it, that is clear of others and of what
// stands at its ends, and nearest to the one wanted, a share of what is left between.
func (p *Picture) freeShare(i int, want float64, others []float64) float64 {
	l := p.B[i].Sub(p.A[i]).Len()
	lo, hi := p.standsTo(i)
	best, least := 0.5, math.Inf(1)
	steps := 20 * (1 + len(p.D.Sleeves(&p.Ms[i]))) // of pipe of several bars each piece is looked along
	for k := 0; k <= steps; k++ {
		t := lo + (hi-lo)*float64(k)/float64(steps)
		cost := math.Abs(t-(lo+(hi-lo)*want)) * l
		for _, o := range others {
			cost += 10 * math.Max(0, keepOff-math.Abs(t-o)*l)
		}
		if cost < least-1e-9 {
			best, least = t, cost
		}
	}
	return best
}

// standsTo are the shares of a leg between what stands at its two ends.
func (p *Picture) standsTo(i int) (lo, hi float64) {
	l := p.B[i].Sub(p.A[i]).Len()
	hi = 1
	for _, far := range []bool{false, true} {
		s := p.D.Stack(&p.Ms[i], far)
		if len(s.Joints) == 0 {
			continue
		}
		at := (s.Base + members.NextSpot*float64(len(s.Joints)-1) + dotR) / l
		if far {
			hi = 1 - at
		} else {
			lo = at
		}
	}
	if hi < lo {
		return (lo + hi) / 2, (lo + hi) / 2
	}
	return lo, hi
}
