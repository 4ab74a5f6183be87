package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// TestSwappedPortsAreSaidOnce: in and out of any machine written the wrong way round in a
// file is one error that names it, on the suction side too, and nothing that follows from
// it: no place that can take the unit, no loop that does not close. Which part was mixed up
// follows from the text that was changed.
func TestSwappedPortsAreSaidOnce(t *testing.T) {
	for file, parts := range map[string][]string{
		"circulation": {"circ-pump", "filter", "element", "jet-pump"},
		"two-speed":   {"pump", "filter", "element"},
		"plunge-pool": {"pump", "filter"}, // the feeder tells which of the two it is; the unit does not
	} {
		data, err := os.ReadFile("../../testdata/" + file + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		for _, part := range parts {
			text := swappedPorts(t, string(data), part)
			p := work(t, read(t, file+"-"+part+".toml", []byte(text)), 0)
			saidOnce(t, file+", "+part, p, part)
		}
	}

	// The unit of a finished plan, written out and read back.
	planned := work(t, readFile(t, "../../testdata/two-speed.toml"), 0)
	saidOnce(t, "two-speed, unit", work(t, unitSwapped(t, planned.Circuit), 0), "unit")
}

// swappedPorts exchanges the ends "part.in" and "part.out" of the runs.
func swappedPorts(t *testing.T, text, part string) string {
	t.Helper()
	in, out := `"`+part+`.in"`, `"`+part+`.out"`
	lines := strings.Split(text, "\n")
	changed := 0
	for i, l := range lines {
		if !strings.HasPrefix(l, "from =") && !strings.HasPrefix(l, "to =") {
			continue
		}
		switch {
		case strings.Contains(l, in):
			lines[i] = strings.Replace(l, in, out, 1)
			changed++
		case strings.Contains(l, out):
			lines[i] = strings.Replace(l, out, in, 1)
			changed++
		}
	}
	if changed != 2 {
		t.Fatalf("%d ends of %s exchanged, want 2", changed, part)
	}
	return strings.Join(lines, "\n")
}

// unitSwapped returns a circuit whose unit stands the wrong way round.
func unitSwapped(t *testing.T, c *graph.Circuit) *graph.Circuit {
	t.Helper()
	swapped := *c
	swapped.Runs = nil
	other := map[string]string{graph.In: graph.Out, graph.Out: graph.In}
	changed := 0
	for _, r := range c.Runs {
		was := *r
		for _, end := range []*graph.PortRef{&was.From, &was.To} {
			if end.Part == "unit" {
				end.Port = other[end.Port]
				changed++
			}
		}
		swapped.Runs = append(swapped.Runs, &was)
	}
	if changed != 2 {
		t.Fatalf("%d ends of the unit exchanged, want 2", changed)
	}
	swapped.Retrofit = nil
	return &swapped
}

func saidOnce(t *testing.T, where string, p *plan.Plan, part string) {
	t.Helper()
	var errors []string
	for _, d := range p.Findings {
		if d.Severity == graph.Error {
			errors = append(errors, d.Message.String())
		}
	}
	if len(errors) != 1 || !strings.Contains(errors[0], "look swapped") || !strings.Contains(strings.SplitN(errors[0], " look", 2)[0], `"`+part+`"`) {
		t.Errorf("%s: want one error, that in and out of %q look swapped; got %q", where, part, errors)
	}
}

// An old check the wrong way round stops its pump's line: that is one error, and nothing of what
// only follows from it, for the job with nothing else wrong has no error at all.
func TestOldCheckAgainstTheWaterIsSaidOnce(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/imperial.toml")
	if err != nil {
		t.Fatal(err)
	}
	good := work(t, read(t, "imperial.toml", data), plan.Findings|plan.Flows)
	if errs := errorsOf(good.Findings); len(errs) > 0 {
		t.Fatalf("with its check the right way round: %v", errs)
	}
	p := work(t, read(t, "turned.toml", []byte(swappedPorts(t, string(data), "check"))), plan.Findings|plan.Flows)
	errs := 0
	for _, d := range p.Findings {
		switch {
		case d.Severity == graph.Error && d.Rule == "check-arrow":
			errs++
		case d.Severity == graph.Error || d.Rule == "flow" && d.Severity > graph.Note:
			t.Errorf("follows from the check: %s [%s]", d.Message, d.Rule)
		}
	}
	if errs != 1 {
		t.Errorf("the check is told %d times", errs)
	}
}
