package tag

import (
	"strings"
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// The names follow from the circuit alone: a unit between two tees of the line, with a valve
// on each pipe and a check between the tees.
func TestNames(t *testing.T) {
	run := func(from, fp, to, tp string) *graph.Run {
		return &graph.Run{ID: from + ">" + to, From: graph.PortRef{Part: from, Port: fp}, To: graph.PortRef{Part: to, Port: tp}}
	}
	c := &graph.Circuit{
		Parts: []*graph.Part{{ID: "bath", Kind: graph.Tub, Ports: []graph.Port{{Name: "out"}, {Name: "back"}}}, {ID: "p", Kind: graph.Pump, Pump: &graph.PumpData{}},
			{ID: "one", Kind: graph.Tee}, {ID: "two", Kind: graph.Tee}, {ID: "flap", Kind: graph.CheckValve},
			{ID: "v7", Kind: graph.BallValve}, {ID: "shut-off", Kind: graph.GateValve}, {ID: "warm", Kind: graph.HeatPump},
			{ID: "j1", Kind: graph.JetGroup, Existing: true}},
		Runs: []*graph.Run{run("bath", "out", "p", "in"), run("p", "out", "one", "run-in"), run("one", "run-out", "flap", "in"),
			run("flap", "out", "two", "run-in"), run("two", "run-out", "j1", "in"), run("j1", "out", "bath", "back"),
			run("one", "branch", "v7", "in"), run("v7", "out", "warm", "in"), run("warm", "out", "shut-off", "in"), run("shut-off", "out", "two", "branch")},
	}
	n := Of(c, stream.NewNet(c))
	for id, want := range map[string]string{
		"one": "T1 tee to the unit", "two": "T2 tee from the unit", "flap": "CV1 spring check past the unit",
		"v7": "V1 ball valve on the pipe to the unit", "shut-off": "V2 gate valve on the pipe from the unit",
		"bath": "tub", "j1": "JG1 jets", "warm": "HP1 heat pump", "nobody": "nobody",
	} {
		if got := strings.TrimSpace(n.Short(id) + " " + n.Role(id)); got != want {
			t.Errorf("%s is called %q, want %q", id, got, want)
		}
	}
	if got, want := n.InWords("face of the warm.out"), "face of HP1 heat pump, outlet"; got != want {
		t.Errorf("in words: %q, want %q", got, want)
	}
	for words, want := range map[string]string{
		"one.run-in": "T1 tee", "elbow-90 at bend 2 of to-unit": "90° elbow", "reducing-bush at two.branch": "bush at T2",
		"piece 4": "piece 4", "elbow-45 at bend 1 of a.b": "45° elbow", "bath.out": "tub",
	} {
		if got := n.End(words); got != want {
			t.Errorf("%q is called %q, want %q", words, got, want)
		}
	}
}

// Two tubs, such as a pool and its balance tank, are told apart: each goes by its own name. One
// alone is the tub.
func TestTubsAreToldApart(t *testing.T) {
	pool, tank := &graph.Part{ID: "pool", Kind: graph.Tub}, &graph.Part{ID: "tank", Kind: graph.Tub}
	for _, c := range []struct {
		parts []*graph.Part
		want  map[string]string
	}{
		{[]*graph.Part{pool}, map[string]string{"pool": "tub"}},
		{[]*graph.Part{pool, tank}, map[string]string{"pool": "pool", "tank": "tank"}},
	} {
		circuit := &graph.Circuit{Parts: c.parts}
		n := Of(circuit, stream.NewNet(circuit))
		for id, want := range c.want {
			if n.Short(id) != want || n.Word(id) != want {
				t.Errorf("%d tubs: %s is called %q, and in a word %q; want %q", len(c.parts), id, n.Short(id), n.Word(id), want)
			}
		}
	}
}

// Pipe that stays beside a unit that is taken out goes on to what stays: from U2 to the tub, from U1 to the pump.
func TestPipeThatStaysGoesOnToWhatStays(t *testing.T) {
	at := func(part, port string) graph.PortRef { return graph.PortRef{Part: part, Port: port} }
	run := func(id string, from, to graph.PortRef) *graph.Run {
		return &graph.Run{ID: id, From: from, To: to, Existing: true}
	}
	c := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{{ID: "tub", Kind: graph.Tub, Existing: true}, {ID: "p", Kind: graph.Pump, Existing: true, Pump: &graph.PumpData{}},
		{ID: "u1", Kind: graph.Union, Existing: true}, {ID: "u2", Kind: graph.Union, Existing: true}, {ID: "old", Kind: graph.HeatPump, Existing: true, Removed: true}},
		Runs: []*graph.Run{run("in", at("tub", "out"), at("p", graph.In)), run("first", at("p", graph.Out), at("u1", graph.In)), run("gone-1", at("u1", graph.Out), at("old", graph.In)),
			run("gone-2", at("old", graph.Out), at("u2", graph.In)), run("last", at("u2", graph.Out), at("tub", "in"))}}
	net := stream.NewNet(c)
	n := Of(c, net)
	for id, want := range map[string]string{"first": "end towards the pump", "last": "end towards the tub"} {
		if got := n.Towards(net, id); got != want {
			t.Errorf("%s goes on to %q, want %q", id, got, want)
		}
	}
}
