package tag

import (
	"regexp"
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
		{`fit "v1" and write feeds = ["tee-a", "v1"] and at = { x = "v1" } on "tee-a"; tee-a.branch`, "fit " + n.Short("v1") + ` and write feeds = ["tee-a", "v1"] and at = { x = "v1" } on ` + n.Short("tee-a") + "; " + n.Short("tee-a")},
		{"along filter > tee-a > v1", "along " + n.Tag("filter") + " > " + a + " > " + v},
		{"  tee-a: tee 2 in", "  " + a + ": tee 2 in"},
		{`tee "tee-a" runs through ball-valve "v1"`, n.Short("tee-a") + " runs through " + n.Short("v1")}, // which says the kind too
		{`check "v1" lies`, "check " + n.Short("v1") + " lies"},
		{`between "filter" and "to-unit"`, "between " + n.Short("filter") + " and the pipe " + a + " to " + v},
	} {
		if got := n.Text(w.text); got != w.want {
			t.Errorf("%q is %q, want %q", w.text, got, w.want)
		}
	}
	for text, want := range map[string]string{ // who mends the file reads its ids, with the tag of the sheets
		`together "tee-a" and "v1"`:                                   `together "tee-a" (` + a + `) and "v1" (` + v + `)`,
		`the socket "v1.out" is used`:                                 `the socket "v1.out" (` + v + `, outlet) is used`,
		`write size = "2 in" on "v1", not known = "v1"; or shut "v1"`: `write size = "2 in" on "v1" (` + v + `), not known = "v1"; or shut "v1" (` + v + `)`,
	} {
		if got := n.Beside(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
	if got, want := n.Cell("at tee-a.run-in, at v1.in, at tee-a.run-out, at tee-a.branch"), "3 at "+a+" tee, at "+v+" ball valve"; got != want {
		t.Errorf("ends at one part are %q, want %q", got, want)
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

// Two pipes between the same two parts are told apart by the port of the one that is no tee, two
// that differ at a tee alone by that; one alone has no port in its name.
func TestPipesAreToldApart(t *testing.T) {
	run := func(id, from, fp, to, tp string) *graph.Run {
		return &graph.Run{ID: id, From: graph.PortRef{Part: from, Port: fp}, To: graph.PortRef{Part: to, Port: tp}}
	}
	c := &graph.Circuit{Parts: []*graph.Part{{ID: "tub", Kind: graph.Tub}, {ID: "a", Kind: graph.Tee}, {ID: "b", Kind: graph.Tee}, {ID: "p", Kind: graph.Pump, Pump: &graph.PumpData{}}},
		Runs: []*graph.Run{run("one", "tub", "skimmer", "a", "run-in"), run("two", "tub", "footwell", "a", "branch"), run("three", "a", "run-out", "p", "in"),
			run("four", "p", "out", "b", "run-in"), run("five", "b", "run-out", "tub", "near"), run("six", "b", "branch", "tub", "far"),
			run("seven", "a", "run-out", "b", "run-in"), run("eight", "a", "branch", "b", "run-in")}}
	n := Of(c, stream.NewNet(c))
	a, b, p := n.Tag("a"), n.Tag("b"), n.Tag("p")
	for id, want := range map[string]string{
		"one": "tub skimmer to " + a, "two": "tub footwell to " + a, "three": a + " to " + p, "four": p + " to " + b,
		"five": b + " to tub near", "six": b + " to tub far", "seven": a + " run-out to " + b, "eight": a + " branch to " + b,
	} {
		if got := n.Run(id); got != want {
			t.Errorf("run %s is called %q, want %q", id, got, want)
		}
	}
}

// Joints are numbered on every paper as on the sheets; what is no joint's number stays.
func TestJointsAsOnTheSheets(t *testing.T) {
	for text, want := range map[string]string{
		"fit it at joint 12, last":         "fit it at joint J12, last",
		"joints 3, 4 and 17; piece 5":      "joints J3, J4 and J17; piece 5",
		"joints 1 to 5 of 12":              "joints J1 to J5 of 12",
		"joint J7 stays, and 2 joints too": "joint J7 stays, and 2 joints too",
	} {
		if got := Joints(text); got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// A word that could be an id is what the pattern of one finds: letters of any script, stops and arrows
// within, two characters at least.
func TestEachWordIsWhatAnIDMayBe(t *testing.T) {
	pattern := regexp.MustCompile(`[` + id + `][` + id + `.>-]*[` + id + `]`)
	for _, text := range []string{
		"", "a", "ab", "a.b", "a. b", "at tee-1.out>unit.in, and -x- y", "a-.>b.", "Ωμέγα-1 > é, e\u0301a", "a\xffb", "\xff", "12 mm; _x", "x...y-", "…a1…",
	} {
		mark := func(s string) string { return "<" + s + ">" }
		if got, want := eachWord(text, mark), pattern.ReplaceAllStringFunc(text, mark); got != want {
			t.Errorf("%q: %q, and by the pattern %q", text, got, want)
		}
	}
}
