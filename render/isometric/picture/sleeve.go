package picture

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/symbol"
)

// sleeveShares are the places, as shares of a member as it is drawn, of the couplings along it:
// where they are, but moved so that each piece between them has room for what it says.
func (p *Picture) sleeveShares(i int) []float64 {
	sleeves := p.D.Sleeves(&p.Ms[i])
	n := len(sleeves)
	if n == 0 {
		return nil
	}
	lo, hi := p.standsTo(i)
	least := math.Min(members.PieceRoom/p.B[i].Sub(p.A[i]).Len(), (hi-lo)/float64(n+1))
	out := make([]float64, n)
	for k, s := range sleeves {
		out[k] = math.Max(s.Share, lo+least*float64(k+1))
		if k > 0 {
			out[k] = math.Max(out[k], out[k-1]+least)
		}
	}
	for k, end := n-1, hi; k >= 0; k-- {
		out[k] = math.Min(out[k], end-least)
		end = out[k]
	}
	p.offCrossings(i, out, 0.6*least, lo, hi)
	return out
}

// offCrossings moves couplings off places where other pipe crosses the member on the page, where
// their neighbours leave room for that.
func (p *Picture) offCrossings(i int, at []float64, least, lo, hi float64) {
	off := keepOff / p.B[i].Sub(p.A[i]).Len()
	crossings := p.crossings(i)
	for k, was := range at {
		from, to := lo+least, hi-least
		if k > 0 {
			from = at[k-1] + least
		}
		if k+1 < len(at) {
			to = at[k+1] - least
		}
		free := func(t float64) bool {
			return t >= from && t <= to && !slices.ContainsFunc(crossings, func(c float64) bool { return math.Abs(c-t) < off-1e-9 })
		}
		best := math.Inf(1)
		for _, c := range append(crossings, was) {
			for _, t := range []float64{was, c - off, c + off} {
				if by := math.Abs(t - was); by < best && free(t) {
					best, at[k] = by, t
				}
			}
		}
	}
}

// leaderShares are the places, as shares of a member as it is drawn, where the leaders of its
// pieces start: of each in the middle between what stands at its ends.
func (p *Picture) leaderShares(i int) []float64 {
	at := p.sleeveShares(i)
	if len(at) == 0 {
		return []float64{p.leaderShare(i)}
	}
	from, hi := p.standsTo(i)
	var out []float64
	for _, to := range append(at, hi) {
		out = append(out, (from+to)/2)
		from = to
	}
	return out
}

// sleeveHalf is how far from its middle the joints of a coupling are drawn, mm.
const sleeveHalf = 2.4

// couplings draws the couplings along a leg that is longer than pipe is sold, and returns their
// joints.
func (p *Picture) couplings(i int) []joined {
	m := &p.Ms[i]
	shares := p.sleeveShares(i)
	a, way := p.A[i], p.B[i].Sub(p.A[i])
	var out []joined
	for k, sleeve := range p.D.Sleeves(m) {
		s := symbol.Of(graph.Coupling, symbol.Look{Pen: members.PenNewSign})
		mid := a.Add(way.Scale(shares[k]))
		p.sign(s, space.Project(mid), space.Unit(space.Project(way)), bars(m.Way(), space.Project(way)), "fitting:coupling")
		p.used(symbol.Of(graph.Coupling, symbol.Look{Pen: members.PenOldSign}), s.Legend)
		for _, j := range sleeve.Joints {
			off := math.Copysign(sleeveHalf, members.Share(m, j.At)-sleeve.Share)
			if len(sleeve.Joints) == 1 { // the other is beyond a match line, on the side that is farther off
				off = math.Copysign(sleeveHalf, 0.5-sleeve.Share)
			}
			out = append(out, joined{at: mid.Add(way.Unit().Scale(off)), way: way, joints: []*route.Joint{j}})
		}
	}
	return out
}
