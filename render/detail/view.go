package detail

import (
	"fmt"
	"math"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
)

// view is where the reader of a sheet looks from: what of the cabinet lies to the right on
// the sheet, what up it, and what comes towards him.
type view struct {
	words              string
	right, up, towards graph.Vec
}

// views are those a sheet may take, the best liked first. X is right, Y back and Z up, as
// for a person who faces the open cabinet.
var views = []view{
	{"Seen from the front: up is up, left is left.", graph.Vec{X: 1}, graph.Vec{Z: 1}, graph.Vec{Y: -1}},
	{"Seen from above: the front, where you stand, is at the foot of the sheet.", graph.Vec{X: 1}, graph.Vec{Y: 1}, graph.Vec{Z: 1}},
	{"Seen from the right-hand side: up is up, the front is to the left.", graph.Vec{Y: 1}, graph.Vec{Z: 1}, graph.Vec{X: 1}},
	{"Seen from the left-hand side: up is up, the front is to the right.", graph.Vec{Y: -1}, graph.Vec{Z: 1}, graph.Vec{X: -1}},
}

// unknown is the view of a string whose way in space nothing tells.
var unknown = view{words: "Which way the line runs is not in the description: the water is drawn from left to right."}

// In shares of a way's length.
const (
	squareTo = 0.05 // a line is square to a view under this
	level    = 0.95 // and lies along the sheet above it
	inPlane  = 0.7  // a branch is drawn in the plane above it
)

// viewsOf returns the views it takes to show a string and each of its branches true: the one
// that shows most first.
func (c *chain) viewsOf() []view {
	way := c.lineWay()
	if way.Len() == 0 {
		return []view{unknown}
	}
	var able []view
	for limit := squareTo; len(able) == 0; limit *= 2 {
		for _, v := range views {
			if math.Abs(way.Dot(v.towards)) < limit {
				able = append(able, v)
			}
		}
	}
	shown := make([]bool, len(c.limbs))
	var out []view
	for {
		best, most := -1, 0
		for i, v := range able {
			n := 0
			for k, l := range c.limbs {
				if !shown[k] && v.shows(way, l.way) {
					n++
				}
			}
			if n > most || best < 0 && len(out) == 0 {
				best, most = i, n
			}
		}
		if best < 0 {
			return out
		}
		out = append(out, able[best])
		for k, l := range c.limbs {
			shown[k] = shown[k] || able[best].shows(way, l.way)
		}
		able = append(able[:best:best], able[best+1:]...)
	}
}

// along is which way a line runs on the sheet: along it or up it, whichever is nearer.
func (v view) along(way graph.Vec) scene.Point {
	x, y := way.Dot(v.right), way.Dot(v.up)
	switch {
	case way.Len() == 0:
		return scene.Point{X: 1}
	case math.Abs(x) >= math.Abs(y):
		return scene.Point{X: math.Copysign(1, x)}
	}
	return scene.Point{Y: -math.Copysign(1, y)}
}

// across is how a way lies to a line on the sheet: 1 to its upper (or, of an upright line,
// right) side, -1 to the other, with its share in the plane.
func (v view) across(line, way graph.Vec) (side, share float64) {
	q := way.Dot(v.up)
	if v.along(line).X == 0 {
		q = way.Dot(v.right)
	}
	if q < 0 {
		return -1, -q
	}
	return 1, q
}

// shows reports whether a branch lies in the plane of the sheet.
func (v view) shows(line, way graph.Vec) bool {
	_, share := v.across(line, way)
	return share > inPlane
}

// viewNotes says what the figure turns into its plane.
func (d *drawing) viewNotes() []string {
	out := []string{d.view.words}
	line := d.c.lineWay()
	if line.Len() == 0 {
		return out
	}
	u := d.view.along(line)
	if got := math.Abs(line.Dot(d.view.right)*u.X) + math.Abs(line.Dot(d.view.up)*u.Y); got < level {
		out = append(out, fmt.Sprintf("The line does not run level there but at %.0f°: it is turned to lie square on the sheet.", math.Acos(math.Min(got, 1))*180/math.Pi))
	}
	var lean []string
	for i := range d.c.limbs {
		l := &d.c.limbs[i]
		if _, share := d.view.across(line, l.way); d.flat(l) && share < level {
			lean = append(lean, fmt.Sprintf("the branch of %s leans %.0f° %s", d.names.Tag(d.c.members[l.tee].part.ID),
				math.Acos(math.Min(share, 1))*180/math.Pi, nearOrFar(l.way.Dot(d.view.towards))))
		}
	}
	if len(lean) > 0 {
		out = append(out, "Turned into the plane of the sheet: "+strings.Join(lean, ", ")+".")
	}
	return out
}

// flat reports whether a branch is drawn in the plane.
func (d *drawing) flat(l *limb) bool {
	line := d.c.lineWay()
	return line.Len() == 0 || l.way.Len() == 0 || d.view.shows(line, l.way)
}

// nearOrFar says which way something leaves the sheet.
func nearOrFar(towards float64) string {
	if towards > 0 {
		return "towards you"
	}
	return "away from you"
}

// outOfPlane is the sign of pipe that leaves the sheet: a ring, filled where it comes towards
// the reader and open where it goes away (ISO 6412-1, from memory).
func outOfPlane(at scene.Point, r float64, near bool, pen float64) []scene.Item {
	ring := []scene.Item{scene.Circle(at, r, scene.Outline(pen)).Named("away")}
	if near {
		ring = []scene.Item{scene.Circle(at, r, scene.Outline(pen)).Named("near"), scene.Circle(at, 0.62*r, scene.Filled(0)).Named("near")}
	}
	return ring
}
