package rule_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/rule"
	"dryfit/graph/stream"
)

const sideBySide = "testdata/unit-least-flow/fail-side-by-side.toml"

// says reports whether a rule says something with the words in it of a description.
func says(t *testing.T, name, text, words string) bool {
	t.Helper()
	return slices.ContainsFunc(found(t, "feeds.toml", []byte(text), 0), func(d graph.Diagnostic) bool {
		return d.Rule == name && strings.Contains(d.Message.String(), words)
	})
}

// Of two pumps that feed the unit one that runs by itself is enough to keep the water moving when the controller has
// reached its set point, whichever is nearer. Follows from the circuit.
func TestOnePumpThatRunsByItselfIsEnough(t *testing.T) {
	text := swap(t, string(read(t, sideBySide)), "disconnected = false\ninterlock = \"changeover\"\n", "disconnected = true\nset-point = \"102 °F\"\n")
	if says(t, "set-points-agree", text, "it stops calling") {
		t.Error("pa runs by the hours, and the controller is said to stop it")
	}
	if !says(t, "set-points-agree", swap(t, text, "runs-for-heat = \"hours\"\n", ""), "it stops calling") {
		t.Error("neither runs by itself, and nothing is said")
	}
}

// The nearer pump has a way to the tub of its own; the other has none while the isolators and the bypass are shut.
func TestEachPumpNeedsAWayRound(t *testing.T) {
	text := swap(t, string(read(t, sideBySide)), `position = "40 %"`, `position = "shut"`)
	text = swap(t, text, `ports = ["a", "b", "ret"]`, `ports = ["a", "b", "ret", "own"]`)
	text = swap(t, text, "from = \"pb.out\"\nto = \"cb.in\"\nexisting = true\nlength = \"14 in\"\n", `from = "pb.out"
to = "parts.run-in"
existing = true
length = "7 in"
[[run]]
from = "parts.run-out"
to = "cb.in"
existing = true
length = "7 in"
[[run]]
from = "parts.branch"
to = "tub.own"
existing = true
length = "3 ft"
[[part]]
id = "parts"
kind = "tee"
existing = true
`)
	if !says(t, "way-round-when-isolated", text, `shut pump "pa" has no way to the tub: "by"`) {
		t.Error("pa is shut in, and nothing is said")
	}
}

// What two pumps beside each other give the line is their sum, and what goes back through the one that stands comes
// off; what pumps in series give is what passes the first, or the last where that draws beside it. By hand.
func TestLineFlow(t *testing.T) {
	beside := string(read(t, sideBySide))
	series := swap(t, swap(t, beside, "from = \"pa.out\"\nto = \"ca.in\"", "from = \"pa.out\"\nto = \"pb.in\""), "from = \"t2.branch\"\nto = \"pb.in\"", "from = \"t2.branch\"\nto = \"ca.in\"")
	for _, c := range []struct {
		text         string
		pa, pb, want float64
		most         string
	}{{beside, 10, 2, 12, "pa"}, {beside, 13.8, -12.2, 1.6, "pa"}, {beside, -3, 5, 2, "pb"}, {series, 9, 9, 9, "pb"}, {series, 9, 4, 9, "pa"}, {series, 4, 9, 9, "pb"}} {
		read, ds := description.Read("feeds.toml", []byte(c.text))
		if read == nil {
			t.Fatal(ds)
		}
		net := stream.NewNet(read)
		b, _ := net.UnitBranch(read.Part("unit"))
		if len(b.Feeds()) != 2 {
			t.Fatalf("%d pumps feed the unit, want 2", len(b.Feeds()))
		}
		s := &hydraulic.Solution{Parts: []hydraulic.PartFlow{{Part: read.Part("pa"), Flow: c.pa}, {Part: read.Part("pb"), Flow: c.pb}}}
		if pump, got := rule.LineFlow(net, s, b); !agree.Within(got, c.want, 1e-9) || pump.ID != c.most {
			t.Errorf("%g and %g: %g, most by %s; want %g by %s", c.pa, c.pb, got, pump.ID, c.want, c.most)
		}
	}
}
