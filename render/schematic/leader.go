package schematic

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// crossCost is what it costs a label to stand behind another sign.
const crossCost = 40

// offSide is what it costs a label to stand beside an upright sign but above or below it: more than
// any place right beside it, less than one behind another sign.
const offSide = 26

// alongMM is how far a leader may be in a pipe: more, and it runs along it, mm.
const alongMM = 1.5

// mark is a sign, an arrow or a cut mark, which no leader but its own may cross.
type mark struct {
	name string // as its label is called
	box  scene.Box
}

type marks []mark

func (m marks) grid() *stretches {
	s := &stretches{in: map[cell][]int{}}
	for _, one := range m {
		s.add(one.name, one.box)
	}
	return s
}

// leader draws a thin line from a label that stands far off to what it belongs to, unless a sign
// or another label is in its way.
func (d *drawing) leader(r request, b scene.Box, labels []scene.Box, pipes, signs *stretches) {
	l, ok := leaderOf(r, b, pipes, signs)
	if !ok || l.from == l.to {
		return
	}
	way := scene.Empty().Add(l.from).Add(l.to).Grow(0.3)
	for _, o := range labels {
		if o != b && o.Overlaps(way) {
			return
		}
	}
	d.labels = append(d.labels, scene.Line(l.from, l.to, scene.Stroke(sheet.Hair)).Named("leader:"+r.name))
}

// way is a leader's.
type way struct{ from, to scene.Point }

// leaderOf is the shortest leader of a label that crosses nothing, else the shortest that crosses
// pipes alone; none, and all right, for a label that needs none; false where every one would cross
// a sign or run along a pipe.
func leaderOf(r request, b scene.Box, pipes, signs *stretches) (way, bool) {
	if _, _, l := nearest(r, b); l <= farOff {
		return way{}, true
	}
	ways := make([]way, len(r.points))
	for i, p := range r.points {
		ways[i] = toBox(p, b)
	}
	slices.SortStableFunc(ways, func(v, w way) int { return cmp.Compare(dist(v.from, v.to), dist(w.from, w.to)) })
	over, found := way{}, false
	for _, w := range ways {
		if signs.over(r.name, w, 0) {
			continue
		}
		switch in := pipes.inside(r.name, w); {
		case in == 0:
			return w, true
		case in < alongMM && !found:
			over, found = w, true
		}
	}
	return over, found
}

// hidden reports whether a label far off stands behind another sign, whose name it would be read as,
// or where no leader goes.
func hidden(r request, b scene.Box, pipes, signs *stretches) bool {
	from, to, l := nearest(r, b)
	if l <= farOff {
		return false
	}
	straight := way{from, to}
	across := signs.over(r.name, straight, 0)
	if across && !strings.HasPrefix(r.name, "run:") {
		return true
	}
	if !across && !pipes.over(r.name, straight, alongMM) {
		return false
	}
	return !slices.ContainsFunc(r.points, func(p scene.Point) bool {
		w := toBox(p, b)
		return !signs.over(r.name, w, 0) && !pipes.over(r.name, w, alongMM)
	})
}

// toBox is the shortest way from a point to a box.
func toBox(p scene.Point, b scene.Box) way {
	return way{p, scene.Point{X: min(max(p.X, b.MinX), b.MaxX), Y: min(max(p.Y, b.MinY), b.MaxY)}}
}

// over reports whether a leader is in a box but its own: for so many mm, or at all where least is 0.
func (s *stretches) over(own string, w way, least float64) bool {
	return eachCell(scene.Empty().Add(w.from).Add(w.to), func(c cell) bool {
		for _, i := range s.in[c] {
			if s.names[i] == own {
				continue
			}
			if in := within(s.boxes[i], w); in > 0 && in >= least {
				return true
			}
		}
		return false
	})
}

// inside is the longest a leader is in any one box but its own, mm.
func (s *stretches) inside(own string, w way) float64 {
	most := 0.0
	eachCell(scene.Empty().Add(w.from).Add(w.to), func(c cell) bool {
		for _, i := range s.in[c] {
			if s.names[i] != own {
				most = max(most, within(s.boxes[i], w))
			}
		}
		return false
	})
	return most
}

// within is the length of a line in a box, mm.
func within(b scene.Box, w way) float64 {
	low, high := 0.0, 1.0
	clip := func(at, by, least, most float64) {
		if math.Abs(by) < 1e-9 {
			if at <= least || at >= most {
				high = low
			}
			return
		}
		s, t := (least-at)/by, (most-at)/by
		low, high = max(low, min(s, t)), min(high, max(s, t))
	}
	clip(w.from.X, w.to.X-w.from.X, b.MinX, b.MaxX)
	clip(w.from.Y, w.to.Y-w.from.Y, b.MinY, b.MaxY)
	return max(0, high-low) * dist(w.from, w.to)
}
