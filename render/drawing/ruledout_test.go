package drawing

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
)

// TestNoCutLinesWhereNothingIsSawn: the detail of a place that is ruled out, for the straight
// is too short, shows what would go in and no cut; that of the place as it is shows both.
func TestNoCutLinesWhereNothingIsSawn(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	cutName := regexp.MustCompile(`^X[0-9]+$`)
	for leg, want := range map[string]int{`"left 1450 mm"`: 2, `"left 520 mm"`: 0} {
		text := strings.Replace(string(data), `"left 1450 mm"`, leg, 1)
		c, ds := description.Read("two-speed.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Lists)
		if err != nil {
			t.Fatal(err)
		}
		if ruledOut := p.RuledOut() != nil; ruledOut != (want == 0) {
			t.Errorf("%s: ruled out is %v", leg, ruledOut)
		}
		pages := drawn(t, p, "detail", quantity.MetricSystem)
		if len(pages) == 0 {
			t.Errorf("%s: no detail", leg)
		}
		n := 0
		for _, s := range pages {
			for _, it := range s.Items {
				if x, ok := it.(scene.Text); ok && cutName.MatchString(x.Text) {
					n++
				}
			}
		}
		if n != want {
			t.Errorf("%s: %d cut lines named in the detail, want %d", leg, n, want)
		}
	}
}

// TestNothingLeadsAwayFromNothing: where no place can take the unit the isometric is of the
// pipework as it stands, and no pipe of it "leads towards" anything, seen from work that is
// not there.
func TestNothingLeadsAwayFromNothing(t *testing.T) {
	pages := drawn(t, jobPlan(t, "no-place.toml"), "isometric", quantity.MetricSystem)
	texts := 0
	for _, s := range pages {
		for _, it := range s.Items {
			if x, ok := it.(scene.Text); ok {
				texts++
				if strings.Contains(x.Text, "end towards") {
					t.Errorf("the sheet says %q", x.Text)
				}
			}
		}
	}
	if texts == 0 {
		t.Error("nothing is drawn")
	}
}
