package live

import (
	"os"
	"testing"

	"dryfit/graph/plan"
	"dryfit/graph/whatif"
)

// The page's drawing of an answer, in both systems of units.
func BenchmarkAnswer(b *testing.B) {
	for _, units := range []string{"metric", "inch"} {
		b.Run(units, func(b *testing.B) {
			text, err := os.ReadFile("../../testdata/two-speed.toml")
			if err != nil {
				b.Fatal(err)
			}
			j := whatif.Job{File: "two-speed.toml", Text: text, Units: units}
			p, _ := j.Plan(plan.Flows)
			a, err := whatif.Of(j, p).Ask(whatif.Values{"jets-open": "60"}, plan.Flows|plan.Swift)
			if err != nil {
				b.Fatal(err)
			}
			for b.Loop() {
				AnswerHTML(a, p)
			}
		})
	}
}
