package rule_test

import (
	"path/filepath"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// TestCleanJob demands that a small good job, drawn in full, gets no finding of any rule, not
// even a note. The failing descriptions are this one with a small change.
func TestCleanJob(t *testing.T) {
	for _, d := range findings(t, filepath.Join("testdata", "clean.toml")) {
		if d.Severity > graph.Note || rule.ByName(d.Rule) != nil {
			t.Errorf("%s: unwanted %s: %s [%s]", d.Pos, d.Severity, d.Message, d.Rule)
		}
	}
}

// TestOldWorkGetsOneNote turns the new work of every failing description into work that was
// there before: each rule may then say one thing, as a note.
func TestOldWorkGetsOneNote(t *testing.T) {
	for _, r := range rule.All() {
		file := cases(t, r, "fail")[0]
		c, _ := description.Read(file, read(t, file))
		if c == nil || c.Retrofit != nil || r.Name == "water-not-above-40" || r.Name == "measured-diameter-fits-spec" || r.Name == "ports-not-swapped" || r.Name == "one-price-at-a-time" {
			continue // the cut is new work; the water, a reading, a mix-up in writing and a tariff are no work at all
		}
		for _, p := range c.Parts {
			p.Existing = true
		}
		c.Runs = slices.DeleteFunc(c.Runs, func(r *graph.Run) bool { return r.Removed })
		for _, run := range c.Runs {
			run.Existing, run.RemainsOf = true, ""
		}
		p, err := plan.Make(c, plan.Findings|plan.Flows)
		if err != nil {
			t.Fatal(err)
		}
		got := of(r, slices.Concat(p.Findings, p.Following))
		if len(got) > 1 || len(got) == 1 && got[0].Severity != graph.Note {
			t.Errorf("%s: old work gets %d findings, the first a %s: %s", file, len(got), got[0].Severity, got[0].Message)
		}
	}
}
