package plan_test

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// Of a jet pump on a circuit of its own nothing is known but its type: that moves the jets' flow by
// far more than a tenth, but the work does not meet their water and leaves it as it is. So it is no
// warning and nothing to measure first; in the list of what was used it stands with all it moves.
func TestAPumpTheWorkDoesNotMeetIsNotMeasuredFirst(t *testing.T) {
	text := put(demo(t, "circulation"), `curve = [["0 m3/h", "14 m"], ["10 m3/h", "12 m"], ["18 m3/h", "8 m"], ["25 m3/h", "2.5 m"]]`, `type = "jet-pump"`)
	p := work(t, read(t, "circulation.toml", []byte(text)), plan.Findings|plan.Flows|plan.Ranges)
	moved := 0.0
	for _, f := range p.Ranges.Moves {
		if f.Part == "jet-pump" {
			moved = math.Max(moved, f.Jets)
		}
	}
	if moved < 0.1 {
		t.Fatalf("the jet pump moves the jets' flow by %.0f %%: nothing is tested", 100*moved)
	}
	for _, f := range p.Ranges.MeasureFirst {
		if f.Part == "jet-pump" || f.Part == "jets" {
			t.Errorf("%s is to be measured first", f.Said())
		}
	}
	for _, d := range p.Findings {
		if d.Rule == "guess" && strings.Contains(d.Message.String(), "jet") {
			t.Error(d.Message)
		}
	}
}
