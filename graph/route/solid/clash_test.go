package solid

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/route/laying"
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
	p := &graph.Part{ID: id, Kind: kind, Existing: existing, Pos: s.pos(), Surroundings: graph.NothingSaid()}
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
		RoughnessMM: -1, Existing: existing, Surroundings: graph.NothingSaid(), Pos: s.pos()}
	for _, by := range legs {
		r.Legs = append(r.Legs, graph.Leg{By: by, Surroundings: graph.NothingSaid(), Pos: s.pos()})
	}
	s.c.Runs = append(s.c.Runs, r)
	return r
}

func said(ds []graph.Diagnostic) string {
	var out []string
	for _, d := range ds {
		out = append(out, d.Severity.String()+": "+d.Message.String()+" ("+d.Hint.String()+")")
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
		ds := Check(laying.Of(s.c))
		got := said(ds)
		if (c.want == "error") != strings.Contains(got, "error: piece 3 (leg 3 of t1.branch>c.in) runs through piece 5") {
			t.Errorf("crossing at %g mm: want %q, got\n%s", c.up, c.want, got)
		}
	}
}

// Of two runs that run through each other twice the deeper place is told, whichever comes first, and
// that alone. 2 in pipe, outside 60.3 mm (ASTM D1785), crossed at 50 and at 30 mm shares 10.3 and 30.3.
func TestDeepestOfTwoClashes(t *testing.T) {
	for _, c := range []struct {
		first, second float64
		leg           string
	}{{50, 30, "leg 6"}, {30, 50, "leg 3"}} {
		s := newSketch()
		for _, id := range []string{"t1", "t2"} {
			s.part(graph.Tee, id, true)
		}
		s.part(graph.Cap, "c", true)
		s.part(graph.Cap, "d", true)
		s.run("t1.run-out", "t2.run-in", true, graph.Vec{X: 1000})
		s.run("t1.branch", "c.in", false, graph.Vec{Z: -c.first}, graph.Vec{Y: -300}, graph.Vec{X: 1500}, graph.Vec{Y: -300},
			graph.Vec{Z: c.first + c.second}, graph.Vec{X: -1200}, graph.Vec{Z: 500})
		s.run("t2.branch", "d.in", false, graph.Vec{Y: -900})
		var got []string
		for _, d := range Check(laying.Of(s.c)) {
			if text := d.Message.String(); strings.Contains(text, "t1.branch>c.in") && strings.Contains(text, "t2.branch>d.in") {
				got = append(got, text)
			}
		}
		if len(got) != 1 || !strings.Contains(got[0], c.leg+" of t1.branch>c.in") || !strings.Contains(got[0], "30.") {
			t.Errorf("crossed at %g and %g mm: %q, want %s alone", c.first, c.second, got, c.leg)
		}
	}
}

// Pipes of one run that pass each other just clear of their outsides (2 in: 60.325 mm, ASTM
// D1785) do not run through each other; a millimetre nearer they do.
func TestClearance(t *testing.T) {
	for _, c := range []struct {
		apart float64
		want  bool
	}{{60.4, false}, {59.4, true}} {
		s := newSketch()
		s.part(graph.Pump, "a", false)
		s.part(graph.Filter, "b", false)
		s.run("a.out", "b.in", false, graph.Vec{X: 600}, graph.Vec{Z: 400}, graph.Vec{X: -300}, graph.Vec{Y: c.apart + 200},
			graph.Vec{Z: -200}, graph.Vec{Y: -200}, graph.Vec{Z: -500}, graph.Vec{X: 300})
		ds := Check(laying.Of(s.c))
		if got := graph.HasErrors(ds); got != c.want {
			t.Errorf("%g mm apart: clash %v, want %v:\n%s", c.apart, got, c.want, said(ds))
		}
	}
}

// Pipes to and from a unit drawn in one lane can't be built, nor can one that rises through
// the other; laid clear of each other they can. Geometry, no source needed: the branches
// stand 300 mm apart and both pipes go 300 mm to the front, then right.
func TestOneLane(t *testing.T) {
	for _, c := range []struct {
		name string
		home []graph.Vec
		want bool
	}{
		{"in one lane", []graph.Vec{{Z: 400}, {X: -1500}, {Y: 300}}, true},
		{"clear of it", []graph.Vec{{Z: 280}, {X: -1500}, {Y: 150}, {Z: 120}, {Y: 150}}, false},
		{"rises through it", []graph.Vec{{Z: 300}, {X: -800}, {Z: 300}, {X: -700}, {Z: -200}, {Y: 300}}, true},
	} {
		s := newSketch()
		s.part(graph.Tee, "ta", false)
		s.part(graph.Tee, "tb", false)
		s.run("ta.run-out", "tb.run-in", false, graph.Vec{X: 300})
		s.run("ta.branch", "u.in", false, graph.Vec{Y: -300}, graph.Vec{X: 1900}, graph.Vec{Z: -200})
		s.run("u.out", "tb.branch", false, c.home...)
		s.part(graph.HeatPump, "u", false)
		ds := Check(laying.Of(s.c))
		if got := graph.HasErrors(ds); got != c.want {
			t.Errorf("%s: error %v, want %v:\n%s", c.name, got, c.want, said(ds))
		}
	}
}

