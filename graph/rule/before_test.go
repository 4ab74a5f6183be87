package rule_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// respring is the clean job with all of it there before, its unit of some flows and output, and the spring
// in its bypass, of one cracking pressure, changed for one of another: that is all the work.
func respring(t *testing.T, flows, output, was, now string) string {
	t.Helper()
	const old = "\nexisting = true"
	var out []string
	for _, block := range strings.Split(string(read(t, "testdata/clean.toml")), "\n\n") {
		switch {
		case strings.Contains(block, "remains-of"):
			head, rest, _ := strings.Cut(block, "\nremains-of")
			_, legs, _ := strings.Cut(rest, "\nlegs")
			block = head + "\nlegs" + legs
		case strings.Contains(block, "removed = true"):
			continue
		case strings.Contains(block, `"spring`):
			fresh := strings.NewReplacer(`id = "spring`, `id = "new-spring`, `"spring.`, `"new-spring.`, `"bypass-`, `"new-bypass-`, "1 psi", now).Replace(block)
			out = append(out, fresh)
			block = strings.Replace(block, "1 psi", was, 1) + old + "\nremoved = true"
		case strings.HasPrefix(block, "[[") && !strings.Contains(block, `"tub"`) && !strings.Contains(block, "existing"):
			block += old
		}
		out = append(out, block)
	}
	text := strings.Join(out, "\n\n")
	text = swap(t, text, `least = "2.5 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`, flows)
	return swap(t, text, `output = "11 kW"`, fmt.Sprintf("output = %q", output)) + "\n"
}

func swap(t *testing.T, text, old, by string) string {
	t.Helper()
	if strings.Count(text, old) != 1 {
		t.Fatalf("%q stands there %d times", old, strings.Count(text, old))
	}
	return strings.Replace(text, old, by, 1)
}

// What the work does to a unit that was there before is the work's; what was so before is a note that says
// so. The same spring afterwards, and before it one with which the unit kept its limit or that one itself.
func TestWhatTheWorkDoesToAnOldUnit(t *testing.T) {
	const usual = `least = "2.5 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`
	for _, c := range []struct {
		rule, flows, output, kept, now string
	}{
		{"unit-least-flow", usual, "11 kW", "1 psi", "0.1 psi"},
		{"unit-rated-flow", usual, "11 kW", "1 psi", "0.1 psi"},
		{"unit-most-flow", `least = "2.5 m3/h", rated = "3.6 m3/h", most = "5 m3/h"`, "11 kW", "1 psi", "2 psi"},
		{"unit-temperature-rise", usual, "15 kW", "1 psi", "0.5 psi"},
		{"least-flow-when-dirty", `least = "2.75 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`, "11 kW", "1 psi", "0.5 psi"},
	} {
		r := rule.ByName(c.rule)
		for _, was := range []string{c.kept, c.now} {
			d, ds := description.Read("respring.toml", []byte(respring(t, c.flows, c.output, was, c.now)))
			if d == nil {
				t.Fatal(ds)
			}
			p, err := plan.Make(d, plan.Findings|plan.Flows)
			if err != nil {
				t.Fatal(err)
			}
			got := of(r, slices.Concat(p.Findings, p.Following))
			if len(got) == 0 {
				t.Errorf("%s: nothing found of a spring of %s in place of one of %s", c.rule, c.now, was)
			}
			want := r.Severity
			if was == c.now {
				want = graph.Note
			}
			for _, f := range got {
				if old := strings.HasPrefix(f.Message.String(), "was there before: "); old != (was == c.now) || f.Severity != want {
					t.Errorf("%s: a spring of %s in place of one of %s: %s: %s", c.rule, c.now, was, f.Severity, f.Message)
				}
			}
		}
	}
}
