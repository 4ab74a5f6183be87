package isometric

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/route"
	"dryfit/render/scene"
)

// Every joint of the bench is in one group and on its picture, with every piece it joins and
// the length that piece is cut to; no two texts of a picture touch.
func TestBenchPicturesShowWhatTheStepsSay(t *testing.T) {
	pictures := 0
	for _, demo := range []string{"testdata/circulation", "testdata/large-circulation", "testdata/plug-in", "testdata/plunge-pool", "testdata/two-speed",
		"graph/plan/testdata/jobs/round-on-hose", "graph/plan/testdata/jobs/hose-circulation"} { // the tees' barbs are glued on the bench
		for _, units := range []quantity.System{quantity.MetricSystem, quantity.InchSystem} {
			in := input(t, "../../"+demo+".toml")
			in.Units = units
			var wanted, got []int
			for _, s := range in.Assembly.Steps {
				if s.Phase == route.Bench {
					wanted = append(wanted, s.Joints...)
				}
			}
			for _, g := range Bench(in) {
				got = append(got, g.Joints...)
				if g.Scene == nil {
					continue
				}
				pictures++
				texts := textsOf(g.Scene)
				for _, n := range g.Joints {
					j := in.Layout.Joints[n-1]
					want := []string{fmt.Sprintf("J%d", n)}
					for _, side := range []string{j.A, j.B} {
						var k int
						if _, err := fmt.Sscanf(side, "piece %d", &k); err == nil {
							want = append(want, fmt.Sprint(k), quantity.Format(in.Layout.Pieces[k-1].SawMM(), quantity.Length, units))
						}
					}
					for _, w := range want {
						if !slices.ContainsFunc(texts, func(x scene.Text) bool {
							return slices.Contains(strings.Fields(x.Text), w) || strings.TrimSuffix(x.Text, "*") == w
						}) {
							t.Errorf("%s: no %q on the picture of joints %v", demo, w, g.Joints)
						}
					}
				}
				for i, a := range texts {
					for _, b := range texts[:i] {
						if scene.Bounds(a).Overlaps(scene.Bounds(b)) {
							t.Errorf("%s: %q and %q touch", demo, a.Text, b.Text)
						}
					}
				}
				if g.Scene.WidthMM > 180 {
					t.Errorf("%s: a picture %.0f mm wide is wider than its page's text", demo, g.Scene.WidthMM)
				}
			}
			slices.Sort(got)
			slices.Sort(wanted)
			if !slices.Equal(got, wanted) {
				t.Errorf("%s: groups of joints %v, the bench makes %v", demo, got, wanted)
			}
		}
	}
	if pictures < 18 {
		t.Errorf("%d pictures of five demos in both systems, want 18", pictures)
	}
}

func textsOf(s *scene.Scene) []scene.Text {
	var out []scene.Text
	for _, it := range s.Items {
		if x, ok := it.(scene.Text); ok {
			out = append(out, x)
		}
	}
	return out
}
