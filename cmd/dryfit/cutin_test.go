package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestCutinFindsWhatCheckFinds changes the demo so that what its water does is found too: cutin says each of
// the findings of check, in the same words.
func TestCutinFindsWhatCheckFinds(t *testing.T) {
	t.Parallel()
	demo, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new, rule string }{
		{`output = "12.1 kW", input = "3.0 kW"`, `output = "32 kW", input = "8.0 kW"`, "unit-temperature-rise"},
		{`loss = { flow = "10 m3/h", drop = "6.5 kPa" }`, `loss = { points = [["1 m3/h", "1 kPa"], ["3 m3/h", "2 kPa"]] }`, "flow"},
	} {
		text := strings.Replace(string(demo), c.old, c.new, 1)
		if text == string(demo) {
			t.Fatalf("%q is not in the demo", c.old)
		}
		job := filepath.Join(t.TempDir(), "job.toml")
		if err := os.WriteFile(job, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		check, cutin := commanded(t, "check", job), commanded(t, "cutin", job)
		if !strings.Contains(check.stdout, "["+c.rule+"]") {
			t.Fatalf("check does not find %s:\n%s", c.rule, check.stdout)
		}
		for line := range strings.Lines(check.stdout) {
			if strings.HasPrefix(line, job) && strings.HasSuffix(line, "]\n") && !strings.Contains(cutin.err, line) {
				t.Errorf("cutin does not say %s", line)
			}
		}
	}
}
