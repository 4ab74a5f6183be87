package live

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/whatif"
	"dryfit/render/book"
	"dryfit/render/pack"
)

var figures = regexp.MustCompile(`^[!+\-±]?\d`)

// Every column of figures in the chapters of every demo is explained, in both systems of
// units.
func TestEveryNumberIsExplained(t *testing.T) {
	for _, name := range []string{"two-speed", "circulation", "plunge-pool", "plug-in"} {
		data, err := os.ReadFile("../../testdata/" + name + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		j := whatif.Job{File: name, Text: data}
		want := plan.Findings | plan.Flows | plan.Lists | plan.Heat
		if name == "two-speed" { // with ranges there are columns more
			want |= plan.Ranges
		}
		p, found := j.Plan(want)
		if p == nil {
			t.Fatal(found)
		}
		for _, id := range Order() {
			if Explain("section "+id) == nil {
				t.Errorf("what stands in %s is not explained", id)
			}
		}
		columns := 0
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			for _, c := range pack.Chapters(p, units) {
				if Explain("section "+ChapterPrefix+c.ID) == nil {
					t.Errorf("%s: the sentences of %s are not explained", name, c.ID)
				}
				for _, it := range c.Items {
					if it.Kind != book.Table && it.Kind != book.Blanks || it.Block.Grid == nil {
						continue
					}
					g := it.Block.Grid
					for i, head := range g.Header {
						numbers, cells := 0, 0
						for _, row := range g.Rows {
							if i < len(row) && row[i] != "" {
								cells++
								if figures.MatchString(row[i]) {
									numbers++
								}
							}
						}
						if cells == 0 || numbers*2 < cells || strings.TrimSpace(head) == "" {
							continue
						}
						columns++
						if Explain(head) == nil {
							t.Errorf("%s, %s: %q is not explained (such as %q)", name, c.ID, head, g.Rows[0][i])
						}
					}
				}
			}
		}
		if columns < 30 {
			t.Errorf("%s: %d columns of figures", name, columns)
		}
	}
}

// Every explanation says all it has to.
func TestExplanationsAreWhole(t *testing.T) {
	for _, e := range allExplanations {
		if e.What == "" || e.Formula == "" || e.From == "" || e.Source == "" {
			t.Errorf("%+v", e)
		}
	}
}