// A check valve described so that it stands inside an isolator: both hang on legs of known
// length, and even as thin as their pipe and as short as they may be they share a place.
func TestValveInsideValve(t *testing.T) {
	build := func(apart float64) []graph.Diagnostic {
		s := newSketch()
		s.part(graph.Tee, "ta", true)
		s.part(graph.Tee, "tb", true)
		for _, id := range []string{"iso", "chk"} {
			kind := graph.BallValve
			if id == "chk" {
				kind = graph.CheckValve
			}
			s.part(kind, id, false)
		}
		for _, id := range []string{"ca", "cb"} {
			s.part(graph.Cap, id, false)
		}
		s.run("ta.run-out", "tb.run-in", true, graph.Vec{X: 600})
		s.run("ta.branch", "iso.in", false, graph.Vec{Y: -200})
		s.run("iso.out", "ca.in", false, graph.Vec{Y: -400})
		s.run("tb.branch", "chk.in", false, graph.Vec{Y: -100}, graph.Vec{X: -600 + apart}, graph.Vec{Y: -150})
		s.run("chk.out", "cb.in", false, graph.Vec{Y: -400})
		return Check(laying.Of(s.c))
	}
	if ds := build(0); !strings.Contains(said(ds), `error: check-valve "chk"`) && !strings.Contains(said(ds), `error: ball-valve "iso"`) {
		t.Errorf("a check inside an isolator is no error:\n%s", said(ds))
	}
	if ds := build(300); len(ds) > 0 {
		t.Errorf("300 mm beside it, and yet\n%s", said(ds))
	}
	// as near as their nuts are thick by guess: to be measured
	if ds := build(66); graph.HasErrors(ds) || !strings.Contains(said(ds), "measure: ") {
		t.Errorf("66 mm beside it:\n%s", said(ds))
	}
}

// Two stretches that no legs tie to each other are not held against each other: nobody knows
// how far apart they are.
func TestUntiedStretchesDontClash(t *testing.T) {
	s := newSketch()
	for _, id := range []string{"a", "b", "c", "d"} {
		s.part(graph.Cap, id, false)
	}
	s.run("a.in", "b.in", false, graph.Vec{X: 500})
	s.run("c.in", "d.in", false, graph.Vec{X: 500})
	bodies := Of(laying.Of(s.c))
	if got := bodies.Clashes(); len(got) != 0 {
		t.Errorf("%d clashes of what is not tied: %+v", len(got), got)
	}
	s.run("a.in", "c.in", false, graph.Vec{Y: 20}) // and tied, they are one in the other
	if got := Of(laying.Of(s.c)).Clashes(); len(got) == 0 {
		t.Error("tied 20 mm apart, two pipes of 60 mm do not clash")
	}
}

