package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph/plan"
)

// A valve in the bypass of a one-speed pump is set so that the unit keeps its least flow with a
// dirty filter and half of the jets turned down, and not more open than its rated flow asks
// for. The job is one whose rated flow leaves too little for that day. Held against the flow
// rules, which know nothing of how the valve was set; that a unit's flow has to last until the
// filter is cleaned is common practice, no source.
func TestThrottleLeavesRoomForADirtyFilter(t *testing.T) {
	was := text(t, "testdata/jobs/one-speed.toml")
	for _, c := range []struct {
		name, least, most string
		above             bool // the rated flow: the bad day decides
		rule              string
	}{
		{name: "the bad day decides", least: "2 m3/h", most: "6 m3/h", above: true},
		{name: "the rated flow decides", least: "1 m3/h", most: "6 m3/h"},
		{name: "no room below the most", least: "2 m3/h", most: "3.1 m3/h", rule: "least-flow-when-dirty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			now := put(was, `least = "2 m3/h"`, `least = "`+c.least+`"`)
			now = put(now, `most = "6 m3/h"`, `most = "`+c.most+`"`)
			p := work(t, read(t, "one-speed.toml", []byte(now)), plan.Findings|plan.Flows|plan.Advice|plan.Places)
			got := 0.0
			for i := range p.After.Solutions {
				got = p.After.Solutions[i].Part("unit").Flow * 3600
			}
			if got < 3 || c.above && got < 3.02 || !c.above && got > 3.02 {
				t.Errorf("the unit gets %.3f m3/h", got)
			}
			found := ""
			for _, d := range p.Findings {
				if strings.Contains(d.Rule, "-flow") {
					found += d.Rule
				}
			}
			if found != c.rule {
				t.Errorf("findings of the flow %q, want %q", found, c.rule)
			}
			if p.Advice.Best < 0 { // what keeps it on a clean filter alone is not advised
				if c.rule == "" {
					t.Error("nothing is advised")
				}
				return
			}
			if best := p.Advice.Choices[p.Advice.Best]; best.Kv != p.Proposal.Choice.ThrottleKv {
				t.Errorf("built with Kv %.2f, advised %.2f", p.Proposal.Choice.ThrottleKv, best.Kv)
			}
		})
	}
}
