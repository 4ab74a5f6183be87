package table

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// Of a drawing that holds its cuts already both lines are told with what lies between them, and what
// cuts: a saw, which takes its kerf on one side, or on hose shears or a knife, which take nothing.
func TestDrawnMarkingNamesWhatCuts(t *testing.T) {
	for name, want := range map[string]string{"graph/plan/testdata/jobs/round-on-hose": "line to line; shears or a knife, square", "testdata/two-speed": "line to line; the saw goes on the side that comes out"} {
		source, err := os.ReadFile(filepath.Join("..", "..", name+".toml"))
		if err != nil {
			t.Fatal(err)
		}
		c, ds := description.Read(name+".toml", source)
		if c == nil {
			t.Fatal(ds)
		}
		p, err := plan.Make(c, plan.Findings)
		if err != nil {
			t.Fatal(err)
		}
		var said []string
		for _, b := range drawnMarking(p, form.Style{Units: quantity.MetricSystem}) {
			said = append(said, b.Lines...)
		}
		words := strings.Join(said, "\n")
		if strings.Count(words, "cut line X") != 2 || !strings.Contains(words, want) || strings.Contains(name, "hose") == strings.Contains(words, "saw") {
			t.Errorf("%s:\n%s", name, words)
		}
	}
}
