package plan

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
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

// What is told of such ports leads to a plan without an error, followed to its end: for a unit with sockets and
// a stub of hose, and for one with tails of its own. The legs are 200 mm longer, more than three tails with
// two clips each need. Follows from the description.
func TestHosePortsFollowed(t *testing.T) {
	p := planOf(t, standing(t, func(text string) string { return text + "\n" }))
	glued := string(description.Write(p.Circuit))
	hosed := regexp.MustCompile(`(from = "union-1.out"\nto = "unit.in"|from = "unit.out"\nto = "union-2.in")\nsize = "[^"]*"\nlegs = \["(\w+) [^"]*"\]`).
		ReplaceAllString(glued, "$1\nspec = \"hose\"\nsize = \"38 mm\"\nlegs = [\"$2 270 mm\"]")
	tails := strings.Replace(hosed, `ports-size = "1-1/2 in"`, "ports-size = \"38 mm\"\nends = \"barb\"", 1)
	if strings.Count(hosed, "38 mm") != 2 || tails == hosed {
		t.Fatalf("the plan is written otherwise:\n%s", glued)
	}
	for _, text := range []string{hosed, tails} {
		c, ds := description.Read("planned.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		for _, d := range graph.Errors(planOf(t, c).Findings) {
			if d.Rule == "hose-on-barbs" || d.Rule == "inch-metric-transition" || d.Rule == "routing" {
				t.Errorf("%v", d)
			}
		}
	}
}
