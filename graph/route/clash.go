package route

import (
	"fmt"
	"math"
	"slices"

	"dryfit/graph"
)

// tube is one straight stretch of pipe in space.
type tube struct {
	a, b      graph.Vec
	low, high graph.Vec // the box round it
	radius    float64
	run, leg  int    // leg from 1
	partA     string // part at its end; "" at a bend
	partB     string
	body      int
	isNew     bool
}

// touchMM is what two pipes may share before they count as running through each other:
// the play of the numbers. Common practice, no source.
const touchMM = 0.5

// findClashes finds pipes that run through each other: two stretches whose axes come
// nearer than their radii together, and that do not meet in one fitting.
func (l *layer) findClashes() {
	tubes := l.tubes()
	slices.SortStableFunc(tubes, func(a, b tube) int {
		switch {
		case a.low.X < b.low.X:
			return -1
		case a.low.X > b.low.X:
			return 1
		}
		return 0
	})
	worst := map[[2]int]clash{} // pair of runs -> the pipes that come nearest
	active := make([]int, 0, len(tubes))
	for k := range tubes {
		t := &tubes[k]
		keep := active[:0]
		for _, o := range active {
			u := &tubes[o]
			if u.high.X < t.low.X {
				continue
			}
			keep = append(keep, o)
			if u.high.Y < t.low.Y || t.high.Y < u.low.Y || u.high.Z < t.low.Z || t.high.Z < u.low.Z {
				continue
			}
			if u.body != t.body || meet(u, t) {
				continue
			}
			d := segmentDistance(t.a, t.b, u.a, u.b)
			if need := t.radius + u.radius; d < need-touchMM {
				c := clash{a: *u, b: *t, distance: d, need: need}
				if t.run < u.run || (t.run == u.run && t.leg < u.leg) {
					c.a, c.b = *t, *u
				}
				c.lane = l.inOneLane(c.a, c.b)
				key := [2]int{c.a.run, c.b.run}
				if old, have := worst[key]; !have || c.before(old) {
					worst[key] = c
				}
			}
		}
		keep = append(keep, k)
		active = keep
	}
	keys := make([][2]int, 0, len(worst))
	for key := range worst {
		keys = append(keys, key)
	}
	slices.SortFunc(keys, func(a, b [2]int) int {
		if a[0] != b[0] {
			return a[0] - b[0]
		}
		return a[1] - b[1]
	})
	for _, key := range keys {
		l.reportClash(worst[key])
	}
}

// clash is two pipes that come too near each other.
type clash struct {
	a, b           tube
	distance, need float64
	lane           bool // both are new and lie in one lane: see inOneLane
}

// before orders the clashes of a pair of runs: those that laying side by side does not mend
// first, then the nearest, then by leg.
func (c clash) before(o clash) bool {
	if c.lane != o.lane {
		return o.lane
	}
	if c.distance != o.distance {
		return c.distance < o.distance
	}
	if c.a.leg != o.a.leg {
		return c.a.leg < o.a.leg
	}
	return c.b.leg < o.b.leg
}

func (l *layer) reportClash(c clash) {
	a, b := c.a, c.b
	if b.isNew && !a.isNew {
		a, b = b, a
	}
	runA, runB := l.c.Runs[a.run], l.c.Runs[b.run]
	message := fmt.Sprintf("%s runs through %s: their axes come as near as %s and need %s", legWords(runA, a.leg), legWords(runB, b.leg), mm(c.distance), mm(c.need))
	if !a.isNew && !b.isNew {
		l.old.add("pipes run through each other", legPos(runA, a.leg), message, "the legs of the existing pipe were measured so; measure again where the new work comes near")
		return
	}
	severity := graph.Error
	hint := fmt.Sprintf("move %s by at least %s", legWords(runA, a.leg), mm(math.Ceil(c.need-c.distance)))
	if c.lane {
		severity = graph.Warning
		hint = fmt.Sprintf("lead one beside the other: move %s by at least %s, with the legs before and after it", legWords(runA, a.leg), mm(math.Ceil(c.need-c.distance)))
	}
	l.find(legPos(runA, a.leg), severity, message, hint, graph.Related{Pos: legPos(runB, b.leg), Message: legWords(runB, b.leg) + " is here"})
}

// inOneLane reports whether two new pipes are drawn in one lane, which is mended by laying
// one beside the other, as those to and from a unit mostly are: they lie the same way, or
// one meets the other just where it turns off from the lane they share. Two that cross
// elsewhere can't be mended so.
func (l *layer) inOneLane(a, b tube) bool {
	if !a.isNew || !b.isNew {
		return false
	}
	return parallel(a, b) || l.turnsOff(a, b) || l.turnsOff(b, a)
}

