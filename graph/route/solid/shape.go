package solid

import (
	"math"

	"dryfit/graph"
)

// form is what a Shape is.
type form byte

const (
	capsule  form = iota // everything within a radius of a segment
	cylinder             // flat at both ends
	box
)

// Shape is one convex solid: a capsule, a cylinder or a box.
type Shape struct {
	form   form
	a, b   graph.Vec    // ends of the axis; of a box a is its centre
	radius float64      // of a capsule or cylinder
	half   [3]graph.Vec // of a box: from its centre to the middle of three of its faces
}

// Capsule is everything within a radius of the segment from a to b, mm.
func Capsule(a, b graph.Vec, radius float64) Shape {
	return Shape{form: capsule, a: a, b: b, radius: radius}
}

// Sphere is everything within a radius of a point, mm.
func Sphere(at graph.Vec, radius float64) Shape { return Capsule(at, at, radius) }

// Cylinder is a round bar from a to b, flat at both ends. One without length is a sphere.
func Cylinder(a, b graph.Vec, radius float64) Shape {
	if a == b {
		return Sphere(a, radius)
	}
	return Shape{form: cylinder, a: a, b: b, radius: radius}
}

// Box is the box along the axes with two opposite corners, in any order.
func Box(p, q graph.Vec) Shape {
	mid, half := p.Add(q).Scale(0.5), q.Sub(p).Scale(0.5)
	return Shape{form: box, a: mid, b: mid, half: [3]graph.Vec{
		{X: math.Abs(half.X)}, {Y: math.Abs(half.Y)}, {Z: math.Abs(half.Z)}}}
}

// Slanted is a box round a centre, given by the ways from there to the middle of three of
// its faces, which are square to each other.
func Slanted(centre, u, v, w graph.Vec) Shape {
	return Shape{form: box, a: centre, b: centre, half: [3]graph.Vec{u, v, w}}
}

// Axis returns the ends of the axis of a capsule or cylinder; of a box twice its centre.
func (s Shape) Axis() (a, b graph.Vec) { return s.a, s.b }

// Radius returns the radius of a capsule or cylinder; 0 for a box.
func (s Shape) Radius() float64 { return s.radius }

// Move returns the shape carried along.
func (s Shape) Move(by graph.Vec) Shape {
	s.a, s.b = s.a.Add(by), s.b.Add(by)
	return s
}

// Bounds returns the corners of the least box along the axes round the shape.
func (s Shape) Bounds() (low, high graph.Vec) {
	switch s.form {
	case box:
		reach := graph.Vec{}
		for _, h := range s.half {
			reach = reach.Add(graph.Vec{X: math.Abs(h.X), Y: math.Abs(h.Y), Z: math.Abs(h.Z)})
		}
		return s.a.Sub(reach), s.a.Add(reach)
	case cylinder:
		u := s.b.Sub(s.a).Unit()
		reach := graph.Vec{X: flank(u.X), Y: flank(u.Y), Z: flank(u.Z)}.Scale(s.radius)
		return least(s.a, s.b).Sub(reach), most(s.a, s.b).Add(reach)
	}
	reach := graph.Vec{X: s.radius, Y: s.radius, Z: s.radius}
	return least(s.a, s.b).Sub(reach), most(s.a, s.b).Add(reach)
}

// flank is how far a disc of radius 1 reaches along an axis of which its normal has a
// component.
func flank(component float64) float64 { return math.Sqrt(math.Max(0, 1-component*component)) }

func least(a, b graph.Vec) graph.Vec {
	return graph.Vec{X: min(a.X, b.X), Y: min(a.Y, b.Y), Z: min(a.Z, b.Z)}
}

func most(a, b graph.Vec) graph.Vec {
	return graph.Vec{X: max(a.X, b.X), Y: max(a.Y, b.Y), Z: max(a.Z, b.Z)}
}

// farthest is the point of the shape's core that lies farthest along a way. The core of a
// capsule is its axis; margin is what lies round the core.
func (s *Shape) farthest(way graph.Vec) graph.Vec {
	if s.form == box {
		at := s.a
		for _, h := range s.half {
			if h.Dot(way) < 0 {
				at = at.Sub(h)
			} else {
				at = at.Add(h)
			}
		}
		return at
	}
	axis := s.b.Sub(s.a)
	along := axis.Dot(way)
	end := s.a
	if along > 0 {
		end = s.b
	}
	if s.form == capsule {
		return end
	}
	across := way.Sub(axis.Scale(along / axis.Dot(axis)))
	if n := across.Len(); n > 1e-12*way.Len() {
		end = end.Add(across.Scale(s.radius / n))
	}
	return end
}

func (s *Shape) margin() float64 {
	if s.form == capsule {
		return s.radius
	}
	return 0
}
