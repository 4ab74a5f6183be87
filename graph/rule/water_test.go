package rule_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// What the pipes of another water would lose more or less, friction by the fourth root of the viscosity
// (Blasius, from memory): of 1.3065, 1.0034, 0.8927 and 0.6827 mm²/s at 10, 20, 25 and 38 °C (IAPWS) the
// fourth roots of 1.3065/0.6827, 1.3065/0.8927 and 0.6827/1.0034 are 1.176, 1.100 and 0.908. A tub kept
// hot is set against a cold plunge, cold water against a hot tub, the nearer of the two never.
func TestHintOfAnotherWater(t *testing.T) {
	const file = "testdata/one-water-described/fail.patch"
	text := string(read(t, file))
	for kept, want := range map[string]string{
		"38 °C": `were "plunge" kept at 10 °C its pipes would lose some 18 % more`,
		"25 °C": `were "plunge" kept at 10 °C its pipes would lose some 10 % more`,
		"20 °C": `were "plunge" kept at 38 °C its pipes would lose some 9 % less`,
	} {
		c, ds := description.Read(file, []byte(strings.Replace(text, `temperature = "38 °C"`, `temperature = "`+kept+`"`, 1)))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, d := range p.Findings {
			if d.Rule == "one-water-described" {
				said += d.Hint.In(0)
				if d.Severity != graph.Note || !strings.Contains(d.Message.In(0), kept) {
					t.Errorf("%s: %v: %s", kept, d.Severity, d.Message)
				}
			}
		}
		if !strings.Contains(said, want) {
			t.Errorf("%s: %q, want %q", kept, said, want)
		}
	}
}
