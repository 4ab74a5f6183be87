package plan_test

import (
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
)

// Where a unit is taken out of a line whose water goes too fast, nobody is told to take the piece that closes it a
// size larger than the pipe on both sides of it (common practice, no source).
func TestOnePieceOfALineIsNoSizeLarger(t *testing.T) {
	p := work(t, readFile(t, "testdata/jobs/unit-out.toml"), plan.Findings|plan.Flows)
	told := 0
	for _, d := range p.Findings {
		if d.Rule == "velocity" {
			told++
			if hint := d.Hint.In(quantity.MetricSystem); !strings.Contains(hint, "all of that line") {
				t.Errorf("%s: %s", d.Message, hint)
			}
		}
	}
	if told == 0 {
		t.Error("no water goes too fast")
	}
}
