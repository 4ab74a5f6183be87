package arrange

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/stream"
	"dryfit/render/symbol"
)

// arranged arranges a circuit of one stage.
func arranged(c *graph.Circuit, m Measure) *Diagram { return New(c, stream.NewNet(c), m) }

// measure gives every part its sign and a label of 16 by 6 mm, every run 7 mm.
func measure(mostRow float64) Measure {
	return Measure{
		Part: func(p *graph.Part) (symbol.Symbol, float64, float64) {
			return symbol.Of(p.Kind, symbol.Look{}), 16, 6
		},
		Run:     func(*graph.Run) (float64, float64) { return 7, 3 },
		MostRow: mostRow,
	}
}

// circuit builds parts (id -> kind in pairs) and runs ("a.port", "b.port" in pairs).
func circuit(parts []string, runs []string) *graph.Circuit {
	c := &graph.Circuit{Catalog: catalog.Embedded()}
	for i := 0; i+1 < len(parts); i += 2 {
		c.Parts = append(c.Parts, &graph.Part{ID: parts[i], Kind: graph.Kind(parts[i+1]), Existing: true})
	}
	ref := func(s string) graph.PortRef {
		for i := range s {
			if s[i] == '.' {
				return graph.PortRef{Part: s[:i], Port: s[i+1:]}
			}
		}
		return graph.PortRef{}
	}
	for i := 0; i+1 < len(runs); i += 2 {
		c.Runs = append(c.Runs, &graph.Run{ID: runs[i] + ">" + runs[i+1], From: ref(runs[i]), To: ref(runs[i+1]),
			Existing: true, HasLength: true, LengthMM: 500, Size: catalog.Size{Nominal: 2}})
	}
	return c
}

// tub is a tub with two suctions, a bypass with a drain on the unit's branch, and two returns.
func tub() *graph.Circuit {
	return circuit([]string{"tub", "tub", "join", "tee", "pump", "pump", "a", "tee", "check", "check-valve", "b", "tee",
		"v1", "ball-valve", "unit", "heat-pump", "dt", "tee", "drain", "drain-valve", "v2", "ball-valve", "split", "tee", "jets", "jet-group"},
		[]string{"tub.one", "join.run-in", "tub.two", "join.branch", "join.run-out", "pump.in", "pump.out", "a.run-in",
			"a.run-out", "check.in", "check.out", "b.run-in", "a.branch", "v1.in", "v1.out", "unit.in", "unit.out", "dt.run-in",
			"dt.branch", "drain.in", "dt.run-out", "v2.in", "v2.out", "b.branch", "b.run-out", "split.run-in",
			"split.branch", "tub.back", "split.run-out", "jets.in", "jets.out", "tub.jets"})
}

func places(d *Diagram) map[string]*Node {
	m := map[string]*Node{}
	for _, n := range d.Nodes {
		m[n.Part.ID] = n
	}
	return m
}

func TestRows(t *testing.T) {
	d := arranged(tub(), measure(0))
	at := places(d)
	level := at["pump"].At.Y
	for _, id := range []string{"join", "a", "check", "b", "split"} {
		if !agree.Within(at[id].At.Y, level, 1e-6) {
			t.Errorf("%s is at %.2f, not on the level %.2f", id, at[id].At.Y, level)
		}
	}
	if at["unit"].At.Y >= level {
		t.Error("the unit is not above the line")
	}
	if r := at["v1"].Role; r != OnRiser || at["v1"].At.X != at["a"].At.X || at["v1"].Way != symbol.Up {
		t.Errorf("the first valve has role %d at %v", r, at["v1"].At)
	}
	if r := at["v2"].Role; r != OnRiser || at["v2"].At.X != at["b"].At.X || at["v2"].Way != symbol.Down {
		t.Errorf("the second valve has role %d at %v", r, at["v2"].At)
	}
	if n := at["drain"]; n.Role != Hanging || n.At.X != at["dt"].At.X || n.At.Y <= at["dt"].At.Y {
		t.Errorf("the drain hangs at %v, its tee is at %v", n.At, at["dt"].At)
	}
	if at["jets"].Role != OnWall || at["jets"].At.X >= 0 {
		t.Errorf("the jets are not in the tub's wall: %v", at["jets"].At)
	}
	// Midway between its tees, as the check has room on both sides.
	if mid := (at["a"].At.X + at["b"].At.X) / 2; !agree.Within(at["check"].At.X, mid, 0.5) {
		t.Errorf("the check is at %.1f, not midway at %.1f", at["check"].At.X, mid)
	}
	if len(d.Mouths) != 4 {
		t.Errorf("%d mouths at the tub, want 4", len(d.Mouths))
	}
	for _, p := range d.Pipes {
		if len(p.Points) < 2 {
			t.Errorf("%s has no way", p.Run.ID)
		}
	}
}

func TestFoldMakesNarrower(t *testing.T) {
	width := func(d *Diagram) float64 {
		w := 0.0
		for _, n := range d.Nodes {
			w = max(w, n.At.X)
		}
		return w
	}
	wide := arranged(tub(), measure(0))
	narrow := arranged(tub(), measure(width(wide)/2))
	if width(narrow) > 0.8*width(wide) {
		t.Errorf("broken rows are %.0f mm wide, whole ones %.0f", width(narrow), width(wide))
	}
	at := places(narrow)
	if at["a"].At.Y != at["b"].At.Y {
		t.Error("the bypass was broken")
	}
	if at["join"].At.Y >= at["split"].At.Y {
		t.Error("the second row is not below the first")
	}
}

func TestOrderServesTwice(t *testing.T) {
	d := arranged(tub(), measure(0))
	m := measure(0)
	m.Order = d.Order
	e := arranged(tub(), m)
	for i := range d.Nodes {
		if d.Nodes[i].At != e.Nodes[i].At {
			t.Errorf("%s stands at %v and, with the order given, at %v", d.Nodes[i].Part.ID, d.Nodes[i].At, e.Nodes[i].At)
		}
	}
}

func TestBoundsThatGoRound(t *testing.T) {
	a, c := &Node{Part: &graph.Part{ID: "a"}}, &Node{Part: &graph.Part{ID: "c"}}
	b := &builder{d: &Diagram{Nodes: []*Node{a, c}}, xs: map[*Node]float64{a: 1, c: 2}}
	order := b.push([]bound{{a, c, 10}, {c, a, 10}, {nil, a, 3}})
	if len(order) != 2 || order[0] != a || c.At.X-a.At.X < 10 {
		t.Errorf("a at %.0f, c at %.0f", a.At.X, c.At.X)
	}
}
