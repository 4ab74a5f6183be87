package space

import (
	"math"

	"dryfit/graph"
	"dryfit/render/scene"
)

// cos30 and sin30 are of the angle X and Y make with the horizontal. Source: ISO 5456-3,
// isometric axonometry (from memory); no foreshortening.
var cos30 = math.Sqrt(3) / 2

const sin30 = 0.5

// Project returns the page point of a display point, both mm; Y down on the page.
func Project(v graph.Vec) scene.Point {
	return scene.Point{X: (v.X - v.Y) * cos30, Y: -(v.Z + (v.X+v.Y)*sin30)}
}

// Depth says which of two points on one sight line is nearer to the eye: the greater.
func Depth(v graph.Vec) float64 { return v.Z - v.X - v.Y }

// Axis is X, Y or Z.
type Axis int

// Of is the coordinate along the axis.
func (a Axis) Of(v graph.Vec) float64 { return [...]float64{v.X, v.Y, v.Z}[a] }

// Unit is the way along the axis.
func (a Axis) Unit() graph.Vec {
	return [...]graph.Vec{{X: 1}, {Y: 1}, {Z: 1}}[a]
}

// AxesOf returns the axes along which a way has a component of SameLevel or more.
func AxesOf(v graph.Vec) []Axis {
	var out []Axis
	for a := Axis(0); a < 3; a++ {
		if math.Abs(a.Of(v)) >= SameLevel {
			out = append(out, a)
		}
	}
	return out
}

// Add is the sum of two points.
func Add(a, b scene.Point) scene.Point { return scene.Point{X: a.X + b.X, Y: a.Y + b.Y} }

// Sub is the way from the second point to the first.
func Sub(a, b scene.Point) scene.Point { return scene.Point{X: a.X - b.X, Y: a.Y - b.Y} }

// Times is a way made so many times as long.
func Times(k float64, a scene.Point) scene.Point { return scene.Point{X: k * a.X, Y: k * a.Y} }

// Dot is the scalar product.
func Dot(a, b scene.Point) float64 { return a.X*b.X + a.Y*b.Y }

// Cross is the area of two ways on the page, its sign telling which lies left.
func Cross(a, b scene.Point) float64 { return a.X*b.Y - a.Y*b.X }

// Length of a way on the page, mm.
func Length(a scene.Point) float64 { return math.Hypot(a.X, a.Y) }

// Unit returns a scaled to length 1, or the zero Point.
func Unit(a scene.Point) scene.Point {
	l := Length(a)
	if l == 0 {
		return scene.Point{}
	}
	return Times(1/l, a)
}

// Along returns the point the share t of the way from a to b.
func Along(a, b scene.Point, t float64) scene.Point { return Add(a, Times(t, Sub(b, a))) }

// Plane is the lie of a text: its baseline and what is up for it, unit page vectors.
type Plane struct{ Along, Up scene.Point }

// Readable turns a plane so that its text is read from the left, or from below, and is not
// mirrored.
func Readable(u, v scene.Point) Plane {
	if u.X < -1e-9 || (math.Abs(u.X) <= 1e-9 && u.Y > 0) {
		u = Times(-1, u)
	}
	if Cross(u, v) > 0 { // v points below the baseline on the page
		v = Times(-1, v)
	}
	return Plane{u, v}
}

// Lay sets a text into a plane.
func (p Plane) Lay(t scene.Text) scene.Text {
	t.TurnDeg = math.Atan2(-p.Along.Y, p.Along.X) * 180 / math.Pi
	t.SkewDeg = math.Atan2(Dot(p.Up, p.Along), -Cross(p.Along, p.Up)) * 180 / math.Pi
	return t
}
