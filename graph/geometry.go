package graph

import (
	"math"
	"strings"

	"dryfit/catalog/quantity"
)

// Vec is a point or a way in space, mm. Directions are those of a person facing the open
// cabinet: X to the right, Y to the back (away from the person), Z up.
type Vec struct{ X, Y, Z float64 }

// StraightDeg is the turn, °, up to which two legs count as one straight line, and by which a
// stock elbow may be missed. Common practice, no source: a cemented socket takes about
// half a degree.
const StraightDeg = 0.5

// Add returns a + b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a - b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Scale returns s·a.
func (a Vec) Scale(s float64) Vec { return Vec{s * a.X, s * a.Y, s * a.Z} }

// Dot returns the scalar product a·b.
func (a Vec) Dot(b Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }

// Cross returns the vector product a×b.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Len returns the length of a.
func (a Vec) Len() float64 { return math.Sqrt(a.Dot(a)) }

// Unit returns a scaled to length 1, or the zero Vec for the zero Vec.
func (a Vec) Unit() Vec {
	l := a.Len()
	if l == 0 {
		return Vec{}
	}
	return a.Scale(1 / l)
}

// Across returns what of a lies across a way, which is of length 1: a without its share along it.
func (a Vec) Across(way Vec) Vec { return a.Sub(way.Scale(a.Dot(way))) }

// AngleTo returns the angle between a and b in degrees, 0 to 180; 0 where either is zero.
// For two legs in a row it is the turn an elbow must make.
func (a Vec) AngleTo(b Vec) float64 {
	return math.Atan2(a.Cross(b).Len(), a.Dot(b)) * 180 / math.Pi
}

// WayWord returns the word of a description for the way a vector points; "" of one aslant, and of
// zero.
func WayWord(v Vec) string {
	for word, way := range Directions() {
		if v.Unit().Dot(way) > 0.999 {
			return word
		}
	}
	return ""
}

// A Component is what a vector has along one axis: the word of a description for its way, and how
// far, mm, above zero.
type Component struct {
	Word string
	By   float64
}

// Components returns what a vector has along the axes, those of zero left out, in the order in
// which a description writes them: right or left, up or down, back or front.
func (a Vec) Components() []Component {
	var out []Component
	add := func(plus, minus string, by float64) {
		switch {
		case by > 0:
			out = append(out, Component{plus, by})
		case by < 0:
			out = append(out, Component{minus, -by})
		}
	}
	add("right", "left", a.X)
	add("up", "down", a.Z)
	add("back", "front", a.Y)
	return out
}

// WayWords names the way a vector points: "right", "right and up" of a diagonal, "nowhere" of
// zero. What is less than a hundredth of its length is not named.
func WayWords(v Vec) string {
	var out []string
	for _, c := range v.Unit().Components() {
		if c.By > 0.01 {
			out = append(out, c.Word)
		}
	}
	if out == nil {
		return "nowhere"
	}
	return strings.Join(out, " and ")
}

// DistanceWords writes a vector as "12 mm right, 3 mm up"; what is less than a tenth of a mm is
// left out.
func DistanceWords(v Vec) quantity.Text {
	var out []quantity.Text
	for _, c := range v.Components() {
		if math.Round(c.By*10) != 0 {
			out = append(out, Say("%s %s", quantity.Closely(c.By), c.Word))
		}
	}
	if out == nil {
		return Say("%s", quantity.Closely(0))
	}
	return quantity.Join(out, ", ")
}

// Directions maps the words of a description to unit ways.
func Directions() map[string]Vec {
	return map[string]Vec{
		"right": {X: 1}, "left": {X: -1},
		"back": {Y: 1}, "front": {Y: -1},
		"up": {Z: 1}, "down": {Z: -1},
	}
}

// LevelMM is how far two points may differ in height and still count as level, mm.
const LevelMM = 1

// TapNearMM is how far above a low point a drain may stand, and below a high one a bleed, mm: as
// near as a tee on an upright pipe gets to the bend beside it. Common practice, no source.
const TapNearMM = 200

// Straight returns the first and the last of the legs, from 1, that lie in one line with a leg of the
// run and go the same way, with nothing round them that differs: no bend stands between them.
func (r *Run) Straight(leg int) (first, last int) {
	goesOn := func(k int) bool { return r.GoesOn(k) && r.Around(k).Same(r.Around(k+1)) }
	first, last = leg, leg
	for goesOn(first - 1) {
		first--
	}
	for goesOn(last) {
		last++
	}
	return first, last
}

// Direct reports whether the run joins its two parts without pipe between.
func (r *Run) Direct() bool { return len(r.Legs) == 0 && r.HasLength && r.LengthMM == 0 }

// LegPos is where the description speaks of a leg (from 1), else of its run.
func (r *Run) LegPos(leg int) Pos {
	if leg >= 1 && leg <= len(r.Legs) && r.Legs[leg-1].Pos.IsValid() {
		return r.Legs[leg-1].Pos
	}
	return r.Pos
}

// GoesOn reports whether a leg of the run, from 1, and the next lie in one line and go the same way: no bend
// stands between them.
func (r *Run) GoesOn(leg int) bool {
	return leg >= 1 && leg < len(r.Legs) && r.Legs[leg-1].By.AngleTo(r.Legs[leg].By) < StraightDeg
}

// OneLeg is the leg that legs first to last of a run, from 1, come to together, with what the first says
// of what is round it.
func (r *Run) OneLeg(first, last int) Leg {
	one := r.Legs[first-1]
	one.Written = ""
	for _, l := range r.Legs[first:last] {
		one.By = one.By.Add(l.By)
	}
	return one
}

// LegsWords names legs in words: "legs 3 to 6".
func LegsWords(first, last int) quantity.Text {
	if last == first+1 {
		return Say("legs %d and %d", first, last)
	}
	return Say("legs %d to %d", first, last)
}

// Span is a box along the axes: two opposite corners, mm, counted from some port.
type Span [2]Vec
