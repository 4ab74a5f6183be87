package lead

import "slices"

// grid holds the interesting coordinates along each axis, rising.
type grid [3][]int64

// newGrid returns the coordinates a leg of either pipe may end at: those of both pipes' ends,
// the least lengths of their last legs before them, and where a pipe just clears a block; with
// fine also a leg between two elbows before and after those, and what lies so far beside them.
func newGrid(pipes [2]*needs, blocks []block, fine bool, side int64) *grid {
	g := &grid{}
	add := func(a int, v int64) { g[a] = append(g[a], v) }
	for _, n := range pipes {
		start, end := toPoint(n.pipe.Start), toPoint(n.pipe.End)
		for a := range 3 {
			add(a, start[a])
			add(a, end[a])
		}
		face := wayOf(n.pipe.Face)
		for _, l := range n.lengths(0, false, true) {
			add(face.axis(), end[face.axis()]+face.sign()*l)
		}
		for _, b := range blocks {
			radii := n.radii()
			if b.near == Wall { // an elbow beside it
				radii = append(radii, um(n.pipe.Elbow.TakeOffMM+n.pipe.Elbow.DepthMM))
			}
			for _, r := range radii {
				for a := range 3 {
					add(a, below(b.low[a]-r, start[a]))
					add(a, above(b.high[a]+r, start[a]))
				}
			}
		}
	}
	if fine {
		base := *g
		for a := range 3 {
			for _, v := range base[a] {
				for _, n := range pipes {
					between := n.straight(false, false)
					add(a, v-between)
					add(a, v+between)
				}
				add(a, v-side)
				add(a, v+side)
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
// from it and at most so far, the nearest first, with those at just the lengths given; they
// are written to out.
func (g *grid) beyond(out []int64, from int64, w way, least, most int64, lengths []int64) []int64 {
	along, sign := g[w.axis()], w.sign()
	at, there := slices.BinarySearch(along, from+sign*least) // and on from there
	if sign < 0 && !there {
		at--
	}
	for ; at >= 0 && at < len(along); at += int(sign) {
		d := (along[at] - from) * sign
		if d > most {
			break
		}
		out = append(out, d)
	}
	for _, d := range lengths {
		if d < least || d > most {
			continue
		}
		if i, there := slices.BinarySearch(out, d); !there {
			out = slices.Insert(out, i, d)
		}
	}
	return out
}
