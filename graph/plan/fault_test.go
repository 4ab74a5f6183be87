package plan_test

import (
	"os"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

// Nothing is cut where the place is ruled out, nor while something is wrong wherever the cut
// is; which of the two is said, and neither of a plan that will do.
func TestWhyNothingIsCut(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, now, want string }{
		{"", "", ""},
		{`temperature = "38 °C"`, `temperature = "41 °C"`, "wherever the cut is, this has to be mended first: "},
		{`bypass = "auto"`, "bypass = \"spring\"\nspring = \"10 psi\"", "the place is ruled out: mode \"high\": \"unit\" gets "},
		{`"left ?"`, `"left 500 mm"`, "the place is ruled out: the loop through the pipes to the unit and return-line does not close"},
	} {
		circuit, ds := description.Read("two-speed.toml", []byte(strings.Replace(string(data), c.old, c.now, 1)))
		if circuit == nil {
			t.Fatal(ds)
		}
		for _, want := range []plan.Want{plan.Findings | plan.Flows, plan.Places} { // as check and cutin ask
			p := work(t, circuit, want)
			if why := p.WhyNot().In(quantity.MetricSystem); why == "" != (c.want == "") || !strings.HasPrefix(why, c.want) {
				t.Errorf("with %s: %q, want %q", c.now, why, c.want)
			}
		}
	}
}
