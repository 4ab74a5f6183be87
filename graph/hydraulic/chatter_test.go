package hydraulic

import (
	"testing"

	"dryfit/graph"
)

// A spring of 10 kPa chatters between 9 and 11 kPa across it (a tenth: common practice).
func TestChatters(t *testing.T) {
	for _, c := range []struct {
		state        string
		drop, margin float64
		want         bool
	}{
		{"shut", 8900, 1100, false}, {"shut", 9100, 900, true}, {"lifting", 10900, 900, true}, {"lifting", 11100, 1100, false},
		{"open", 50, 50, false}, {"shut", 0, 10000, false}, {"shut", 9050, 950, true}, {"lifting", 10950, 950, true},
	} {
		f := PartFlow{Part: &graph.Part{Kind: graph.CheckValve}, State: c.state, Drop: c.drop, MarginPa: c.margin}
		if got := f.Chatters(); got != c.want {
			t.Errorf("%+v chatters: %v", c, got)
		}
	}
}
