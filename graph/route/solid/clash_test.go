package solid

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/route"
)

func inch(v float64) catalog.Size { return catalog.Size{Nominal: v} }

// sketch builds a circuit by hand.
type sketch struct {
	c    *graph.Circuit
	line int
}

func newSketch() *sketch {
	return &sketch{c: &graph.Circuit{File: "test.toml", Catalog: catalog.Embedded()}}
}

func (s *sketch) pos() graph.Pos {
	s.line++
	return graph.Pos{File: "test.toml", Line: s.line, Column: 1}
}

func (s *sketch) part(kind graph.Kind, id string, existing bool) *graph.Part {
	p := &graph.Part{ID: id, Kind: kind, Existing: existing, Pos: s.pos(), Place: graph.NoPlace()}
	for _, name := range kind.PortNames() {
		p.Ports = append(p.Ports, graph.Port{Name: name})
	}
	s.c.Parts = append(s.c.Parts, p)
	return p
}

func (s *sketch) run(from, to string, existing bool, legs ...graph.Vec) *graph.Run {
	ref := func(text string) graph.PortRef {
		part, port, _ := strings.Cut(text, ".")
		return graph.PortRef{Part: part, Port: port}
	}
	r := &graph.Run{ID: from + ">" + to, From: ref(from), To: ref(to), Spec: catalog.PVCSch40, Size: inch(2),
		RoughnessMM: -1, Existing: existing, Place: graph.NoPlace(), Pos: s.pos()}
	for _, by := range legs {
		r.Legs = append(r.Legs, graph.Leg{By: by, Place: graph.NoPlace(), Pos: s.pos()})
	}
	s.c.Runs = append(s.c.Runs, r)
	return r
}

func said(ds []graph.Diagnostic) string {
	var out []string
	for _, d := range ds {
		out = append(out, d.Severity.String()+": "+d.Message+" ("+d.Hint+")")
	}
	return strings.Join(out, "\n")
}

// A pipe that crosses another of the new work at half the distance their outsides need is an
// error; at that distance it is none. 2 in pipe: outside 60.3 mm (ASTM D1785).
func TestPipesCross(t *testing.T) {
	for _, c := range []struct {
		up   float64
		want string
	}{{30, "error"}, {59, "error"}, {61, ""}, {100, ""}} {
		s := newSketch()
		for _, id := range []string{"t1", "t2"} {
			s.part(graph.Tee, id, true)
		}
		s.part(graph.Cap, "c", true)
		s.part(graph.Cap, "d", true)
		s.run("t1.run-out", "t2.run-in", true, graph.Vec{X: 1000})
		s.run("t1.branch", "c.in", false, graph.Vec{Z: -c.up}, graph.Vec{Y: -300}, graph.Vec{X: 1500}, graph.Vec{Y: 600})
		s.run("t2.branch", "d.in", false, graph.Vec{Y: -700})
		ds := Check(route.Lay(s.c))
		got := said(ds)
		if (c.want == "error") != strings.Contains(got, "error: piece 3 (leg 3 of t1.branch>c.in) runs through piece 5") {
			t.Errorf("crossing at %g mm: want %q, got\n%s", c.up, c.want, got)
		}
	}
}
