package solid

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/route/laying"
)

// New pipe in the tails of two old unions stands in their sockets and in nobody's way; where it also passes
// through an old valve that is joined to something else, that is a clash all the same (follows from the sketch).
func TestPipeInOldTailsIsNoClash(t *testing.T) {
	for _, valve := range []bool{false, true} {
		s := newSketch()
		s.part(graph.ElementHeater, "element", true)
		s.part(graph.JetGroup, "jets", true)
		s.part(graph.Union, "a", true)
		s.part(graph.Union, "b", true)
		s.run("element.out", "a.in", true, graph.Vec{X: 300})
		s.run("a.out", "b.in", false, graph.Vec{X: 500})
		s.run("b.out", "jets.in", true, graph.Vec{X: 300})
		if valve { // its line leaves the element's and crosses the new pipe in the middle
			s.part(graph.BallValve, "v", true)
			s.part(graph.Tee, "t", true)
			s.c.Runs = s.c.Runs[1:]
			s.run("element.out", "t.run-in", true, graph.Vec{X: 100})
			s.run("t.run-out", "a.in", true, graph.Vec{X: 200})
			s.run("t.branch", "v.in", true, graph.Vec{Z: -300}, graph.Vec{X: 500}, graph.Vec{Z: 260})
		}
		clashes := 0
		got := Check(laying.Of(s.c))
		for _, d := range got {
			if d.Rule == "clash" {
				clashes++
			}
		}
		if (clashes > 0) != valve {
			t.Errorf("a valve in the way %t: %d clashes\n%s", valve, clashes, said(got))
		}
	}
}
