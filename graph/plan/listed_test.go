package plan

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/graph/description"
	"dryfit/graph/heat/job"
)

// What heat and the supply go by and nobody gave stands in their list, what the file gives does
// not: the bathers, the power factor of a motor, the insulation of pipes outside.
func TestEveryAssumptionOfHeatIsListed(t *testing.T) {
	source, err := os.ReadFile(filepath.Join("..", "..", "testdata", "plug-in.toml"))
	if err != nil {
		t.Fatal(err)
	}
	given := strings.Replace(string(source), `power = "85 W"`, "power = \"85 W\"\npower-factor = 0.6", 1) + "\n[use]\nbathers = 4\n"
	for text, want := range map[string]bool{string(source): true, given: false} {
		c, ds := description.Read("job.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		p, err := Make(c, Flows|Lists)
		if err != nil {
			t.Fatal(err)
		}
		listed := map[string]bool{}
		for _, a := range HeatOf(p, job.Ask{}).Assumed {
			listed[string(a.What)] = true
		}
		for _, what := range []string{"bathers each time", `power factor of "pump"`} {
			if listed[what] != want {
				t.Errorf("%s listed: %t, want %t", what, listed[what], want)
			}
		}
		if !listed["insulation of pipes outside of which nobody says it"] {
			t.Error("the insulation nobody gave is not listed")
		}
	}
}
