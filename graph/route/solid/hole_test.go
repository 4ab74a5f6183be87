package solid

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/route/laying"
)

// Pipe that goes square through a wall of the cabinet wants a hole where its axis meets the wall,
// counted from the port the corners are: here the tee's, from which the branch's axis starts some
// way off. By hand: the leg runs to the right, so the hole in the right side lies 1000 mm to the
// right, level with the branch; a leg that turns before the wall wants none, and old pipe none.
func TestHoles(t *testing.T) {
	for _, c := range []struct {
		name  string
		from  graph.Vec
		wall  float64 // of the right side, from the tee
		isOld bool
		want  int
	}{
		{"through the right side", graph.Vec{X: -300, Y: -1500, Z: -300}, 1000, false, 1},
		{"through the right side and the front", graph.Vec{X: -300, Y: -300, Z: -300}, 1700, false, 1},
		{"all inside", graph.Vec{X: -300, Y: -1500, Z: -300}, 1700, false, 0},
		{"old pipe", graph.Vec{X: -300, Y: -1500, Z: -300}, 1000, true, 0},
		{"past it: the wall ends before", graph.Vec{X: -300, Y: -1500, Z: -1500}, 1000, false, 0},
	} {
		s := teeToTheRight(c.isOld)
		top := 300.0
		if c.from.Z < -1000 {
			top = -1000 // a box far below the pipe
		}
		s.c.Cabinet = &graph.Cabinet{From: graph.PortRef{Part: "t1", Port: graph.RunIn}, Corner: c.from, Far: graph.Vec{X: c.wall, Y: 1500, Z: top}}
		lay := laying.Of(s.c)
		got := Holes(lay)
		if len(got) != c.want {
			t.Errorf("%s: %d holes, want %d: %+v", c.name, len(got), c.want, got)
			continue
		}
		if c.want == 0 {
			continue
		}
		h, branch := got[0], lay.Positions["t1.branch"].Sub(lay.Positions["t1.run-in"])
		at, wall := graph.Vec{X: 1000, Y: branch.Y, Z: branch.Z}, "right side"
		if c.wall > 1500 {
			at, wall = graph.Vec{X: branch.X + 1500, Y: -300, Z: branch.Z}, "front"
		}
		if h.Wall != wall || h.At.Sub(at).Len() > 0.01 {
			t.Errorf("%s: a hole in the %s at %v, want the %s at %v", c.name, h.Wall, h.At, wall, at)
		}
		if !agree.Within(h.OutsideMM, 60.3, 0.05) { // 2 in pipe of ASTM D1785
			t.Errorf("%s: for pipe of %g mm outside", c.name, h.OutsideMM)
		}
	}
}
