package space

import (
	"math"
	"testing"

	"dryfit/render/scene"
)

// The boxes of a disc leave none of it out, or a ring would go through the letters beside it; and
// they take little more. Source: geometry, a point at r from the middle lies on the circle.
func TestDiscBoxesCoverTheDisc(t *testing.T) {
	c := scene.Point{X: 7, Y: -3}
	for _, r := range []float64{0.85, 3.1, 5.4} {
		boxes := DiscBoxes(c, r)
		for deg := range 360 {
			sin, cos := math.Sincos(float64(deg) * math.Pi / 180)
			if x, y := c.X+0.9999*r*cos, c.Y+0.9999*r*sin; !covered(boxes, x, y) {
				t.Errorf("radius %g: its edge at %d degrees is in no box", r, deg)
			}
			if x, y := c.X+1.17*r*cos, c.Y+1.17*r*sin; covered(boxes, x, y) {
				t.Errorf("radius %g: a box goes a sixth beyond its edge at %d degrees", r, deg)
			}
		}
	}
}

func covered(boxes []scene.Box, x, y float64) bool {
	for _, b := range boxes {
		if x >= b.MinX && x <= b.MaxX && y >= b.MinY && y <= b.MaxY {
			return true
		}
	}
	return false
}
