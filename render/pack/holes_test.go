package pack

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
)

// Where new pipe goes through a wall of the cabinet, a step before the dry fit bores the holes and a
// saw is brought for them: 63 mm pipe and 10 mm over are 73 mm (common practice, no source), in the
// front wall, which the file has 850 mm in front of the skimmer. A job without a cabinet has none.
func TestHolesInTheCabinet(t *testing.T) {
	for job, want := range map[string]bool{"through-the-front.toml": true, "second-unit.toml": false} {
		file := filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", job)
		source, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		p := wanted(t, file, source, plan.Findings|plan.Flows|plan.Lists)
		j := factsOf(p, quantity.MetricSystem)
		steps := wordsOf(work(p, j, form.Style{}))
		bore, cut := strings.Index(steps, "Bore two holes of 73 mm through the front of the cabinet, for pipe of 63 mm outside: for piece "), strings.Index(steps, "Dry-fit")
		if cut < 0 || (bore >= 0) != want || want && bore > cut {
			t.Errorf("%s: the holes are bored at %d, the dry fit is at %d:\n%s", job, bore, cut, steps)
		}
		if want && strings.Count(steps, "front 850 mm") != 2 {
			t.Errorf("%s: the places of the holes are not those of the wall:\n%s", job, steps)
		}
		saw := ""
		for _, tool := range tools(p, j) {
			if strings.HasPrefix(tool.What, "Hole saw") || strings.Contains(tool.What, "leeve") {
				saw += tool.What + "; "
			}
		}
		if (saw == "Hole saw of 73 mm or the next larger, drill; 2 sleeves for a hole of 73 mm, soft sealant; ") != want || !want && saw != "" {
			t.Errorf("%s: %q is brought", job, saw)
		}
	}
}
