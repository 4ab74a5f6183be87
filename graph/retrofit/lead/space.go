package lead

import (
	"math"

	"dryfit/graph"
)

// point is a place in micrometres; its axes are X, Y, Z.
type point [3]int64

// way is one of the six directions: twice the axis, and one more for the negative sense.
type way int8

const (
	noWay way = -1
	up    way = 4
	down  way = 5
)

func (w way) axis() int   { return int(w) / 2 }
func (w way) back() way   { return w ^ 1 }
func (w way) sign() int64 { return 1 - 2*int64(w&1) }

func um(mm float64) int64 { return int64(math.Round(mm * 1000)) }

// least rounds a least length up to the next 5 mm, so that legs are lengths a person would
// write.
func least(mm float64) int64 { return int64(math.Ceil(mm/5-1e-9)) * 5000 }

func toPoint(v graph.Vec) point { return point{um(v.X), um(v.Y), um(v.Z)} }

func (p point) vec() graph.Vec {
	return graph.Vec{X: float64(p[0]) / 1000, Y: float64(p[1]) / 1000, Z: float64(p[2]) / 1000}
}

// wayOf returns the way of a vector along an axis; noWay for every other.
func wayOf(v graph.Vec) way {
	p := toPoint(v)
	found := noWay
	for a := range 3 {
		if p[a] == 0 {
			continue
		}
		if found != noWay {
			return noWay
		}
		found = way(2 * a)
		if p[a] < 0 {
			found++
		}
	}
	return found
}

func (w way) vec() graph.Vec {
	var p point
	p[w.axis()] = 1000 * w.sign()
	return p.vec()
}

// block is a Box inside.
type block struct {
	low, high point
	near      Near
}

// hits reports whether a straight from a to b with a radius, and so much more at its ends,
// runs into the block; touching is not running into.
func (b *block) hits(from, to point, radius int64) bool {
	for a := range 3 {
		if max(from[a], to[a])+radius <= b.low[a] || min(from[a], to[a])-radius >= b.high[a] {
			return false
		}
	}
	return true
}

// beside reports whether no straight of a radius through a place along an axis runs into the block.
func (b *block) beside(at point, axis int, radius int64) bool {
	for k := range 3 {
		if k != axis && (at[k]+radius <= b.low[k] || at[k]-radius >= b.high[k]) {
			return true
		}
	}
	return false
}

// lets reports whether the first leg of a pipe comes out of the block.
func (b *block) lets(p *Pipe) bool {
	return b.near == Line || b.near == LineTo && !p.Back || b.near == LineFrom && p.Back
}

// thin is the axis along which the block is thinnest.
func (b *block) thin() int {
	best := 0
	for a := range 3 {
		if b.high[a]-b.low[a] < b.high[best]-b.low[best] {
			best = a
		}
	}
	return best
}

// nearer reports whether two straights along axes come nearer each other than a distance.
func nearer(a, b, c, d point, distance int64) bool {
	sum := 0.0
	for k := range 3 {
		gap := max(min(c[k], d[k])-max(a[k], b[k]), min(a[k], b[k])-max(c[k], d[k]))
		if gap >= distance {
			return false
		}
		if gap > 0 {
			sum += float64(gap) * float64(gap)
		}
	}
	return sum < float64(distance)*float64(distance)
}

// phase is which way the water, walked from the tee on, last went in height.
type phase int8

const (
	level phase = iota
	rising
	falling
)

// after returns the phase after a leg, and whether it has turned.
func (p phase) after(w way) (phase, bool) {
	switch w {
	case up:
		return rising, p == falling
	case down:
		return falling, p == rising
	}
	return p, false
}
