package practice

import (
	"strings"
	"testing"
)

// A circuit of its own is said to be there only where the description has it; where it is silent
// one is wanted, and what is described otherwise is told as it is. That a fixed unit wants a circuit
// of its own: common practice, no source.
func TestCircuitsAsDescribed(t *testing.T) {
	own := Fed{Said: true, Way: "own-circuit", RatingA: 16}
	for _, c := range []struct {
		name  string
		fed   []Fed // of HP1, HP2
		has   bool  // something is said to have a circuit of its own
		wants []string
	}{
		{"silent", []Fed{{}}, false, []string{"The unit wants a circuit of its own from the distribution board. Never"}},
		{"a supply, not how", []Fed{{Said: true, RatingA: 16}}, false, []string{"The unit wants a circuit of its own"}},
		{"own", []Fed{own}, true, []string{"The unit has a circuit of its own from the distribution board, as described."}},
		{"spur", []Fed{{Said: true, Way: "fused-spur", RatingA: 13}}, false, []string{"As described, the unit hangs on a fused spur of 13 A. A unit wants a circuit of its own"}},
		{"own circuit shared", []Fed{{Said: true, Way: "own-circuit", RatingA: 32, Sharers: []string{"HP2", "P1"}}, {Said: true, Way: "own-circuit", RatingA: 32, Sharers: []string{"HP1", "P1"}}}, false,
			[]string{"As described, HP1, HP2 and P1 hang on one circuit of 32 A. A unit wants"}},
		{"one each way", []Fed{own, {Said: true, Way: "plug", Sharers: []string{"P1"}}}, true, []string{"HP1 has a circuit of its own", "As described, HP2 and P1 hang on one plug."}},
	} {
		j := &Job{Unit: &Unit{ID: "HP1", Fed: c.fed[0]}}
		if len(c.fed) > 1 {
			j.Fellows = []Unit{{ID: "HP2", Fed: c.fed[1]}}
		}
		text := j.circuits().String()
		for _, want := range c.wants {
			if !strings.Contains(text, want) {
				t.Errorf("%s: nothing of %q in: %s", c.name, want, text)
			}
		}
		if strings.Contains(text, "has a circuit of its own") != c.has {
			t.Errorf("%s: a circuit of its own said to be there: %v", c.name, !c.has)
		}
		if strings.Count(text, "hang") > 1 {
			t.Errorf("%s: one circuit told twice: %s", c.name, text)
		}
		caution := Pick(j, Cautions())[0].Text.String()
		if strings.Contains(caution, "has a circuit") != j.ownCircuits() {
			t.Errorf("%s: %s", c.name, caution)
		}
	}
}
