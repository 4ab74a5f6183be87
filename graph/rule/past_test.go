package rule_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/rule"
)

// withOut is a job of old work of which a part in a line is taken out, pipe of some legs in its place, or,
// where it had been taken out before, only the pipe is changed.
func withOut(t *testing.T, part, from, to, legs string, before bool) string {
	t.Helper()
	var out []string
	for _, block := range allOld(t) {
		if strings.Contains(block, `"`+part+`"`) || strings.Contains(block, `"`+part+".") {
			if before {
				continue
			}
			block += "\nremoved = true"
		}
		out = append(out, block)
	}
	pipe := "[[run]]\nid = \"ID\"\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlegs = [" + legs + "]\n"
	if before {
		out = append(out, strings.Replace(pipe, "ID", "old-pipe", 1)+"existing = true\nremoved = true")
	}
	return strings.Join(append(out, strings.Replace(pipe, "ID", "new-pipe", 1)), "\n\n") + "\n"
}

// What the work takes away from old parts is the work's, and not what was there before: an isolator, the
// spring in the bypass, the union at the unit. What lacked it before still does, and that was so.
func TestWhatTheWorkTakesOut(t *testing.T) {
	for _, c := range []struct{ rule, part, from, to, legs string }{
		{"unit-isolators", "v1", "tee-a.branch", "drain-tee.run-in", `"front 360 mm", "down 300 mm", "front 300 mm"`},
		{"bypass-fits-pump", "spring", "tee-a.run-out", "tee-b.run-in", `"right 340 mm"`},
		{"unit-unions", "union-2", "unit.out", "v2.in", `"back 710 mm", "up 300 mm", "back 150 mm"`},
	} {
		r := rule.ByName(c.rule)
		for _, before := range []bool{false, true} {
			got := toldOf(t, r, withOut(t, c.part, c.from, c.to, c.legs, before))
			want := r.Severity
			if before {
				want = graph.Note
			}
			if len(got) == 0 {
				t.Errorf("%s: nothing found without %s", c.rule, c.part)
			}
			for _, f := range got {
				if f.Severity != want || strings.HasPrefix(f.Message.String(), "was there before: ") != before {
					t.Errorf("%s: without %s, which was missing before: %v: %s: %s", c.rule, c.part, before, f.Severity, f.Message)
				}
			}
		}
	}
}
