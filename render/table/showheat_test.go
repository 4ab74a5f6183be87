package table

import (
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"dryfit/graph/heat/job"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
)

// What heat lists as assumed stands in show, with the same number: as a settled value of its part, or
// beside those. Of every demo. Checked against nothing but itself: a property.
func TestHeatsAssumptionsAreShown(t *testing.T) {
	cases := 0
	for _, name := range demos {
		p := demo(t, name)
		values := ShownOf([]*settle.Stage{p.After.Layout.Stage}, "")
		shown := ShownOfHeat(p.HeatAccount(job.Ask{}).Noted(), "")
		for _, a := range plan.HeatOf(p, job.Ask{}).Assumed {
			if a.Adds && a.Value == 0 {
				continue
			}
			cases++
			in := shown
			if a.Settled {
				in = values
			}
			i := slices.IndexFunc(in, func(v Shown) bool {
				what := quantity.Text(v.What).String()
				return what == a.What.String() && !a.Settled || a.Settled && v.How != settle.Given && strings.Contains(a.What.String(), v.Of) && agree.Within(v.V, a.Value, 1e-9)
			})
			if i < 0 || !agree.Within(in[i].V, a.Value, 1e-9) {
				t.Errorf("%s: %s, %g, is assumed by heat and not shown", name, a.What, a.Value)
			}
		}
	}
	if cases < 15 {
		t.Errorf("only %d assumptions", cases)
	}
}
