package tag

import (
	"testing"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// Names for ids, in the forms in which texts hold them; what the description is to say, and the
// trade's own words, stay.
func TestPaperNames(t *testing.T) {
	at := func(part, port string) graph.PortRef { return graph.PortRef{Part: part, Port: port} }
	c := &graph.Circuit{Catalog: catalog.Embedded(), Parts: []*graph.Part{{ID: "tub", Kind: graph.Tub, Existing: true}, {ID: "filter", Kind: graph.Filter, Existing: true},
		{ID: "tee-a", Kind: graph.Tee}, {ID: "v1", Kind: graph.BallValve}, {ID: "tee", Kind: graph.Tee}},
		Runs: []*graph.Run{{ID: "line", From: at("filter", "out"), To: at("tee-a", "run-in"), Existing: true},
			{ID: "to-unit", From: at("tee-a", "branch"), To: at("v1", "in")}}}
	n := Of(c, stream.NewNet(c))
	a, v := n.Tag("tee-a"), n.Tag("v1")
	for _, w := range []struct{ text, want string }{
		{"piece 4 into v1.in", "piece 4 into " + v + " ball valve"},
		{"elbow-90 at bend 2 of to-unit", "90° elbow at bend 2 of the pipe " + a + " to " + v},
		{"elbow-90 at bend 1 (28 mm)", "90° elbow (28 mm)"},
		{"bend 1 of line", "bend 1 of the pipe " + n.Tag("filter") + " to " + a},
		{"bush at tee-a.branch (28 mm)", "bush at " + a + " (28 mm)"},
		{"clean the filter, then v1.", "clean the filter, then " + v + "."},
		{`cut = { run = "line", leg = 3 }`, `cut = { run = "line", leg = 3 }`},
		{"along filter > tee-a > v1", "along " + n.Tag("filter") + " > " + a + " > " + v},
		{"  tee-a: tee 2 in", "  " + a + ": tee 2 in"},
		{`between "filter" and "to-unit"`, "between " + n.Short("filter") + " and the pipe " + a + " to " + v},
	} {
		if got := n.Text(w.text); got != w.want {
			t.Errorf("%q is %q, want %q", w.text, got, w.want)
		}
	}
	if got, want := n.Cell("tee-a, v1"), a+", "+v; got != want {
		t.Errorf("a list is %q, want %q", got, want)
	}
	if got, want := n.Cell("line"), n.Tag("filter")+" to "+a; got != want {
		t.Errorf("a run is %q, want %q", got, want)
	}
	if got, want := n.Side("old pipe of line", "line"), "old pipe, end towards the filter"; got != want {
		t.Errorf("old pipe is %q, want %q", got, want)
	}
}
