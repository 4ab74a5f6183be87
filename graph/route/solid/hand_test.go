package solid

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route/laying"
)

// channel is boxes along X on some sides of the X axis, so far from it.
func channel(from, to, away float64, sides string) []Shape {
	const far = 400
	boxes := map[rune]Shape{
		'b': Box(graph.Vec{X: from, Y: away, Z: -far}, graph.Vec{X: to, Y: far, Z: far}),
		'f': Box(graph.Vec{X: from, Y: -far, Z: -far}, graph.Vec{X: to, Y: -away, Z: far}),
		'u': Box(graph.Vec{X: from, Y: -far, Z: away}, graph.Vec{X: to, Y: far, Z: far}),
		'd': Box(graph.Vec{X: from, Y: -far, Z: -far}, graph.Vec{X: to, Y: far, Z: -away}),
	}
	var out []Shape
	for _, s := range sides {
		out = append(out, boxes[s])
	}
	return out
}

// A hand has the room there is between what stands on all sides, measured from the nut
// (outside 100 mm), from the stem on the axis, or from the pipe (outside 60.3 mm, ASTM D1785):
// plain subtraction. Where one side is open it has all it needs.
func TestRoomForTheHand(t *testing.T) {
	for _, c := range []struct {
		name       string
		kind       graph.Kind
		from, to   float64
		away       float64
		sides      string
		want, none string
	}{
		{"spanner shut in", graph.Union, 380, 640, 90, "bfud", `the spanner at the nut of union "u" has 40 mm of room, and needs 80 mm`, ""},
		{"spanner with one side", graph.Union, 380, 640, 130, "bud", "", "spanner"},
		{"spanner far from all", graph.Union, 380, 640, 135, "bfud", "", "spanner"},
		{"handle shut in", graph.BallValve, 300, 800, 110, "bfud", `the handle of ball-valve "u" in its quarter turn has 110 mm of room, and needs 120 mm`, ""},
		{"handle with one side", graph.BallValve, 300, 800, 110, "bud", "", "handle"},
		{"saw shut in", graph.Union, 120, 180, 70.15, "bfud", `the saw at the cut of line beside u.in has 40 mm of room, and needs 100 mm`, ""},
		{"saw with half round free", graph.Union, 120, 180, 70.15, "b", "", "the saw"},
		{"brush beside a wall", graph.Union, 40, 100, 55, "b", `has 25 mm of room, and needs 30 mm`, ""},
		{"brush farther from it", graph.Union, 40, 100, 61, "b", "", "brush"},
	} {
		for _, own := range []bool{false, true} {
			s := newSketch()
			s.part(graph.Tee, "t", true)
			s.part(graph.Cap, "a", true)
			s.part(graph.Cap, "e", true)
			s.part(c.kind, "u", false)
			s.part(graph.Cap, "b", true)
			s.run("a.in", "t.run-in", true, graph.Vec{X: 300})
			s.run("t.branch", "e.in", true, graph.Vec{Y: -600})
			r := s.run("t.run-out", "u.in", c.want == "" || !strings.Contains(c.want, "brush") && !strings.Contains(c.name, "brush"), graph.Vec{X: 450})
			if r.Existing {
				r.RemainsOf = "line"
				r.Legs[0].By.X = 150
				if !strings.Contains(c.name, "saw") {
					r.Legs[0].By.X = 450
				}
			}
			s.run("u.out", "b.in", false, graph.Vec{X: 450})
			if own {
				rows := catalog.Embedded()
				var mine []catalog.Row
				for _, what := range []string{"spanner", "handle", "saw", "brush"} {
					mine = append(mine, catalog.Row{Kind: "hand-room", Name: what + " 2 in", Style: what, Size: inch(2), RoomMM: 10, Own: true, Source: "measured"})
				}
				s.c.Catalog = rows.With(mine)
			}
			lay := laying.Of(s.c)
			b := Of(lay)
			start := lay.Positions["t.run-out"]
			var post []Shape
			for _, shape := range channel(c.from, c.to, c.away, c.sides) {
				post = append(post, shape.Move(start))
			}
			b.add(Body{ID: "post", Name: "a post", Likely: post, Group: lay.Groups["t.run-out"]})
			got := said(b.CheckHands())
			switch {
			case own && got != "":
				t.Errorf("%s: with 10 mm asked for there is enough:\n%s", c.name, got)
			case !own && c.want != "" && (!strings.Contains(got, c.want) || !strings.Contains(got, "warning") || !strings.Contains(got, "in the way is a post") || !strings.Contains(got, "is assumed")):
				t.Errorf("%s: want %q, got\n%s", c.name, c.want, got)
			case !own && c.none != "" && strings.Contains(got, c.none):
				t.Errorf("%s: want no %s, got\n%s", c.name, c.none, got)
			}
		}
	}
}