// turnsOff reports whether the leg before or after b in its run lies in the lane of a.
func (l *layer) turnsOff(a, b tube) bool {
	points := l.lay.Paths[b.run].Points
	for _, leg := range []int{b.leg - 1, b.leg + 1} {
		if leg < 1 || leg >= len(points) {
			continue
		}
		n := tube{a: points[leg-1], b: points[leg]}
		if parallel(a, n) && segmentDistance(a.a, a.b, n.a, n.b) < a.radius+b.radius-touchMM {
			return true
		}
	}
	return false
}

// legPos is where the description speaks of a leg (from 1), else of its run.
func legPos(r *graph.Run, leg int) graph.Pos {
	if leg >= 1 && leg <= len(r.Legs) && r.Legs[leg-1].Pos.IsValid() {
		return r.Legs[leg-1].Pos
	}
	return r.Pos
}

// parallel reports whether two stretches lie the same way, within half a degree.
func parallel(a, b tube) bool {
	turn := a.b.Sub(a.a).AngleTo(b.b.Sub(b.a))
	return turn < 0.5 || turn > 179.5
}

// tubes are the straight stretches of all runs whose places follow from legs.
func (l *layer) tubes() []tube {
	var out []tube
	for i := range l.lay.Paths {
		path := &l.lay.Paths[i]
		if !path.Located || path.Pipe.OutsideMM <= 0 {
			continue
		}
		r := path.Run
		n := len(path.Points) - 1
		for k := range n {
			t := tube{a: path.Points[k], b: path.Points[k+1], radius: path.Pipe.OutsideMM / 2, run: i, leg: k + 1,
				body: l.rigid[r.From.String()], isNew: r.New()}
			if k == 0 {
				t.partA = r.From.Part
			}
			if k == n-1 {
				t.partB = r.To.Part
			}
			t.low = graph.Vec{X: min(t.a.X, t.b.X) - t.radius, Y: min(t.a.Y, t.b.Y) - t.radius, Z: min(t.a.Z, t.b.Z) - t.radius}
			t.high = graph.Vec{X: max(t.a.X, t.b.X) + t.radius, Y: max(t.a.Y, t.b.Y) + t.radius, Z: max(t.a.Z, t.b.Z) + t.radius}
			out = append(out, t)
		}
	}
	return out
}

// meet reports whether two stretches join: at a bend of one run, or at one part.
func meet(a, b *tube) bool {
	if a.run == b.run && (a.leg-b.leg == 1 || b.leg-a.leg == 1) {
		return true
	}
	for _, p := range []string{a.partA, a.partB} {
		if p != "" && (p == b.partA || p == b.partB) {
			return true
		}
	}
	// ends that stand on the same spot are joined directly, without pipe between
	for _, p := range []graph.Vec{a.a, a.b} {
		for _, q := range []graph.Vec{b.a, b.b} {
			if p.Sub(q).Len() < touchMM && a.run != b.run && (a.partA != "" || a.partB != "") && (b.partA != "" || b.partB != "") {
				return true
			}
		}
	}
	return false
}

// segmentDistance is the least distance between two segments, mm.
// Source: Ericson, Real-Time Collision Detection (2005), section 5.1.9.
func segmentDistance(p1, q1, p2, q2 graph.Vec) float64 {
	d1, d2, r := q1.Sub(p1), q2.Sub(p2), p1.Sub(p2)
	a, e, f := d1.Dot(d1), d2.Dot(d2), d2.Dot(r)
	clamp := func(v float64) float64 { return math.Max(0, math.Min(1, v)) }
	var s, t float64
	switch {
	case a == 0 && e == 0:
		return r.Len()
	case a == 0:
		t = clamp(f / e)
	case e == 0:
		s = clamp(-d1.Dot(r) / a)
	default:
		c, b := d1.Dot(r), d1.Dot(d2)
		if den := a*e - b*b; den > 1e-12*a*e {
			s = clamp((b*f - c*e) / den)
		}
		t = (b*s + f) / e
		if t < 0 {
			t, s = 0, clamp(-c/a)
		} else if t > 1 {
			t, s = 1, clamp((b-c)/a)
		}
	}
	return p1.Add(d1.Scale(s)).Sub(p2.Add(d2.Scale(t))).Len()
}