// A pump of which nobody gave the size fills about what its catalogue row says: 400 mm behind its
// inlet, 170 mm thick. New pipe of 60.3 mm (ASTM D1785) that crosses there is one warning that says
// what to measure, however many pieces come near; clear of it none; where the description or a row of
// the user's own says that the pump is smaller none; and where old pipe runs past, the pump is not.
func TestEquipmentIsTakenToHaveABody(t *testing.T) {
	for _, c := range []struct {
		name   string
		away   float64 // of the crossing pipe's axis, behind the stop of the pump's inlet
		change func(s *sketch, pump *graph.Part)
		want   string
	}{
		{"behind its inlet", 100, nil, `warning: piece 3 (leg 3 of t.branch>d.in) may run through pump "pump"`},
		{"through its motor", 350, nil, `may run through pump "pump"`},
		{"beyond it", 440, nil, ""},
		{"beyond its box", 350, func(_ *sketch, p *graph.Part) { p.Box = &graph.Span{{Y: -80, Z: -80}, {X: 300, Y: 80, Z: 80}} }, ""},
		{"in its box", 250, func(_ *sketch, p *graph.Part) { p.Box = &graph.Span{{Y: -80, Z: -80}, {X: 300, Y: 80, Z: 80}} }, `error: piece 3 (leg 3 of t.branch>d.in) runs through pump "pump"`},
		{"beyond a row of the user's", 350, func(s *sketch, p *graph.Part) {
			s.c.Catalog = s.c.Catalog.With([]catalog.Row{{Kind: "pump", Name: "small", BodyLongMM: 250, BodyThickMM: 120, Own: true}})
			p.Type = "small"
		}, ""},
		{"where old pipe stands", 350, func(s *sketch, _ *graph.Part) {
			s.part(graph.Cap, "e", true)
			s.run("t2.branch", "e.in", true, graph.Vec{Y: 900}, graph.Vec{X: 1050}, graph.Vec{Y: -1000}) // X 750: 250 behind the inlet
		}, ""},
	} {
		s := newSketch()
		s.part(graph.Cap, "a", true)
		s.part(graph.Tee, "t2", true)
		s.part(graph.Tee, "t", true)
		pump := s.part(graph.Pump, "pump", true)
		s.part(graph.Cap, "d", true)
		s.run("a.in", "t2.run-in", true, graph.Vec{X: 200})
		s.run("t2.run-out", "t.run-in", true, graph.Vec{X: 300})
		s.run("t.run-out", "pump.in", true, graph.Vec{X: 500})
		s.run("t.branch", "d.in", false, graph.Vec{Z: 300}, graph.Vec{X: 500 + c.away}, graph.Vec{Z: -700}, graph.Vec{X: 200})
		if c.change != nil {
			c.change(s, pump)
		}
		got := said(Check(laying.Of(s.c)))
		if c.want == "" && strings.Contains(got, `pump "pump"`) || !strings.Contains(got, c.want) || strings.Count(got, "measure: ") > 1 {
			t.Errorf("%s: want %q, got\n%s", c.name, c.want, got)
		}
	}
}

// A unit's own pipes come to it without a word, as large as it is taken to be; and pipe led through
// where its case is taken to stand is told.
func TestUnitIsTakenToHaveABody(t *testing.T) {
	for _, c := range []struct {
		up   float64 // of the pipe that passes it, above its inlet
		want bool
	}{{50, true}, {400, false}} {
		s := newSketch()
		s.part(graph.Tee, "t", true)
		s.part(graph.Cap, "a", true)
		s.part(graph.Tee, "t2", true)
		s.part(graph.Cap, "b", true)
		s.part(graph.HeatPump, "unit", false)
		s.part(graph.Tee, "t3", true)
		s.part(graph.Cap, "d", true)
		s.run("a.in", "t.run-in", true, graph.Vec{Y: 300})
		s.run("t.run-out", "t2.run-in", true, graph.Vec{Y: 200})
		s.run("t2.run-out", "t3.run-in", true, graph.Vec{Y: 400})
		s.run("t3.run-out", "b.in", true, graph.Vec{Y: 400})
		s.run("t.branch", "unit.in", false, graph.Vec{X: 1000})
		s.run("unit.out", "t2.branch", false, graph.Vec{X: -1000})
		s.run("t3.branch", "d.in", false, graph.Vec{Z: c.up}, graph.Vec{X: 1150}, graph.Vec{Y: -1000})
		got := said(Check(laying.Of(s.c)))
		if strings.Contains(got, `heat-pump "unit"`) != c.want || strings.Contains(got, "error") {
			t.Errorf("%g mm above: want %v, got\n%s", c.up, c.want, got)
		}
	}
}

// A port may be sunk into the case of its unit. A union on a nipple of 67 mm ends 67 - 35 = 32 mm
// before the port's stop (2 in sockets of unions are 38 mm deep, ASTM D2467: 29 mm): with the case 20
// mm before the stop it is clear, with 60 mm its nut stands in the case. That is a warning, for there may
// be room round the port; the pipe between them is at home there and nothing is said of it.
func TestUnionInTheCase(t *testing.T) {
	for _, c := range []struct {
		sunkMM float64
		want   bool
	}{{20, false}, {60, true}} {
		s := newSketch()
		unit := s.part(graph.HeatPump, "unit", false)
		unit.Known = graph.Measured
		left := graph.Vec{X: -1}
		unit.Ports[0].Faces = &left
		unit.Box = &graph.Span{{X: -c.sunkMM, Y: -300, Z: -100}, {X: 500, Y: 300, Z: 600}}
		s.part(graph.Union, "union", false)
		s.part(graph.Tee, "tee", true)
		s.run("tee.run-out", "union.in", false, graph.Vec{X: 400})
		s.run("union.out", "unit.in", false, graph.Vec{X: 67})
		got := said(Check(laying.Of(s.c)))
		if c.want != (strings.Contains(got, `warning: heat-pump "unit" may run through union "union"`) || strings.Contains(got, `warning: union "union" may run through heat-pump "unit"`)) || strings.Contains(got, "error") {
			t.Errorf("case %g mm before the port: %s", c.sunkMM, got)
		}
	}
}
