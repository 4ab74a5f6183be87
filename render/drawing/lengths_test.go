package drawing

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
)

// A sheet of the isometric on which only old pipe stands is not called one of the new work, and comes after those.
func TestOldPipeIsNotCalledNewWork(t *testing.T) {
	pages := drawn(t, jobPlan(t, "side-by-side.toml"), "isometric", quantity.MetricSystem)
	old, worked := 0, 0
	for _, s := range pages {
		if overview(s) {
			continue
		}
		rings := 0
		for _, it := range s.Items {
			if x, ok := it.(scene.Text); ok && x.Name == "label:piece" {
				rings++
			}
		}
		if called := strings.HasPrefix(s.Name, "Isometric of the new work"); called != (rings > 0) {
			t.Errorf("%q has %d pieces of new pipe", s.Name, rings)
		}
		if rings > 0 {
			worked++
			if old > 0 {
				t.Errorf("%q stands behind a sheet of old pipe", s.Name)
			}
		} else {
			old++
		}
	}
	if old == 0 || worked == 0 {
		t.Errorf("%d sheets of old pipe, %d of new", old, worked)
	}
}

// Every piece of the cut list stands in a ring on the isometric, once but where its pipe goes on to another sheet,
// and its length from centre to centre, as the list prints it, stands there too; no ring has a number the list has
// not. Of pipe cut from several pieces in one leg the leg's length stands there. Read from what is drawn: of the
// demos in both systems, of what only jobs have (slants, a second unit, hose) in inches, whose words are longer.
func TestIsometricHasTheCutList(t *testing.T) {
	plans := maps.Clone(demos(t))
	for _, job := range []string{"octagonal", "side-by-side", "round-on-hose"} {
		data, err := os.ReadFile("../../graph/plan/testdata/jobs/" + job + ".toml")
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(job+".toml", data)
		if c == nil {
			t.Fatal(ds)
		}
		if plans[job], err = plan.Make(c, plan.Findings|plan.Lists); err != nil {
			t.Fatal(err)
		}
	}
	looked := 0
	for _, name := range slices.Sorted(maps.Keys(plans)) {
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			p := plans[name]
			if units == quantity.MetricSystem && demos(t)[name] == nil {
				continue // in which lengths are shorter words; how they are written in both the demos show
			}
			rings, said, parted := map[string]int{}, map[string]bool{}, false
			for _, s := range drawn(t, p, "isometric", units) {
				if overview(s) {
					continue
				}
				for _, it := range s.Items {
					x, ok := it.(scene.Text)
					switch {
					case !ok:
					case x.Name == "label:piece":
						rings[x.Text]++
					default:
						text, whole := strings.CutPrefix(x.Text, "whole ")
						said[text], parted = true, parted || whole
					}
				}
			}
			what := fmt.Sprintf("%s, units %v", name, units)
			onLeg := map[string]int{}
			for i := range p.Cuts.Pieces {
				c := &p.Cuts.Pieces[i]
				onLeg[fmt.Sprint(c.Run.ID, c.Leg)]++
			}
			for i := range p.Cuts.Pieces {
				c := &p.Cuts.Pieces[i]
				n := rings[strconv.Itoa(c.Number)]
				delete(rings, strconv.Itoa(c.Number))
				if n == 0 || n > 1 && !parted {
					t.Errorf("%s: piece %d stands in %d rings", what, c.Number, n)
				}
				length := strings.TrimSuffix(quantity.Format(c.CentreToCentreMM, quantity.Length, units), " mm")
				if c.From.Kind == "barb" || c.To.Kind == "barb" { // a nipple under an adaptor has its length on the detail
					continue
				}
				if c.Spec.Flexible() || onLeg[fmt.Sprint(c.Run.ID, c.Leg)] > 1 {
					continue
				}
				looked++
				if !said[length] && !said[strings.TrimSuffix(length, " in")] {
					t.Errorf("%s: the %s of piece %d stand on no sheet", what, length, c.Number)
				}
			}
			if len(rings) > 0 {
				t.Errorf("%s: rings of no piece: %v", what, rings)
			}
		}
	}
	if looked < 100 {
		t.Errorf("%d lengths were looked for", looked)
	}
}

// overview reports whether a sheet shows all of the work without its lengths.
func overview(s *scene.Scene) bool {
	return slices.ContainsFunc(s.Items, func(it scene.Item) bool {
		x, ok := it.(scene.Text)
		return ok && strings.HasPrefix(x.Name, "title:") && strings.Contains(x.Text, "overview")
	})
}
