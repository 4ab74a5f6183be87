package laying

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

// New pipe between two old parts: where both are unions, or one is, the tails take the pipe and go on again
// with their nuts, the last of which closes the loop; between two old couplings it can't be made, for both
// its ends are fixed. Two joints of pipe, and a nut for each union (common practice, no source).
func TestOldUnionsAreUndone(t *testing.T) {
	for _, c := range []struct {
		name   string
		a, b   graph.Kind
		joints int
		ok     bool
	}{
		{"between two unions", graph.Union, graph.Union, 4, true},
		{"from a union", graph.Union, graph.Coupling, 3, true},
		{"onto a union", graph.Coupling, graph.Union, 3, true},
		{"between two couplings", graph.Coupling, graph.Coupling, 2, false},
	} {
		s := newSketch(catalog.PVCSch80, inch(1.5))
		s.part(graph.ElementHeater, "element").Existing = true
		s.part(graph.JetGroup, "jets").Existing = true
		s.part(c.a, "a").Existing = true
		s.part(c.b, "b").Existing = true
		s.run("element.out", "a.in", right(300)).Existing = true
		s.run("a.out", "b.in", right(500))
		s.run("b.out", "jets.in", right(300)).Existing = true
		lay := Of(s.c)
		a := route.Assemble(lay)
		if a.OK != c.ok || len(lay.Joints) != c.joints || len(a.Loops) != 1 {
			t.Fatalf("%s: can be made: %t, %d joints, loops %+v; %v", c.name, a.OK, len(lay.Joints), a.Loops, a.Findings)
		}
		if last := lay.Joints[c.joints-1]; c.ok && (a.Loops[0].How != "union" || last.Kind != "union" || a.Loops[0].Closing != c.joints || len(a.Findings) > 0) {
			t.Errorf("%s: the loop is closed by %q at joint %d, the last is %+v; %v", c.name, a.Loops[0].How, a.Loops[0].Closing, last, a.Findings)
		}
	}
}
