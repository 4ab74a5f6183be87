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

// allOld is the clean job with all of it there before the work.
func allOld(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, block := range strings.Split(strings.TrimRight(string(read(t, "testdata/clean.toml")), "\n"), "\n\n") {
		switch {
		case strings.Contains(block, "remains-of"):
			head, rest, _ := strings.Cut(block, "\nremains-of")
			_, legs, _ := strings.Cut(rest, "\nlegs")
			block = head + "\nlegs" + legs
		case strings.Contains(block, "removed = true"):
			continue
		case strings.HasPrefix(block, "[[") && !strings.Contains(block, `"tub"`) && !strings.Contains(block, "existing"):
			block += "\nexisting = true"
		}
		out = append(out, block)
	}
	return out
}

// respring is that job, its unit of some flows and output, and the spring in its bypass, of one cracking
// pressure, changed for one of another: that is all the work.
func respring(t *testing.T, flows, output, was, now string) string {
	t.Helper()
	var out []string
	for _, block := range allOld(t) {
		if strings.Contains(block, `"spring`) {
			fresh := strings.NewReplacer(`id = "spring`, `id = "new-spring`, `"spring.`, `"new-spring.`, `"bypass-`, `"new-bypass-`, "1 psi", now, "\nexisting = true", "").Replace(block)
			out = append(out, fresh)
			block = strings.Replace(block, "1 psi", was, 1) + "\nremoved = true"
		}
		out = append(out, block)
	}
	text := strings.Join(out, "\n\n")
	text = swap(t, text, `least = "2.5 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`, flows)
	return swap(t, text, `output = "11 kW"`, fmt.Sprintf("output = %q", output)) + "\n"
}

