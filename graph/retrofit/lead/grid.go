package lead

import "slices"

// grid holds the interesting coordinates along each axis, rising.
type grid [3][]int64

// newGrid returns the coordinates a leg of either pipe may end at: those of both pipes' ends,
// the least lengths of their last legs before them, those of a leg between two elbows, and
// where a pipe just clears a block. With side also those that lie clip distance beside each.
func newGrid(pipes [2]*needs, blocks []block, side int64) *grid {
	g := &grid{}
	add := func(a int, v int64) { g[a] = append(g[a], v) }
	for _, n := range pipes {
		start, end := toPoint(n.pipe.Start), toPoint(n.pipe.End)
		between := n.straight(false, false)
		for a := range 3 {
			add(a, start[a])
			for _, v := range []int64{end[a], end[a] - between, end[a] + between} {
				add(a, v)
			}
		}
		face := wayOf(n.pipe.Face)
		for _, l := range n.lengths(0, false, true) {
			v := end[face.axis()] + face.sign()*l
			for _, x := range []int64{v, v - between, v + between} {
				add(face.axis(), x)
			}
		}
	}
	base := *g
	if side > 0 {
		for a := range 3 {
			for _, v := range base[a] {
				add(a, v-side)
				add(a, v+side)
			}
		}
	}
	for _, b := range blocks {
		for _, n := range pipes {
			start := toPoint(n.pipe.Start)
			for _, r := range n.radii() {
				for a := range 3 {
					lo, hi := below(b.low[a]-r, start[a]), above(b.high[a]+r, start[a])
					add(a, lo)
					add(a, hi)
					if side > 0 {
						add(a, lo-side)
						add(a, hi+side)
					}
				}
			}
		}
	}
	for a := range 3 {
		slices.Sort(g[a])
		g[a] = slices.Compact(g[a])
	}
	return g
}

// radii are the radii a leg may have, each once.
func (n *needs) radii() []int64 {
	out := []int64{n.radius}
	for _, r := range []int64{n.isolator, n.union, n.check} {
		if r > n.radius && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// stepUM is what legs are rounded to, away from what they must clear: 5 mm.
const stepUM = 5000

// above and below are the next coordinates that lie whole steps from the start.
func above(v, start int64) int64 { return start + ceilTo(v-start) }
func below(v, start int64) int64 { return start - ceilTo(start-v) }

func ceilTo(v int64) int64 {
	n := v / stepUM
	if v > n*stepUM {
		n++
	}
	return n * stepUM
}

// beyond returns the coordinates of an axis that lie a way from a place, at least so far
// from it and at most so far, the nearest first, with those at just the lengths given.
func (g *grid) beyond(from int64, w way, least, most int64, lengths []int64) []int64 {
	var out []int64
	sign := w.sign()
	for _, v := range g[w.axis()] {
		if d := (v - from) * sign; d >= least && d <= most {
			out = append(out, d)
		}
	}
	for _, d := range lengths {
		if d >= least && d <= most {
			out = append(out, d)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
