package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"dryfit/cmd/dryfit/disk"
)

// metric finds a number with a metric unit of length, flow, pressure, velocity or
// temperature. Power, current, volts, kWh and kelvins of a heat loss are the same in both
// systems of the trade.
var metric = regexp.MustCompile(`[0-9] ?(mm|m|m3|m3/h|l|l/min|kPa|m/s|°C|K)(\s|[),;:.]|$)`)

// exempt takes out what stands in metric units in any job: the size of metric pipe and hose,
// which is its name; what the user wrote and what he is asked to write, in quotes; and a
// source.
var exempt = []*regexp.Regexp{
	regexp.MustCompile(`"[^"]*"`),
	regexp.MustCompile(`\b(16|20|25|32|38|40|50|63|75|90|110) mm\b`),
	regexp.MustCompile(`[^;(]*(from memory|judgement|common practice)[^;)]*`),
}

// With --units inch no verb prints a quantity in metric units.
func TestInchHoldsNoMetric(t *testing.T) {
	demos, err := filepath.Glob("../../testdata/*.toml")
	if err != nil || len(demos) < 4 {
		t.Fatalf("%d demos, %v", len(demos), err)
	}
	for _, demo := range demos {
		for _, verb := range []string{"check", "cutin", "flow", "parts", "cuts"} {
			name := filepath.Join(t.TempDir(), "out")
			file, err := os.Create(name)
			if err != nil {
				t.Fatal(err)
			}
			w := &world{stdout: &stream{file: file, before: func() {}}, stderr: &progress{to: file}, getenv: func(string) string { return "" }, files: &disk.Files{Stdin: os.Stdin}}
			w.end(run([]string{verb, demo, "--units", "inch"}, w))
			out, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			said := 0
			for _, line := range strings.Split(string(out), "\n") {
				for _, e := range exempt {
					line = e.ReplaceAllString(line, "")
				}
				if m := metric.FindString(line); m != "" && said < 3 {
					said++
					t.Errorf("%s %s: %q in %s", verb, filepath.Base(demo), m, line)
				}
			}
			if len(out) == 0 {
				t.Errorf("%s %s printed nothing", verb, demo)
			}
		}
	}
}
