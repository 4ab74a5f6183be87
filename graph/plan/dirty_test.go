package plan_test

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// A place is judged with a dirty filter, too: where the unit then gets too little the place is
// ruled out for that, and is not called possible. The demo's filter is made to clog to twenty
// times its clean loss. Follows from the computation.
func TestEveryPlaceIsJudgedDirty(t *testing.T) {
	c := readFile(t, "../../testdata/two-speed.toml")
	c.OfKind(graph.Filter)[0].Filter.DirtyFactor = 20
	unit := c.Part(c.Retrofit.Unit).Unit
	unit.Least, unit.Rated = 5/3600.0, 5.1/3600 // just met on a clean filter
	c.Retrofit.Cut = nil
	p := work(t, c, plan.Findings|plan.Flows|plan.Places)
	seen := 0
	for _, v := range p.Places {
		for _, r := range v.Reasons {
			if r.Rule == "least-flow-when-dirty" {
				seen++
				if v.Verdict == "possible" || v.Verdict == "possible if" || v.Verdict == "best" {
					t.Errorf("%s is called %s", v.Place.Where(), v.Verdict)
				}
			}
		}
	}
	if seen == 0 {
		t.Error("no place is ruled out for what the unit gets with a dirty filter")
	}
}
