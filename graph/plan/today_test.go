package plan

import (
	"os"
	"testing"

	"dryfit/graph/description"
)

// The search for a place lays out what stands today; the plan takes that stage over and does
// not lay the same pipes again, and what was found while solving is reported once.
func TestTodayIsLaidOutOnce(t *testing.T) {
	for _, demo := range []string{"two-speed", "plunge-pool", "circulation"} {
		data, err := os.ReadFile("../../testdata/" + demo + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(demo, data)
		if c == nil {
			t.Fatal(ds)
		}
		p, err := Make(c, Findings|Flows)
		if err != nil {
			t.Fatal(err)
		}
		if p.Before == nil || p.Before != p.searched {
			t.Errorf("%s: what stands today was laid out a second time", demo)
		}
		said := map[string]int{}
		for _, d := range p.Findings {
			key := d.Pos.String() + d.Rule + string(d.Message)
			if said[key]++; said[key] > 1 {
				t.Errorf("%s: said twice: %s %s", demo, d.Rule, d.Message)
			}
		}
	}
}
