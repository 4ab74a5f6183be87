package retrofit

import (
	"reflect"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
)

// Where water stays: lower than both neighbours, or at the foot of a check it can't pass. An
// open end is the line, into which it runs. Geometry, no source needed.
func TestTurningPoints(t *testing.T) {
	for _, c := range []struct {
		name string
		s    stretch
		low  [][2]int
		high [][2]int
	}{
		{"down and up again", stretch{z: []float64{0, -300, -300, 0}}, [][2]int{{1, 2}}, nil},
		{"all the way down", stretch{z: []float64{0, -300, -500}}, nil, nil},
		{"down to a check", stretch{z: []float64{0, -300}, shutOut: true}, [][2]int{{1, 1}}, nil},
		{"down from a check", stretch{z: []float64{0, -300}, shutIn: true}, nil, [][2]int{{0, 0}}},
		{"up from a check", stretch{z: []float64{0, 300}, shutIn: true}, [][2]int{{0, 0}}, nil},
		{"level", stretch{z: []float64{0, 0, 0}, shutIn: true}, nil, nil},
		{"over a hump", stretch{z: []float64{0, 200, 0}}, nil, [][2]int{{1, 1}}},
		{"a millimetre is level", stretch{z: []float64{0, -1, 0}}, nil, nil},
	} {
		if low := c.s.turning(-1); !reflect.DeepEqual(low, c.low) {
			t.Errorf("%s: water stays at %v, want %v", c.name, low, c.low)
		}
		if high := c.s.turning(1); !reflect.DeepEqual(high, c.high) {
			t.Errorf("%s: air stays at %v, want %v", c.name, high, c.high)
		}
	}
}

// Drains are put in unless the description leaves them out.
func TestDrainsAsAsked(t *testing.T) {
	no := false
	for _, c := range []struct {
		said *bool
		want bool
	}{{nil, true}, {&no, false}} {
		circuit, lay := demo(t)
		circuit.Retrofit.Drains = c.said
		choice := Choice{Bypass: "spring"}
		place, _ := NewSite(circuit, lay).PlaceAt(graph.Cut{Run: "return-line", Leg: 3, AtMM: -1}, choice)
		proposal, ds := Build(circuit, lay, place, choice)
		if proposal == nil {
			t.Fatal(ds)
		}
		drains := 0
		for _, p := range proposal.Circuit.Parts {
			if p.Kind == graph.DrainValve && p.New() {
				drains++
			}
		}
		if (drains > 0) != c.want {
			t.Errorf("drains said %v: %d of them", c.said, drains)
		}
	}
}

// Round pipes whose legs are written a drain is turned clear of what stands there, as round those
// that are found: with a floor below them it looks to the front, and not through it. Geometry, no
// source needed.
func TestDrainsKeepClearOfDrawnPipes(t *testing.T) {
	for _, c := range []struct {
		floorMM float64 // below the heater's outlet, level with the low leg
		want    graph.Vec
	}{{900, graph.Vec{Z: -1}}, {70, graph.Vec{Y: -1}}} {
		circuit, lay := demo(t)
		lay.Circuit.Cabinet = &graph.Cabinet{From: graph.PortRef{Part: "element", Port: graph.Out},
			Corner: graph.Vec{X: -1500, Y: -900, Z: -c.floorMM}, Far: graph.Vec{X: 2600, Y: 300, Z: 800}}
		choice := Choice{Bypass: "spring"}
		place, _ := NewSite(circuit, lay).PlaceAt(graph.Cut{Run: "return-line", Leg: 3, AtMM: -1}, choice)
		proposal, ds := Build(circuit, lay, place, choice)
		if proposal == nil {
			t.Fatal(ds)
		}
		found := false
		for _, r := range proposal.Circuit.Runs {
			if p := proposal.Circuit.Part(r.To.Part); p != nil && p.Kind == graph.DrainValve {
				found = true
				if got := r.Legs[0].By.Unit(); got != c.want {
					t.Errorf("floor %g mm below: the drain looks %v, want %v", c.floorMM, got, c.want)
				}
			}
		}
		if !found {
			t.Errorf("floor %g mm below: no drain", c.floorMM)
		}
	}
}

// A drain drains what stands on its own side of a check: of the leg the check is in, only the side
// that has room left is offered, and that to its own stretch alone. Geometry, no source needed.
func TestDrainsKeepToTheirSideOfACheck(t *testing.T) {
	for _, c := range []struct {
		name          string
		atEnd         bool
		before, after bool // whether the stretch on that side of the check may use the leg
	}{
		{"check at the start of the leg", false, false, true},
		{"check at its end", true, true, false},
	} {
		d := draft.Of(&graph.Circuit{})
		d.AddPart("check", graph.CheckValve, "", catalog.Size{})
		no := func(graph.Vec, graph.Vec) draft.End { return draft.End{} }
		to := draft.NewStrand("to", graph.PortRef{}, graph.PortRef{}, []graph.Leg{draft.Leg(graph.Vec{Z: -300})}, draft.End{}, draft.End{}, no)
		from := draft.NewStrand("from", graph.PortRef{}, graph.PortRef{}, []graph.Leg{draft.Leg(graph.Vec{X: 1000}), draft.Leg(graph.Vec{Z: 300})}, draft.End{}, draft.End{}, no)
		if _, _, ok := from.Put(draft.Item{Part: "check", Length: 100}, c.atEnd, 0); !ok {
			t.Fatal("no room for the check")
		}
		l := &limb{d: d}
		all := l.stretches(to, from, graph.Vec{})
		if len(all) != 2 {
			t.Fatalf("%s: %d stretches, want 2", c.name, len(all))
		}
		if got := all[0].legs[len(all[0].legs)-1] != nil; got != c.before {
			t.Errorf("%s: the water before it drains there: %v", c.name, got)
		}
		if got := all[1].legs[0] != nil; got != c.after {
			t.Errorf("%s: the water behind it drains there: %v", c.name, got)
		}
	}
}
