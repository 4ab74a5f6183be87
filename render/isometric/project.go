package isometric

import (
	"math"

	"dryfit/graph"
	"dryfit/render/scene"
)

// cos30 and sin30 are of the angle X and Y make with the horizontal. Source: ISO 5456-3,
// isometric axonometry (from memory); no foreshortening.
var cos30 = math.Sqrt(3) / 2

const sin30 = 0.5

// project returns the page point of a display point, both mm; Y down on the page.
func project(v graph.Vec) scene.Point {
	return scene.Point{X: (v.X - v.Y) * cos30, Y: -(v.Z + (v.X+v.Y)*sin30)}
}

// depth says which of two points on one sight line is nearer to the eye: the greater.
func depth(v graph.Vec) float64 { return v.Z - v.X - v.Y }

// axis is X, Y or Z.
type axis int

func (a axis) of(v graph.Vec) float64 { return [...]float64{v.X, v.Y, v.Z}[a] }

func (a axis) unit() graph.Vec {
	return [...]graph.Vec{{X: 1}, {Y: 1}, {Z: 1}}[a]
}

// axesOf returns the axes along which a way has a component of sameLevel or more.
func axesOf(v graph.Vec) []axis {
	var out []axis
	for a := axis(0); a < 3; a++ {
		if math.Abs(a.of(v)) >= sameLevel {
			out = append(out, a)
		}
	}
	return out
}

func add(a, b scene.Point) scene.Point { return scene.Point{X: a.X + b.X, Y: a.Y + b.Y} }

func sub(a, b scene.Point) scene.Point { return scene.Point{X: a.X - b.X, Y: a.Y - b.Y} }

func times(k float64, a scene.Point) scene.Point { return scene.Point{X: k * a.X, Y: k * a.Y} }

func dot(a, b scene.Point) float64 { return a.X*b.X + a.Y*b.Y }

func cross(a, b scene.Point) float64 { return a.X*b.Y - a.Y*b.X }

func length(a scene.Point) float64 { return math.Hypot(a.X, a.Y) }

// unit returns a scaled to length 1, or the zero Point.
func unit(a scene.Point) scene.Point {
	l := length(a)
	if l == 0 {
		return scene.Point{}
	}
	return times(1/l, a)
}

// along returns the point the share t of the way from a to b.
func along(a, b scene.Point, t float64) scene.Point { return add(a, times(t, sub(b, a))) }

// plane is the lie of a text: its baseline and what is up for it, unit page vectors.
type plane struct{ along, up scene.Point }

// readable turns a plane so that its text is read from the left, or from below, and is not
// mirrored.
func readable(u, v scene.Point) plane {
	if u.X < -1e-9 || (math.Abs(u.X) <= 1e-9 && u.Y > 0) {
		u = times(-1, u)
	}
	if cross(u, v) > 0 { // v points below the baseline on the page
		v = times(-1, v)
	}
	return plane{u, v}
}

// lay sets a text into a plane.
func (p plane) lay(t scene.Text) scene.Text {
	t.TurnDeg = math.Atan2(-p.along.Y, p.along.X) * 180 / math.Pi
	t.SkewDeg = math.Atan2(dot(p.up, p.along), -cross(p.along, p.up)) * 180 / math.Pi
	return t
}
