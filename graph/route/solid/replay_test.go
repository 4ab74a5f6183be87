package solid

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/route/laying"
)

// A string of tee, nipple and union between two fixed old ends can't be put together: with
// its tails glued up the union opens by no more than the lift of its face, and the last
// spigot has its socket's depth to go (29.4 mm, ASTM D2466). With a true-union valve in the
// union's place it can, for the body comes out; and so it can where the old end is drawn
// back by that depth. Common practice, no source.
func TestReplayOfStringBetweenFixedEnds(t *testing.T) {
	for _, c := range []struct {
		name  string
		opens graph.Kind
		row   string
		play  float64
		want  bool // blocked
	}{
		{"plain union", graph.Union, "", 0, true},
		{"true-union valve", graph.BallValve, "true-union-ball-valve 2 in", 0, false},
		{"plain union with play", graph.Union, "", 40, false},
	} {
		s := newSketch()
		s.part(graph.Filter, "a", true)
		s.part(graph.ElementHeater, "b", true)
		tee := s.part(graph.Tee, "t", false)
		tee.Size = inch(2)
		u := s.part(c.opens, "u", false)
		u.Type = c.row
		s.part(graph.Cap, "cap", false)
		first := s.run("a.out", "t.run-in", true, graph.Vec{X: 500})
		s.run("t.run-out", "u.in", false, graph.Vec{X: 150})
		second := s.run("u.out", "b.in", true, graph.Vec{X: 500})
		s.run("t.branch", "cap.in", false, graph.Vec{Y: -150})
		for _, r := range []*graph.Run{first, second} {
			r.RemainsOf = "line"
			r.PlayMM = c.play
		}
		lay := laying.Of(s.c)
		if graph.HasErrors(lay.Findings) {
			t.Fatalf("%s: %s", c.name, said(lay.Findings))
		}
		_, _, blocked := Of(lay).CheckUnblocked()
		got := said(blocked)
		if (got != "") != c.want || c.want && !strings.Contains(got, "can't be made in its turn") {
			t.Errorf("%s: blocked %v, want %v:\n%s", c.name, got != "", c.want, got)
		}
	}
}

// What stands in the way of a joint only because it was put there first is put there after it.
// A cap goes 29.4 mm (ASTM D2466) to the left onto its pipe; 345 mm from where that begins the
// pipe of another run would stand, 60.3 mm outside (ASTM D1785): the cap needs up to 329 mm, the
// pipe begins at 315.
func TestAnotherOrderOfAssembly(t *testing.T) {
	for _, away := range []float64{345, 420} {
		s := newSketch()
		s.part(graph.Tee, "t1", true)
		s.part(graph.Tee, "t2", true)
		s.part(graph.Cap, "old-1", true)
		s.part(graph.Cap, "old-2", true)
		s.part(graph.Cap, "c", false)
		s.part(graph.Cap, "d", false)
		s.run("t2.branch", "d.in", false, graph.Vec{Z: 400})
		s.run("t1.branch", "c.in", false, graph.Vec{X: 300})
		s.run("t1.run-out", "t2.run-in", true, graph.Vec{Y: 300}, graph.Vec{Z: -200}, graph.Vec{X: away}, graph.Vec{Y: -300})
		s.run("old-1.in", "t1.run-in", true, graph.Vec{Y: 200})
		s.run("t2.run-out", "old-2.in", true, graph.Vec{Y: -200})
		lay := laying.Of(s.c)
		first := Of(lay)
		blocked := first.Replay()
		if (len(blocked) > 0) != (away == 345) {
			t.Fatalf("at %g mm: %d joints are blocked in the first order: %s", away, len(blocked), said(first.wordBlocks(blocked)))
		}
		other, bodies, left := first.Unblocked()
		if len(left) > 0 {
			t.Errorf("at %g mm: no other order is found: %s", away, said(bodies.wordBlocks(left)))
		}
		if len(blocked) == 0 {
			if other != lay {
				t.Error("an order without a block was changed")
			}
			continue
		}
		made := map[int]bool{}
		for _, step := range route.Assemble(other).Steps {
			for _, n := range step.Joints {
				made[n] = true
			}
		}
		for n, j := range other.Joints {
			if j.Number != n+1 || !made[n+1] {
				t.Errorf("joint %d is number %d, in a step: %v", n+1, j.Number, made[n+1])
			}
		}
		if len(made) != len(lay.Joints) || len(bodies.Replay()) > 0 {
			t.Errorf("%d of %d joints are in the new order", len(made), len(lay.Joints))
		}
	}
}

