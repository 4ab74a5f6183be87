package laying

import (
	"fmt"
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/route"
)

// The circuits of these tests are built here rather than read, so that they need no reader.

func inch(v float64) catalog.Size { return catalog.Size{Nominal: v} }
func dn(v float64) catalog.Size   { return catalog.Size{Metric: true, Nominal: v} }

// sketch builds a circuit.
type sketch struct {
	c    *graph.Circuit
	spec catalog.Spec
	size catalog.Size
	line int
}

func newSketch(spec catalog.Spec, size catalog.Size) *sketch {
	return &sketch{c: &graph.Circuit{File: "test.toml", Catalog: catalog.Embedded()}, spec: spec, size: size}
}

func (s *sketch) pos() graph.Pos {
	s.line++
	return graph.Pos{File: "test.toml", Line: s.line, Column: 1}
}

func (s *sketch) part(kind graph.Kind, id string, ports ...string) *graph.Part {
	p := &graph.Part{ID: id, Kind: kind, Pos: s.pos(), Surroundings: graph.NothingSaid()}
	if ports == nil {
		ports = kind.PortNames()
	}
	for _, name := range ports {
		p.Ports = append(p.Ports, graph.Port{Name: name})
	}
	if kind == graph.Tub {
		p.Existing = true
	}
	s.c.Parts = append(s.c.Parts, p)
	return p
}

func ref(text string) graph.PortRef {
	part, port, _ := strings.Cut(text, ".")
	return graph.PortRef{Part: part, Port: port}
}

func (s *sketch) run(from, to string, legs ...graph.Vec) *graph.Run {
	r := &graph.Run{ID: from + ">" + to, From: ref(from), To: ref(to), Spec: s.spec, Size: s.size,
		RoughnessMM: -1, Surroundings: graph.NothingSaid(), Pos: s.pos()}
	for _, by := range legs {
		r.Legs = append(r.Legs, graph.Leg{By: by, Surroundings: graph.NothingSaid(), Pos: s.pos()})
	}
	s.c.Runs = append(s.c.Runs, r)
	return r
}

func right(v float64) graph.Vec { return graph.Vec{X: v} }
func left(v float64) graph.Vec  { return graph.Vec{X: -v} }
func up(v float64) graph.Vec    { return graph.Vec{Z: v} }
func down(v float64) graph.Vec  { return graph.Vec{Z: -v} }
func back(v float64) graph.Vec  { return graph.Vec{Y: v} }
func front(v float64) graph.Vec { return graph.Vec{Y: -v} }

// findings returns the findings of a severity, as text.
func findings(ds []graph.Diagnostic, severity graph.Severity) string {
	var b strings.Builder
	for _, d := range ds {
		if d.Severity == severity {
			fmt.Fprintf(&b, "%s: %s (%s)\n", d.Pos, d.Message, d.Hint)
		}
	}
	return b.String()
}

func noErrors(t *testing.T, lay *route.Layout) {
	t.Helper()
	if text := findings(lay.Findings, graph.Error); text != "" {
		t.Fatalf("unexpected errors:\n%s", text)
	}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !agree.Within(got, want, tol) {
		t.Errorf("%s = %.4f, want %.4f ± %g", what, got, want, tol)
	}
}
