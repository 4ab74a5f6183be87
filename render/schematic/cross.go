package schematic

import (
	"math"
	"slices"

	"dryfit/render/scene"
	"dryfit/render/schematic/arrange"
)

// findCrossings returns for each pipe the points where it passes below another: the old
// below the new, else the upright below the level.
func findCrossings(pipes []*arrange.Pipe) [][]scene.Point {
	type seg struct {
		pipe int
		a, b scene.Point
	}
	var level, upright []seg
	for i, p := range pipes {
		for k := 1; k < len(p.Points); k++ {
			a, b := p.Points[k-1], p.Points[k]
			switch {
			case math.Abs(a.Y-b.Y) < 0.01 && math.Abs(a.X-b.X) > 0.01:
				level = append(level, seg{i, a, b})
			case math.Abs(a.X-b.X) < 0.01 && math.Abs(a.Y-b.Y) > 0.01:
				upright = append(upright, seg{i, a, b})
			}
		}
	}
	out := make([][]scene.Point, len(pipes))
	inside := func(v, a, b float64) bool {
		lo, hi := math.Min(a, b), math.Max(a, b)
		return v > lo+0.1 && v < hi-0.1
	}
	for _, h := range level {
		for _, v := range upright {
			if h.pipe == v.pipe || !inside(v.a.X, h.a.X, h.b.X) || !inside(h.a.Y, v.a.Y, v.b.Y) {
				continue
			}
			rear := v.pipe
			if pipes[v.pipe].Run.New() && !pipes[h.pipe].Run.New() {
				rear = h.pipe
			}
			out[rear] = append(out[rear], scene.Point{X: v.a.X, Y: h.a.Y})
		}
	}
	return out
}

// cutOut returns the polyline without the stretch of gap mm on both sides of each point.
func cutOut(pts, gaps []scene.Point, gap float64) [][]scene.Point {
	if len(gaps) == 0 {
		return [][]scene.Point{pts}
	}
	var out [][]scene.Point
	cur := []scene.Point{pts[0]}
	for k := 1; k < len(pts); k++ {
		a, b := pts[k-1], pts[k]
		l := dist(a, b)
		if l < 0.01 {
			continue
		}
		var at []float64
		for _, g := range gaps {
			t := ((g.X-a.X)*(b.X-a.X) + (g.Y-a.Y)*(b.Y-a.Y)) / l
			x, y := a.X+(b.X-a.X)*t/l, a.Y+(b.Y-a.Y)*t/l
			if t > 0 && t < l && math.Hypot(x-g.X, y-g.Y) < 0.01 {
				at = append(at, t)
			}
		}
		slices.Sort(at)
		on := func(t float64) scene.Point {
			return scene.Point{X: a.X + (b.X-a.X)*t/l, Y: a.Y + (b.Y-a.Y)*t/l}
		}
		for _, t := range at {
			cur = append(cur, on(math.Max(0, t-gap)))
			out = append(out, cur)
			cur = []scene.Point{on(math.Min(l, t+gap))}
		}
		cur = append(cur, b)
	}
	return append(out, cur)
}
