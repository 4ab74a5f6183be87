package heating

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/render/table/form"
)

// A year in which each day has its share of the week's baths never sees a whole one: how cold the
// water gets after one is not told of it, or is told with that.
func TestColdestAfterBathsThatAreSpread(t *testing.T) {
	for _, c := range []struct {
		bathed, short int
		spread, told  bool
	}{{9, 9, true, false}, {9, 9, false, true}, {4, 9, true, true}, {0, 9, true, true}} {
		y := &job.YearReport{Planned: &heat.Account{Short: c.short, Bathed: c.bathed, ColdestC: 31.6}, BathsSpread: c.spread}
		r := &job.Report{Year: y}
		owner := strings.Join(ForOwner(r, graph.Job{}, nil, form.Style{}), " ")
		if strings.Contains(owner, "the coldest the water gets") != c.told {
			t.Errorf("%+v: %s", c, owner)
		}
		line := reporter{r: r}.coolHours(y)
		if strings.Contains(line, "its share of the week's baths") != (c.spread && c.bathed > 0) {
			t.Errorf("%+v: %s", c, line)
		}
	}
}
