package plan_test

import (
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
)

// wordsElsewhere are the names in brackets that no plan gives, and what brings each about.
var wordsElsewhere = map[string]string{
	"catalog":  "a mistake in the rows that are built in: no job gives it",
	"internal": "a mistake of the program's own: no job gives it",
	"reading":  "graph/description/testdata/wrong",
	"weather":  "cmd/dryfit/testdata/script/heat.txtar",
}

// TestEveryWordIsFound provokes every name that stands in brackets behind a finding and is no rule's, in the
// demo of a two-speed pump with one thing changed, or in another job. Each says what is wrong and what would be right, and where:
// in a line of the file, but where the whole of it is meant.
func TestEveryWordIsFound(t *testing.T) {
	demo := text(t, "../../testdata/two-speed.toml")
	untilUnit, _, _ := strings.Cut(demo, "[[part]]\nid = \"unit\"")
	const led = "to-unit = [\"front 300 mm\", \"down 260 mm\", \"right 2300 mm\"]\nfrom-unit = [\"left ?\", \"up 160 mm\", \"back 460 mm\"]"
	cases := map[string]struct {
		text string
		want plan.Want
	}{
		"accept":        {demo + "\n[[accept]]\npromise = \"least-flow\"\nmode = \"night\"\nreason = \"it is off then\"\n", plan.Ranges},
		"assembly":      {replaced(t, demo, []string{"to = \"element.in\"\nexisting = true", `to = "element.in"`}), plan.Flows},
		"bypass-advice": {untilUnit, plan.Advice},
		"clash": {replaced(t, text(t, "../../testdata/large-circulation.toml"), []string{`"right 3660 mm", "front 500 mm", "down 400 mm"`, `"right 1900 mm", "front 500 mm", "down 200 mm"`,
			`refrigerant = "R32"`, "refrigerant = \"R32\"\nbox = { from = [\"left 50 mm\", \"down 300 mm\"], to = [\"right 500 mm\", \"up 700 mm\", \"back 900 mm\"] }"}), 0},
		"cut":         {replaced(t, demo, []string{`"left 1450 mm"`, `"left 600 mm"`}), 0},
		"cut-on-site": {replaced(t, demo, []string{led, ""}), 0},
		"flow":        {replaced(t, demo, []string{`{ flow = "10 m3/h", drop = "6.5 kPa" }`, `{ points = [["1 m3/h", "1 kPa"], ["3 m3/h", "2 kPa"]] }`}), plan.Flows},
		"guess":       {demo, plan.Ranges},
		"hand-room":   {text(t, "testdata/jobs/sunk-in-deck.toml"), 0},
		"promise":     {replaced(t, demo, []string{`least = "2.8 m3/h", rated = "4.2 m3/h"`, `least = "4.4 m3/h", rated = "4.6 m3/h"`}), plan.Ranges},
		"readings":    {demo + "\n[[reading]]\nat = \"pump\"\nmode = \"low\"\nflow = \"6.5 m3/h\"\nplus-minus = \"2 %\"\n", plan.Flows},
		"retrofit":    {replaced(t, demo, []string{`branch = "front"`, `branch = "left"`}), 0},
		"routing":     {replaced(t, demo, []string{`"up 180 mm", "right 260 mm"`, `"up 180 mm", "right 20 mm"`}), 0},
		"stages":      {replaced(t, demo, []string{"to = \"element.in\"\nexisting = true", `to = "element.in"`}), 0},
		"stock":       {replaced(t, demo, []string{"price = \"11.40\"", "price = \"11.40\"\ncount = 1"}), plan.Lists},
		"tolerance":   {demo, 0},
	}
	for _, w := range rule.Words {
		c, here := cases[w.Name]
		if _, elsewhere := wordsElsewhere[w.Name]; here == elsewhere {
			t.Errorf("[%s]: a case here: %v, elsewhere: %v; want one of the two", w.Name, here, elsewhere)
		}
		if !here {
			continue
		}
		found := work(t, read(t, w.Name+".toml", []byte(c.text)), plan.Findings|c.want).Findings
		i := slices.IndexFunc(found, func(d graph.Diagnostic) bool { return d.Rule == w.Name })
		if i < 0 {
			t.Errorf("[%s] is not found", w.Name)
			continue
		}
		if d := found[i]; d.Message == "" || d.Hint == "" || !d.Pos.IsValid() && w.Name != "bypass-advice" {
			t.Errorf("[%s]: %s: %q, %q", w.Name, d.Pos, d.Message, d.Hint)
		}
	}
}
