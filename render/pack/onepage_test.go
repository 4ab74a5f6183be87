package pack

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph/lots"
	"dryfit/render/book"
	"dryfit/render/sheet"
	"dryfit/render/table/form"
)

// The sheets that are handed to the customer and to the electrician are one page each: of every demo
// and job, on both papers, in both systems.
func TestSheetsToHandOver(t *testing.T) {
	jobs, err := filepath.Glob(filepath.Join("..", "..", "graph", "plan", "testdata", "jobs", "*.toml"))
	if err != nil || len(jobs) == 0 {
		t.Fatal(jobs, err)
	}
	names := slices.Clone(demos)
	for _, j := range jobs {
		names = append(names, strings.TrimSuffix(filepath.Base(j), ".toml"))
	}
	for _, name := range names {
		if !lots.Named(name, "two-speed", "large-circulation", "second-unit", "unit-out", "plug-in") {
			continue
		}
		p := jobPlan
		if slices.Contains(demos, name) {
			p = demoPlan
		}
		for _, look := range []struct {
			paper sheet.Format
			units quantity.System
		}{{sheet.Letter, quantity.InchSystem}, {sheet.A4, quantity.MetricSystem}} {
			made := p(t, name)
			j := factsOf(made, look.units)
			for _, c := range []book.Chapter{owner(made, j, form.Style{Units: look.units}), electrician(made, j)} {
				if len(c.Items) == 0 {
					continue
				}
				b := book.Book{Kind: "sheet", Bare: true, Job: made.Circuit.Job, Paper: look.paper, Chapters: []book.Chapter{c}}
				pdf, err := b.PDF()
				if err != nil {
					t.Fatal(err)
				}
				if n := bytes.Count(pdf, []byte("/Type /Page\n")) - 1; n != 1 { // the title has a page of its own
					t.Errorf("%s, %s on %v: %d pages", name, c.Title, look.paper, n)
				}
			}
		}
	}
}
