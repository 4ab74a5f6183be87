package graph

import (
	"slices"
	"strings"
	"testing"
)

// Old pipe is printed ABS or is not read; what was put in beside it is PVC-U and says so once it is
// there, hose does not, and in a cabinet of PVC-U nothing has to be said. What stood before keeps
// what it said.
func TestBuiltPipeSaysWhatItIs(t *testing.T) {
	for _, c := range []struct{ old, want string }{{"abs", "pvc-u"}, {"", "pvc-u"}, {"pvc-u", ""}} {
		circuit := &Circuit{
			Pipe:  PipeDefault{Material: c.old},
			Parts: []*Part{{ID: "a", Existing: true}, {ID: "b"}},
			Runs: []*Run{
				{ID: "old", From: PortRef{Part: "a"}, To: PortRef{Part: "a"}, Spec: "pvc-sch40", Existing: true},
				{ID: "new", From: PortRef{Part: "a"}, To: PortRef{Part: "b"}, Spec: "pvc-sch40"},
				{ID: "soft", From: PortRef{Part: "a"}, To: PortRef{Part: "b"}, Spec: "hose"},
			},
		}
		for i, want := range []string{"", c.want, ""} {
			if r := circuit.Built().Runs[i]; r.Material != want {
				t.Errorf("old pipe %q: run %s says %q, want %q", c.old, r.ID, r.Material, want)
			}
		}
	}
}

// What is said of a part that is taken out goes with it, or the circuit could not be written and read:
// its place in a mode, its price, a circuit of the supply that fed it alone. What else is said stays:
// a price of the kind it is called by, a circuit that feeds another too or all that is left.
func TestBuiltForgetsWhatIsGone(t *testing.T) {
	c := &Circuit{
		Parts:  []*Part{{ID: "unit", Existing: true, Removed: true}, {ID: "union", Existing: true, Removed: true}, {ID: "pump", Existing: true}},
		Modes:  []Mode{{Name: "low", Speeds: map[string]string{"pump": "low", "unit": "on"}, Positions: map[string]Opening{"union": 1, "pump": 0.5}}},
		Prices: []Price{{Item: "unit"}, {Item: "union"}, {Item: "pump"}, {Item: "tee"}},
		Supplies: []Supply{{Feeds: []string{"unit"}, Connection: "plug"}, {Feeds: []string{"unit", "pump"}, Connection: "fused-spur"},
			{Connection: "own-circuit"}},
	}
	b := c.Built()
	if m := b.Modes[0]; len(m.Speeds) != 1 || m.Speeds["pump"] != "low" || len(m.Positions) != 1 || m.Positions["pump"] != 0.5 {
		t.Errorf("mode %+v", m)
	}
	var items, feeds []string
	for _, p := range b.Prices {
		items = append(items, p.Item)
	}
	for _, s := range b.Supplies {
		feeds = append(feeds, s.Connection+": "+strings.Join(s.Feeds, ","))
	}
	if !slices.Equal(items, []string{"union", "pump", "tee"}) {
		t.Errorf("prices of %v", items)
	}
	if !slices.Equal(feeds, []string{"fused-spur: pump", "own-circuit: "}) {
		t.Errorf("supplies %v", feeds)
	}
	if len(c.Modes[0].Speeds) != 2 || len(c.Prices) != 4 || len(c.Supplies[0].Feeds) != 1 || len(c.Supplies[1].Feeds) != 2 {
		t.Error("the circuit before was changed")
	}
}
