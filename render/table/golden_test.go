package table

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/description"
	"dryfit/graph/plan"
)

var update = flag.Bool("update", false, "rewrite golden files")

// demos are the descriptions whose lists are kept.
var demos = []string{"circulation", "large-circulation", "plug-in", "plunge-pool", "two-speed"}

func demo(t *testing.T, name string) *plan.Plan {
	t.Helper()
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
	return p
}

// TestGolden compares every list of every demo, byte for byte, with the file kept of it; a
// kept file of nothing fails too. The numbers are judged where they are worked out; here it
// is only seen that none changes unnoticed, and that text keeps to the width of a page.
func TestGolden(t *testing.T) {
	kept := map[string]bool{}
	for _, name := range demos {
		p := demo(t, name)
		style := Style{Units: quantity.MetricSystem}
		for _, l := range []struct {
			name  string
			print func(*plan.Plan, Style) ([]byte, error)
		}{
			{"parts.txt", PartsText}, {"parts.csv", PartsCSV}, {"parts.json", PartsJSON},
			{"cuts.txt", CutsText}, {"cuts.csv", CutsCSV}, {"cuts.json", CutsJSON},
			{"flow.txt", FlowText}, {"flow.csv", FlowCSV}, {"flow.json", FlowJSON},
			{"cutin.txt", CutinText}, {"cutin.csv", CutinCSV}, {"cutin.json", CutinJSON},
			{"findings.csv", func(p *plan.Plan, s Style) ([]byte, error) { return FindingsCSV(p.Findings, s), nil }},
			{"findings.json", func(p *plan.Plan, s Style) ([]byte, error) { return FindingsJSON(p.Findings, s) }},
		} {
			got, err := l.print(p, style)
			if err != nil {
				t.Fatalf("%s of %s: %v", l.name, name, err)
			}
			compareGolden(t, name+"-"+l.name, got, kept)
		}
	}
	files, err := filepath.Glob("testdata/*")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if base := filepath.Base(f); !kept[base] {
			if *update {
				os.Remove(f)
				continue
			}
			t.Errorf("testdata/%s is kept of nothing", base)
		}
	}
}

func compareGolden(t *testing.T, name string, got []byte, kept map[string]bool) {
	t.Helper()
	kept[name] = true
	file := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(file, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Errorf("%v (go test ./render/table -update writes it)", err)
		return
	}
	if bytes.Equal(got, want) {
		return
	}
	g, w := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := 0; i < min(len(g), len(w)); i++ {
		if g[i] != w[i] {
			t.Errorf("%s differs in line %d:\n got %s\nwant %s", name, i+1, g[i], w[i])
			return
		}
	}
	t.Errorf("%s has %d lines, want %d", name, len(g), len(w))
}
