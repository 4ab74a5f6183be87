package heating

import (
	"os"
	"path/filepath"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/match"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// The units held against each demo are printed to the same bytes every time; a kept file of nothing
// fails too. The numbers are judged where they are worked out.
func TestGolden(t *testing.T) {
	kept := golden.In(t, "testdata/*", nil)
	style := form.Style{Units: quantity.MetricSystem}
	for _, name := range []string{"circulation", "large-circulation", "plug-in", "plunge-pool", "two-speed"} {
		source, err := os.ReadFile(filepath.Join("..", "..", "..", "testdata", name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(name+".toml", source)
		if c == nil {
			t.Fatalf("%s does not read: %v", name, ds)
		}
		p, err := plan.Make(c, plan.Flows)
		if err != nil {
			t.Fatal(err)
		}
		tub, _, ok := match.Of(p)
		if !ok {
			t.Fatalf("%s: no unit", name)
		}
		tubs := []*match.Tub{tub}
		data, err := MatchJSON(tubs)
		if err != nil {
			t.Fatal(err)
		}
		kept.Is(filepath.Join("testdata", name+"-match.txt"), MatchText(tubs, []form.Style{style}))
		kept.Is(filepath.Join("testdata", name+"-match.csv"), MatchCSV(tubs))
		kept.Is(filepath.Join("testdata", name+"-match.json"), data)
	}
}
