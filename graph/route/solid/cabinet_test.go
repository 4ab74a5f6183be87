package solid

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/route/laying"
)

// Pipe may go square through the wall of a cabinet, and nothing else may: 2 in pipe, outside
// 60.3 mm (ASTM D1785), along the right wall with its axis 20 mm inside of it stands 10.2 mm
// in the wall.
func TestCabinet(t *testing.T) {
	for _, c := range []struct {
		name string
		wall float64 // of the right side, from the tee
		want string
	}{
		{"square through it", 1000, ""},
		{"along it, half in", 1520, `error: elbow-90 bend 1 of t1.branch>c.in stands in the right side of the cabinet: 10.2 mm of it are beyond`},
		{"its socket in it by guess", 1530, `warning: elbow-90 bend 1 of t1.branch>c.in may stand in the right side of the cabinet`},
		{"all inside", 1700, ""},
	} {
		s := teeToTheRight(false)
		s.c.Runs[2].Legs = []graph.Leg{{By: graph.Vec{X: 1500}, Surroundings: graph.NothingSaid()}, {By: graph.Vec{Y: -600}, Surroundings: graph.NothingSaid()}}
		s.c.Cabinet = &graph.Cabinet{From: graph.PortRef{Part: "t1", Port: graph.RunIn},
			Corner: graph.Vec{X: -300, Y: -1500, Z: -300}, Far: graph.Vec{X: c.wall, Y: 1500, Z: 300}}
		got := said(Check(laying.Of(s.c)))
		if c.want == "" && got != "" || !strings.Contains(got, c.want) {
			t.Errorf("%s: want %q, got\n%s", c.name, c.want, got)
		}
	}
}

// A cabinet counted from a port that no legs tie to the new work is held against nothing: that is said, with a
// port that is tied, and from that one it is held. Old pipe alone is held against no wall.
func TestCabinetElsewhere(t *testing.T) {
	for _, c := range []struct {
		from  string
		isOld bool
		want  []string
	}{
		{"d", false, []string{"warning: the cabinet is counted from d.in, and no legs tie that to the new work", `at-from = "t1.run-in"`}},
		{"t1", false, []string{"error: elbow-90 bend 1 of t1.branch>c.in stands in the right side of the cabinet"}},
		{"d", true, nil},
	} {
		s := teeToTheRight(c.isOld)
		s.part(graph.Cap, "d", true)
		s.part(graph.Cap, "e", true)
		s.run("d.in", "e.in", true, graph.Vec{Y: 400})
		port := graph.In
		if c.from == "t1" {
			port = graph.RunIn
		}
		s.c.Cabinet = &graph.Cabinet{From: graph.PortRef{Part: c.from, Port: port},
			Corner: graph.Vec{X: -300, Y: -1500, Z: -300}, Far: graph.Vec{X: 1520, Y: 1500, Z: 300}}
		ds := Check(laying.Of(s.c))
		got := said(ds)
		for _, d := range ds {
			got += d.Hint.String()
		}
		if len(c.want) == 0 && strings.Contains(got, "cabinet") {
			t.Errorf("from %s, all old: %s", c.from, got)
		}
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("from %s: want %q, got\n%s", c.from, w, got)
			}
		}
	}
}

// teeToTheRight is old pipe with a tee, whose branch leads to the right and turns to the front.
func teeToTheRight(isOld bool) *sketch {
	s := newSketch()
	s.part(graph.Tee, "t1", true)
	s.part(graph.Cap, "a", true)
	s.part(graph.Cap, "b", true)
	s.part(graph.Cap, "c", true)
	s.run("a.in", "t1.run-in", true, graph.Vec{Y: 400})
	s.run("t1.run-out", "b.in", true, graph.Vec{Y: 400})
	s.run("t1.branch", "c.in", isOld, graph.Vec{X: 1500}, graph.Vec{Y: -600})
	return s
}

// The papers say what was looked at, and what could not be.
func TestAccount(t *testing.T) {
	s := newSketch()
	s.part(graph.Tee, "t1", true)
	s.part(graph.Cap, "a", true)
	s.part(graph.Cap, "b", true)
	s.part(graph.Cap, "c", true)
	s.part(graph.Pump, "pump", true)
	s.run("a.in", "t1.run-in", true, graph.Vec{Y: 400})
	s.run("t1.run-out", "pump.in", true, graph.Vec{Y: 400})
	s.run("t1.branch", "c.in", false, graph.Vec{X: 1500})
	got := Of(laying.Of(s.c)).Account(0, "the cabinet", true, func(id string) string { return id })
	for _, want := range []string{"nothing runs into anything that is described", "Nobody measured pump: taken to be as large", "the rest (such as b, the cabinet)", "Room for the new work: 1 thing (pipe, fittings, valves with their nuts) compared with 5 of the old: "} {
		if !strings.Contains(got, want) {
			t.Errorf("%q is not in %q", want, got)
		}
	}
}
