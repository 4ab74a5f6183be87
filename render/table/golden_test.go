package table

import (
	"os"
	"path/filepath"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/golden"
	_ "dryfit/graph/lots" // garbage is collected seldom
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/table/lists"
)

// demos are the descriptions whose lists are kept.
var demos = []string{"circulation", "large-circulation", "plug-in", "plunge-pool", "two-speed"}

// made are the plans of the demos, each worked out once, with everything.
var made = map[string]*plan.Plan{}

// demo is the plan of a demo. Nobody changes it.
func demo(t *testing.T, name string) *plan.Plan {
	t.Helper()
	if p := made[name]; p != nil {
		return p
	}
	source, err := os.ReadFile(filepath.Join("..", "..", "testdata", name+".toml"))
	if err != nil {
		t.Fatal(err)
	}
	c, ds := description.Read(name+".toml", source)
	if c == nil {
		t.Fatalf("%s does not read: %v", name, ds)
	}
	p, err := plan.Make(c, plan.Findings|plan.Flows|plan.Ranges|plan.Lists|plan.Places|plan.Advice)
	if err != nil {
		t.Fatal(err)
	}
	made[name] = p
	return p
}

// TestGolden compares every list of every demo, byte for byte, with the file kept of it; a
// kept file of nothing fails too. The numbers are judged where they are worked out; here it
// is only seen that none changes unnoticed, and that text keeps to the width of a page.
func TestGolden(t *testing.T) {
	kept := golden.In(t, "testdata/*.*", nil)
	for _, name := range demos {
		p := demo(t, name)
		everyUnknownIsShown(t, name, p)
		style := form.Style{Units: quantity.MetricSystem}
		for _, l := range []struct {
			name  string
			print func(*plan.Plan, form.Style) ([]byte, error)
		}{
			{"parts.txt", lists.PartsText}, {"parts.csv", lists.PartsCSV}, {"parts.json", lists.PartsJSON},
			{"cuts.txt", lists.CutsText}, {"cuts.csv", lists.CutsCSV}, {"cuts.json", lists.CutsJSON},
			{"flow.txt", FlowText}, {"flow.csv", FlowCSV}, {"flow.json", FlowJSON},
			{"cutin.txt", CutinText}, {"cutin.csv", CutinCSV}, {"cutin.json", CutinJSON},
			{"findings.csv", func(p *plan.Plan, s form.Style) ([]byte, error) { return FindingsCSV(p.Findings, s), nil }},
			{"findings.json", func(p *plan.Plan, s form.Style) ([]byte, error) { return FindingsJSON(p.Findings, s) }},
		} {
			got, err := l.print(p, style)
			if err != nil {
				t.Fatalf("%s of %s: %v", l.name, name, err)
			}
			kept.Is(filepath.Join("testdata", name+"-"+l.name), got)
		}
	}
}
