package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// A pump that runs past its curve is named at its own line, though another stands first, and what
// helps is to be written there: with the points its sheet has beyond, it is gone.
func TestACurveThatEndsTooSoonIsToldAtItsPump(t *testing.T) {
	whole := demo(t, "circulation")
	short := put(whole, `["10 m3/h", "12 m"], ["18 m3/h", "8 m"], ["25 m3/h", "2.5 m"]]`, `["6 m3/h", "13 m"]]`)
	told := func(text string) (out []graph.Diagnostic) {
		p := work(t, read(t, "circulation.toml", []byte(text)), plan.Findings|plan.Flows)
		for _, d := range p.Findings {
			if strings.Contains(d.Message.String(), "past the last point of its curve") && d.Rule == "flow" {
				out = append(out, d)
			}
		}
		return out
	}
	found := told(short)
	if len(found) == 0 {
		t.Fatal("a curve that ends at 6 m3/h is not told")
	}
	lines := strings.Split(short, "\n")
	for _, d := range found {
		if line := lines[d.Pos.Line]; line != `id = "jet-pump"` {
			t.Errorf("told at line %d, of %s", d.Pos.Line, line)
		}
		if !strings.Contains(d.Hint.String(), `write more points of the curve of "jet-pump"`) {
			t.Errorf("the hint is %q", d.Hint)
		}
	}
	if left := told(whole); len(left) > 0 {
		t.Errorf("with more of the curve: %v", left)
	}
}
