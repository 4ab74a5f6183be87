package lead

import (
	"slices"

	"dryfit/graph"
)

// refusal is a Refused inside: the points of both pipes; nil for any.
type refusal [2][]point

// pointsOf are the points legs pass from a start; nil of none.
func pointsOf(start graph.Vec, legs []graph.Vec) []point {
	if len(legs) == 0 {
		return nil
	}
	out := []point{toPoint(start)}
	for _, l := range joined(legs) {
		start = start.Add(l)
		out = append(out, toPoint(start))
	}
	return out
}

// refused reports whether a pair was refused before; p is of the pipe first.
func (f *finder) refused(first int, p, q *path) bool {
	return slices.ContainsFunc(f.not, func(r refusal) bool {
		return same(r[first], p.points) && same(r[1-first], q.points)
	})
}

// same reports whether points are those refused, rounding apart.
func same(refused, points []point) bool {
	if refused == nil {
		return true
	}
	return slices.EqualFunc(refused, points, func(a, b point) bool {
		return abs(a[0]-b[0]) <= 2 && abs(a[1]-b[1]) <= 2 && abs(a[2]-b[2]) <= 2
	})
}

// keep is how many paths through one state are followed: more where some were refused.
func (f *finder) keep(usual int) int { return usual + len(f.not) }
