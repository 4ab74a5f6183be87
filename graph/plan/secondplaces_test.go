package plan_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/plan/search"
)

// What a place takes from the unit that is there stands in its words, with what that got before; the
// numbers are those of the plan. One that takes it its least is ruled out for that.
func TestPlacesTellWhatTheyTakeFromAnotherUnit(t *testing.T) {
	for _, c := range []struct {
		least, rated string
		out          bool
	}{{"2.9 m3/h", "4.1 m3/h", false}, {"6 m3/h", "6.5 m3/h", true}} {
		s := strings.Replace(text(t, "testdata/jobs/second-unit.toml"), `least = "2.9 m3/h", rated = "4.1 m3/h"`, `least = "`+c.least+`", rated = "`+c.rated+`"`, 1)
		p := work(t, read(t, "second.toml", []byte(s)), plan.Findings|plan.Flows|plan.Places)
		if len(p.Places) == 0 || p.After == nil || p.Places[0].Verdict != "best" {
			t.Fatalf("least %s: no place", c.least)
		}
		mode := p.After.Solutions[0].Mode.Name
		was, now := p.Before.Solution(mode).Part("unit-1").Flow, p.After.Solution(mode).Part("unit-1").Flow
		want := fmt.Sprintf(`"unit-1" %s instead of %s today`, quantity.Format(now, quantity.Flow, quantity.MetricSystem), quantity.Format(was, quantity.Flow, quantity.MetricSystem))
		if said := p.Places[0].Summary.In(quantity.MetricSystem); !strings.Contains(said, want) {
			t.Errorf("least %s: the best place does not say %q: %s", c.least, want, said)
		}
		takes := fmt.Sprintf("its least is 6.0 m3/h; before the work it gets %s", quantity.Format(was, quantity.Flow, quantity.MetricSystem))
		if out := slices.ContainsFunc(p.Places, func(v search.Verdict) bool {
			return v.Verdict == "ruled out" && slices.ContainsFunc(v.Reasons, func(r search.Reason) bool { return strings.Contains(r.Text.In(quantity.MetricSystem), takes) })
		}); out != c.out {
			t.Errorf("least %s: ruled out for what it takes: %v", c.least, out)
		}
	}
}
