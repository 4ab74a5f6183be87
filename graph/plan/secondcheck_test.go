package plan_test

import (
	"os"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// A second unit on a line with a feeder after it gets a check of its own where none that is there keeps
// the chemical from it: behind the first unit's own, which leaves its pipe unguarded; not where its tee
// comes before that, nor where a check in the line guards both. The rule asks for no more then.
func TestSecondUnitIsKeptFromTheFeeder(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/second-unit.toml")
	if err != nil {
		t.Fatal(err)
	}
	part := func(id, kind string) string {
		return "\n[[part]]\nid = \"" + id + "\"\nkind = \"" + kind + "\"\nexisting = true\n"
	}
	check := part("old-check", "check-valve") + "style = \"swing\"\n"
	feeder := []string{
		`from = "tee-b.run-out"
to = "tub.return"
existing = true
legs = ["right 1500 mm"]`, `from = "tee-b.run-out"
to = "feeder.in"
existing = true
legs = ["right 1000 mm"]

[[run]]
from = "feeder.out"
to = "tub.return"
existing = true
legs = ["right 350 mm"]
` + part("feeder", "feeder") + "length = \"150 mm\"\n"}
	const from = `from = "union-2.out"
to = "v2.in"
existing = true
play = "80 mm"
pushes-aside = true
legs = ["right 1900 mm", "back 400 mm"]`
	const tee = `from = "tee-b.run-out"
to = "feeder.in"
existing = true
legs = ["right 1000 mm"]`
	for _, c := range []struct {
		name     string
		old, now string
		own      bool
	}{
		{"no check", from, from, true},
		{"behind the first's", from, `from = "union-2.out"
to = "old-check.in"
existing = true
legs = ["right 200 mm"]

[[run]]
id = "behind"
from = "old-check.out"
to = "v2.in"
existing = true
play = "80 mm"
pushes-aside = true
legs = ["right 1500 mm", "back 400 mm"]
` + check, true},
		{"before the first's", from, `from = "union-2.out"
to = "old-check.in"
existing = true
play = "80 mm"
pushes-aside = true
legs = ["right 1900 mm", "back 250 mm"]

[[run]]
from = "old-check.out"
to = "v2.in"
existing = true
legs = ["back 100 mm"]
` + check, false},
		{"in the line", tee, `from = "tee-b.run-out"
to = "old-check.in"
existing = true
legs = ["right 700 mm"]

[[run]]
from = "old-check.out"
to = "feeder.in"
existing = true
legs = ["right 150 mm"]
` + check, false},
	} {
		text := replaced(t, string(data), append(feeder[:2:2], c.old, c.now))
		p := work(t, read(t, "second.toml", []byte(text)), plan.Findings)
		if p.Proposal == nil || p.Proposal.Choice.Bypass != "parallel" {
			t.Fatalf("%s: not in parallel: %v", c.name, p.Findings)
		}
		net := p.After.Layout.Stage.Net()
		own := false
		for _, v := range p.After.Circuit.OfKind(graph.CheckValve) {
			own = own || v.New() && net.HoldsBack(v)
		}
		if own != c.own {
			t.Errorf("%s: a check of its own: %v, want %v", c.name, own, c.own)
		}
		for _, d := range p.Findings {
			if d.Rule == "check-before-feeder" && d.Severity == graph.Error {
				t.Errorf("%s: %s", c.name, d.Message)
			}
		}
	}
}
