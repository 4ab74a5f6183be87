package plan

import (
	"strings"
	"testing"

	"dryfit/graph"
)

// A unit whose ports have a size that only hose is made in is told from pipe's whatever the new
// pipe is of: no bush leads there, and what does is said. Bores of hose: ISO 1307 (from memory).
func TestHosePortsAreTold(t *testing.T) {
	for _, spec := range []string{"pvc-sch40", "pvc-pn10"} {
		p := planOf(t, standing(t, func(text string) string {
			text = strings.Replace(text, `ports-size = "1 1/2 in"`, `ports-size = "38 mm"`, 1)
			return strings.Replace(text, "[retrofit]\n", "[retrofit]\nspec = \""+spec+"\"\n", 1)
		}))
		told := false
		for _, d := range graph.Errors(p.Findings) {
			told = told || strings.Contains(string(d.Hint), "38 mm is a size of hose, in which no pipe is made")
		}
		if !told {
			t.Errorf("%s: %v", spec, graph.Errors(p.Findings))
		}
	}
}