// The stem of a valve with the fingers round it reaches 25 + 14 mm past its body. In a square channel
// nearer than that the handle has no room at all; a little wider it turns until it meets the sides;
// and where one side is open the stem goes there, between the sides that are near. By hand; each is
// less than the 120 mm it needs.
func TestRoomForTheStem(t *testing.T) {
	for _, c := range []struct {
		past  float64 // from the valve's body to the walls, mm
		sides string
		room  float64 // of the handle, past the body, mm; -1: none at all
	}{{38, "bfud", -1}, {40, "bfud", 40}, {38, "bfd", 38}} {
		s := newSketch()
		s.part(graph.Cap, "a", true)
		s.part(graph.BallValve, "v", false)
		s.part(graph.Cap, "b", true)
		s.run("a.in", "v.in", false, graph.Vec{X: 450})
		s.run("v.out", "b.in", false, graph.Vec{X: 450})
		lay := laying.Of(s.c)
		b := Of(lay)
		at := lay.Positions["v.in"]
		_, high := b.All[b.Index("part v")].Likely[0].Bounds()
		body := high.Z - at.Z
		want := "the handle of ball-valve \"v\" in its quarter turn has 0 mm of room, and needs 120 mm"
		if c.room >= 0 {
			want = fmt.Sprintf("the handle of ball-valve \"v\" in its quarter turn has %.0f mm of room, and needs 120 mm", body+c.room)
		}
		var post []Shape
		for _, shape := range channel(-200, 300, body+c.past, c.sides) {
			post = append(post, shape.Move(at))
		}
		b.add(Body{ID: "post", Name: "a post", Likely: post, Group: lay.Groups["v.in"]})
		if got := said(b.CheckHands()); !strings.Contains(got, want) {
			t.Errorf("%g mm past the body (%g mm) at %s: want %q, got\n%s", c.past, body, c.sides, want, got)
		}
	}
}

// Of a valve with two nuts of its own it is said once that the spanner has no room: at both, or at
// the one. The distances are those of TestRoomForTheHand; the nuts are 128.5 mm apart (a maker's table).
func TestSpannerAtBothNuts(t *testing.T) {
	for _, c := range []struct {
		name string
		to   float64
		want string
	}{
		{"between walls", 900, `the spanner at both nuts of ball-valve "u" has 40 mm of room, and needs 80 mm`},
		{"walls at the first", 500, `the spanner at the nut of ball-valve "u" towards u.in has 40 mm of room, and needs 80 mm`},
	} {
		s := newSketch()
		s.part(graph.Tee, "t", true)
		s.part(graph.BallValve, "u", false).Type = "true-union-ball-valve 2 in"
		s.part(graph.Cap, "b", true)
		s.run("t.run-out", "u.in", false, graph.Vec{X: 450})
		s.run("u.out", "b.in", false, graph.Vec{X: 450})
		lay := laying.Of(s.c)
		b := Of(lay)
		var post []Shape
		for _, shape := range channel(380, c.to, 90, "bfud") {
			post = append(post, shape.Move(lay.Positions["t.run-out"]))
		}
		b.add(Body{ID: "post", Name: "a post", Likely: post, Group: lay.Groups["t.run-out"]})
		if got := said(b.CheckHands()); !strings.Contains(got, c.want) || strings.Count(got, "the spanner at") != 1 {
			t.Errorf("%s: want %q, got\n%s", c.name, c.want, got)
		}
	}
}

// The brush at a joint of two new bodies belongs to the first of them, each time; at one of an
// old body and a new one to the new one.
func TestWhoseTheBrushIs(t *testing.T) {
	s := newSketch()
	s.part(graph.Cap, "a", true)
	u := s.part(graph.Coupling, "u", false)
	s.part(graph.Cap, "b", true)
	first := s.run("a.in", "u.in", false, graph.Vec{X: 450})
	second := s.run("u.out", "b.in", false, graph.Vec{X: 450})
	one, two := first.Legs[0].Pos, second.Legs[0].Pos
	want := map[string]graph.Pos{"a.in": one, "u.in": one, "u.out": u.Pos, "b.in": two} // by the socket
	b := Of(laying.Of(s.c))
	h := &hands{s: b, solids: b.obstacles()}
	for n := range b.lay.Joints {
		j := &b.lay.Joints[n]
		own := map[int]bool{}
		for _, id := range []string{j.BodyA, j.BodyB} {
			if i := b.Index(id); i >= 0 {
				own[i] = true
			}
		}
		socket := j.B
		if j.Spigot == 'b' {
			socket = j.A
		}
		for range 20 {
			if got := h.brush(j, own, nil); got.pos != want[socket] {
				t.Fatalf("joint %d at %s, of %s and %s: at line %d, not %d", j.Number, socket, j.BodyA, j.BodyB, got.pos.Line, want[socket].Line)
			}
		}
		delete(want, socket)
	}
	if len(want) > 0 {
		t.Errorf("no joint at %v", want)
	}
}