// revalve is that job with a valve in its line to the jets that is changed for another, each as far open
// as said: that is all the work. In more stand pairs of what is written otherwise.
func revalve(t *testing.T, was, now string, more ...string) string {
	t.Helper()
	var out []string
	for _, block := range allOld(t) {
		if !strings.Contains(block, `id = "return-b"`) {
			out = append(out, block)
			continue
		}
		for _, v := range []struct{ id, at, stage string }{{"old-valve", was, "existing = true\nremoved = true"}, {"new-valve", now, ""}} {
			out = append(out, fmt.Sprintf("[[part]]\nid = %q\nkind = \"ball-valve\"\nlength = \"60 mm\"\nposition = %q\n%s", v.id, v.at, v.stage),
				fmt.Sprintf("[[run]]\nid = \"to-%s\"\nfrom = \"tee-b.run-out\"\nto = \"%[1]s.in\"\nlegs = [\"right 250 mm\"]\n%s", v.id, v.stage),
				fmt.Sprintf("[[run]]\nid = \"from-%s\"\nfrom = \"%[1]s.out\"\nto = \"jets.in\"\nlegs = [\"right 190 mm\", \"up 200 mm\"]\n%s", v.id, v.stage))
		}
	}
	text := strings.Join(out, "\n\n") + "\n"
	for i := 0; i < len(more); i += 2 {
		text = swap(t, text, more[i], more[i+1])
	}
	return text
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

// toldOf are the findings of a rule of a job, and what only follows from others too.
func toldOf(t *testing.T, r *rule.Rule, text string) []graph.Diagnostic {
	t.Helper()
	d, ds := description.Read("old.toml", []byte(text))
	if d == nil {
		t.Fatal(ds)
	}
	p, err := plan.Make(d, plan.Findings|plan.Flows)
	if err != nil {
		t.Fatal(err)
	}
	return of(r, slices.Concat(p.Findings, p.Following))
}

// A valve in the line, changed for one that stands otherwise, does to what is there what no old part
// does by itself: of that the rules speak as of new work. With one that stands as the old one stood they
// say that it was there before.
func TestWhatAValveInTheLineDoesToOldParts(t *testing.T) {
	const flows, filter, highest = `least = "2.5 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`, "loss = { flow = \"10 m3/h\", drop = \"6 kPa\" }", `highest-pressure = "3.5 bar"`
	for _, c := range []struct {
		rule, kept, now string
		more            []string
	}{
		{"line-least-flow", "100 %", "30 %", []string{filter, filter + "\nleast-flow = \"4.5 m3/h\""}},
		{"working-pressure", "100 %", "15 %", []string{highest, `highest-pressure = "0.9 bar"`}},
		{"velocity", "15 %", "100 %", []string{`size = "2 in"`, `size = "1 1/2 in"`, `measured-outside-diameter = "60.3 mm"`, `measured-outside-diameter = "48.3 mm"`}},
		{"spring-not-too-weak", "20 %", "100 %", []string{flows, `least = "2.5 m3/h", rated = "7.9 m3/h", most = "8 m3/h"`}},
		{"spring-not-too-strong", "15 %", "100 %", []string{flows, `least = "2.5 m3/h", rated = "2.8 m3/h", most = "4 m3/h"`, `"1 psi"`, `"6 psi"`}},
		{"heater-line-flows", "100 %", "0 %", nil},
		{"flow-past-check", "100 %", "20 %", []string{filter, filter + "\nleast-flow = \"2.5 m3/h\""}},
		{"unit-least-flow", "100 %", "20 %", nil},
	} {
		r := rule.ByName(c.rule)
		for _, was := range []string{c.kept, c.now} {
			got := slices.DeleteFunc(toldOf(t, r, revalve(t, was, c.now, c.more...)), func(d graph.Diagnostic) bool {
				return strings.Contains(d.Message.String(), "run \"to-new-valve") || strings.Contains(d.Message.String(), "run \"from-new-valve")
			})
			if silent := c.rule == "velocity" && was == c.now; (len(got) == 0) != silent { // as fast as it was, in old pipe
				t.Errorf("%s: %d found of a valve at %s in place of one at %s", c.rule, len(got), c.now, was)
			}
			want := r.Severity
			if was == c.now {
				want = graph.Note
			}
			for _, f := range got {
				if old := strings.HasPrefix(f.Message.String(), "was there before: "); old != (was == c.now) || f.Severity != want {
					t.Errorf("%s: a valve at %s in place of one at %s: %s: %s", c.rule, c.now, was, f.Severity, f.Message)
				}
			}
		}
	}
}

// What was bad before and gets worse by more than is noticed is the work's, and what it was is said; what
// hardly changes, or gets better, was there before.
func TestWhatWasBadAndGetsWorse(t *testing.T) {
	const flows = `least = "2.5 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`
	r := rule.ByName("unit-least-flow")
	for _, c := range []struct {
		was, now string
		want     graph.Severity
	}{{"30 %", "18 %", graph.Error}, {"30 %", "30 %", graph.Note}, {"18 %", "30 %", graph.Note}} {
		got := toldOf(t, r, revalve(t, c.was, c.now, flows, `least = "3.4 m3/h", rated = "3.6 m3/h", most = "8 m3/h"`))
		if len(got) == 0 {
			t.Fatalf("nothing found of a valve at %s", c.now)
		}
		for _, f := range got {
			if f.Mode == "low" && (f.Severity != c.want || strings.Contains(f.Message.String(), "before the work it gets") == (c.was == c.now)) {
				t.Errorf("%s to %s: %s: %s", c.was, c.now, f.Severity, f.Message)
			}
		}
	}
}

// A filter that is changed for one which clogs more starves an old unit with its dirt: the work's, though
// clean it lets the same water through. One that clogged as much before was there before.
func TestWhatAnotherFilterDoesToAnOldUnit(t *testing.T) {
	r := rule.ByName("least-flow-when-dirty")
	for _, was := range []string{"1", "9"} {
		var out []string
		for _, block := range allOld(t) {
			if strings.Contains(block, `"filter"`) || strings.Contains(block, `"filter.`) {
				fresh := strings.NewReplacer(`id = "filter`, `id = "new-filter`, `id = "discharge`, `id = "new-discharge`, `"filter.`, `"new-filter.`, "\nexisting = true", "").Replace(block)
				if strings.Contains(block, "loss") {
					fresh += "\ndirty-factor = 9"
					block += "\ndirty-factor = " + was
				}
				out = append(out, fresh)
				block += "\nremoved = true"
			}
			out = append(out, block)
		}
		text := swap(t, strings.Join(out, "\n\n")+"\n", `least = "2.5 m3/h"`, `least = "3.3 m3/h"`)
		got := toldOf(t, r, text)
		if len(got) == 0 {
			t.Errorf("nothing found of a filter with a factor of %s before", was)
		}
		for _, f := range got {
			if old := strings.HasPrefix(f.Message.String(), "was there before: "); old != (was == "9") {
				t.Errorf("with a factor of %s before: %s: %s", was, f.Severity, f.Message)
			}
		}
	}
}
