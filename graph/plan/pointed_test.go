package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// What is found of the new work is told at the key of [retrofit] that says it, and at the table
// where none does.
func TestFindingsPointAtTheirKeys(t *testing.T) {
	two := text(t, "../../testdata/two-speed.toml")
	for _, c := range []struct{ text, rule, says, line string }{
		{two, "bypass-serviceable", `check "bypass"`, "bypass = "},
		{two, "tolerance", "may be off", "cut = "},
		{two, "pipe-falls", "runs level", "to-unit "},
		{two, "support-spacing", "without a bend", "to-unit "},
		{put(put(two, "cut = \"return-line\"", ""), "bypass = \"auto\"", ""), "bypass-serviceable", `check "bypass"`, "[retrofit]"},
		{put(two, "bypass = \"auto\"", "spring = \"2 psi\""), "bypass-serviceable", `check "bypass"`, "spring = "},
	} {
		p := work(t, read(t, "two-speed.toml", []byte(c.text)), plan.Findings)
		found := false
		for _, d := range p.Findings {
			if d.Rule != c.rule || !strings.Contains(d.Message.String(), c.says) {
				continue
			}
			found = true
			if got := lineOf(c.text, d.Pos.Line); !strings.HasPrefix(strings.TrimSpace(got), c.line) {
				t.Errorf("%s (%s) points at %q, want the line of %q", c.rule, d.Message, got, c.line)
			}
		}
		if !found {
			t.Errorf("nobody says %q [%s]: %v", c.says, c.rule, p.Findings)
		}
	}
}
