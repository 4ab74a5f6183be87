package plan_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// A unit on the line of two pumps side by side that asks for more than either gives: a circulation pump of its
// own for it is worked out by itself, not in the modes of the pump beside it as it stands.
func TestOwnPumpIsWorkedOutAlone(t *testing.T) {
	data, err := os.ReadFile("testdata/jobs/pumps-side-by-side.toml")
	if err != nil {
		t.Fatal(err)
	}
	data = bytes.Replace(data, []byte(`flow = { least = "13 gpm", rated = "20 gpm", most = "40 gpm" }`), []byte(`flow = { least = "85 gpm", rated = "90 gpm", most = "99 gpm" }`), 1)
	p := work(t, read(t, "spa.toml", data), plan.Findings|plan.Flows|plan.Advice)
	own := 0
	for _, r := range p.Advice.Remedies {
		if strings.HasPrefix(string(r.What), "a circulation pump of its own") {
			if own++; strings.Contains(string(r.Effect), "pb") {
				t.Errorf("%s: %s", r.What, r.Effect)
			}
		}
	}
	if own == 0 {
		t.Errorf("no such pump is worked out: %+v", p.Advice)
	}
}
