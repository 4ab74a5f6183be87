package drawing

import (
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Pipe knows nothing of how its length was written: the legs of a straight written as one, as two and as
// three give the same isometric, in one piece with its length from end to end.
func TestIsometricOfAStraightIsOneLeg(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	said := string(data)
	const one = `"right 2300 mm"]`
	if strings.Count(said, one) != 1 {
		t.Fatal("the demo leads its pipe otherwise")
	}
	var want []string
	for _, legs := range []string{one, `"right 1300 mm", "right 1000 mm"]`, `"right 700 mm", "right 1200 mm", "right 400 mm"]`} {
		c, ds := description.Read("legs.toml", []byte(strings.Replace(said, one, legs, 1)))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings|plan.Lists)
		if err != nil {
			t.Fatal(err)
		}
		pages, err := isometricPages(p, sheet.Page{}, quantity.MetricSystem)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, s := range pages {
			for _, it := range s.Items {
				if x, ok := it.(scene.Text); ok && !strings.HasPrefix(x.Name, "title:") {
					got = append(got, x.Text)
				}
			}
		}
		if want == nil {
			want = got
		}
		if !slices.Equal(got, want) || !slices.Contains(got, "2109") { // 2300 mm less what lies before the drain's tee, as the cut list has it
			t.Errorf("%s: %d sheets say %q, want %q", legs, len(pages), got, want)
		}
	}
}
