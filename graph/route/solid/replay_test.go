package solid

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/route"
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
		lay := route.Lay(s.c)
		if graph.HasErrors(lay.Findings) {
			t.Fatalf("%s: %s", c.name, said(lay.Findings))
		}
		got := said(Of(lay).CheckReplay())
		if (got != "") != c.want || c.want && !strings.Contains(got, "can't be made in its turn") {
			t.Errorf("%s: blocked %v, want %v:\n%s", c.name, got != "", c.want, got)
		}
	}
}