// The body of a true-union valve goes in between its tails square to the pipe: shut in on all
// sides it can't, with one side open it can.
func TestTrueUnionGoesInSideways(t *testing.T) {
	for sides, want := range map[string]bool{"bfud": true, "bud": false, "": false} {
		s := newSketch()
		s.part(graph.Filter, "a", true)
		s.part(graph.ElementHeater, "b", true)
		u := s.part(graph.BallValve, "u", false)
		u.Type = "true-union-ball-valve 2 in"
		for _, r := range []*graph.Run{s.run("a.out", "u.in", true, graph.Vec{X: 500}), s.run("u.out", "b.in", true, graph.Vec{X: 500})} {
			r.RemainsOf, r.PlayMM = "line", 60
		}
		lay := laying.Of(s.c)
		if graph.HasErrors(lay.Findings) {
			t.Fatal(said(lay.Findings))
		}
		b := Of(lay)
		start := lay.Positions["a.out"]
		for _, shape := range channel(300, 900, 55, sides) {
			shape = shape.Move(start)
			b.add(Body{ID: "post " + string(rune('0'+len(b.All))), Name: "a post", Likely: []Shape{shape}, Core: []Shape{shape}, Group: lay.Groups["a.out"]})
		}
		got := said(b.wordBlocks(b.Replay()))
		if strings.Contains(got, `the body of ball-valve "u" can't go in between its nuts`) != want {
			t.Errorf("posts %q: blocked should be %v:\n%s", sides, want, got)
		}
	}
}

// A wall of the cabinet stops the body as a post does: in a box 70 mm round the pipe it has no
// way in, with the front far off it comes from there, and with posts on the other sides the
// front stops it. A shut cabinet far away stops nothing.
func TestWallsStopABodySideways(t *testing.T) {
	for _, c := range []struct {
		name          string
		posts         string
		front, others float64 // how far the walls are from the pipe, mm
		want          string
	}{
		{"close all round", "", 70, 70, "the walls of the cabinet are in its way on every side"},
		{"open at the front", "", 900, 70, ""},
		{"posts, and the front close", "bud", 70, 900, `or the front of the cabinet on every side`},
		{"far off", "", 900, 900, ""},
	} {
		s := newSketch()
		s.part(graph.Filter, "a", true)
		s.part(graph.ElementHeater, "b", true)
		u := s.part(graph.BallValve, "u", false)
		u.Type = "true-union-ball-valve 2 in"
		for _, r := range []*graph.Run{s.run("a.out", "u.in", true, graph.Vec{X: 500}), s.run("u.out", "b.in", true, graph.Vec{X: 500})} {
			r.RemainsOf, r.PlayMM = "line", 60
		}
		s.c.Cabinet = &graph.Cabinet{From: graph.PortRef{Part: "a", Port: graph.Out},
			Corner: graph.Vec{X: -500, Y: -c.front, Z: -c.others}, Far: graph.Vec{X: 2000, Y: c.others, Z: c.others}}
		lay := laying.Of(s.c)
		if graph.HasErrors(lay.Findings) {
			t.Fatal(said(lay.Findings))
		}
		b := Of(lay)
		start := lay.Positions["a.out"]
		for _, shape := range channel(300, 900, 55, c.posts) {
			if c.posts == "" {
				break
			}
			shape = shape.Move(start)
			b.add(Body{ID: "post " + string(rune('0'+len(b.All))), Name: "a post", Likely: []Shape{shape}, Core: []Shape{shape}, Group: lay.Groups["a.out"]})
		}
		got := said(b.wordBlocks(b.Replay()))
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.name, c.want, got)
		}
	}
}
