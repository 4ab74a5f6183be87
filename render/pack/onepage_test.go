package pack

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/lots"
	"dryfit/graph/plan"
	"dryfit/render/book"
	"dryfit/render/sheet"
	"dryfit/render/table"
	"dryfit/render/table/form"
)

// The sheets that are handed to the customer and to the electrician, and the one that all sign, are one page each: of every demo
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
			if look.paper == sheet.A4 && !lots.Named(name, "two-speed") {
				continue // Letter is the shorter page, and words are longer in inches
			}
			made := p(t, name)
			j := factsOf(made, look.units)
			for _, c := range []book.Chapter{owner(made, j, form.Style{Units: look.units}), electrician(made, j), recording(made, j)} {
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

// The first page holds the answer whole, under the title and the contents, on both papers and in
// both systems: what follows begins on the second.
func TestAnswerOnTheFirstPage(t *testing.T) {
	for _, name := range demos {
		if !lots.Named(name, "two-speed", "circulation") {
			continue
		}
		for _, look := range []struct {
			paper sheet.Format
			units quantity.System
		}{{sheet.Letter, quantity.InchSystem}, {sheet.A4, quantity.MetricSystem}} {
			made := demoPlan(t, name)
			j, style := factsOf(made, look.units), form.Style{Units: look.units}
			whole := bookOf(made, style, Options{Page: sheet.Page{Format: look.paper}}, nil)
			whole.Chapters = slices.DeleteFunc(whole.Chapters, func(c book.Chapter) bool { return len(c.Items) == 0 })
			for i := range whole.Chapters[1:] { // their names stand in the contents, and no more
				whole.Chapters[i+1].Items, whole.Chapters[i+1].NewPage = nil, true
			}
			pdf, err := whole.PDF()
			if err != nil {
				t.Fatal(err)
			}
			if n, want := bytes.Count(pdf, []byte("/Type /Page\n")), len(whole.Chapters); n != want {
				t.Errorf("%s on %v: %d pages of %d chapters, %d lines in the answer", name, look.paper, n, want, len(answer(made, j, style).Items))
			}
		}
	}
}

// What the first page says of the unit's flow, the table of what to expect says too: the same range,
// and no column stands empty.
func TestRangesAgree(t *testing.T) {
	for _, name := range demos {
		p := demoPlan(t, name)
		style := form.Style{Units: quantity.MetricSystem}
		blocks := performanceBlocks(p, style.Units)
		for _, line := range table.PlainLines(p, style, "") {
			_, said, found := strings.Cut(line, "(nine in ten: ")
			if !found {
				t.Fatalf("%s: no range in %q", name, line)
			}
			said = said[:strings.IndexAny(said, ",)")]
			if !slices.ContainsFunc(blocks[0].Grid.Rows, func(row []string) bool { return slices.Contains(row, said) }) {
				t.Errorf("%s: the first page says %s, the table %v", name, said, blocks[0].Grid.Rows)
			}
		}
		for k, head := range blocks[0].Grid.Header {
			if !slices.ContainsFunc(blocks[0].Grid.Rows, func(row []string) bool { return row[k] != "" }) {
				t.Errorf("%s: nothing stands under %q", name, head)
			}
		}
	}
}

// A job of many modes has its answer on the first page too, one that may be built and one that may not: the
// worst modes and the first of each speed stand there, and the rest together.
func TestManyModesOnTheFirstPage(t *testing.T) {
	data, err := os.ReadFile("../../testdata/two-speed.toml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := range 64 {
		text += fmt.Sprintf("\n[[mode]]\nname = \"m%d\"\nspeeds = { pump = %q }\njets = \"%d %%\"\n", i, []string{"low", "high"}[i%2], 100-i)
	}
	const flow = `flow = { least = "2.8 m3/h", rated = "4.2 m3/h", most = "8.4 m3/h" }`
	for fault, text := range map[bool]string{false: text, true: strings.Replace(text, flow, `flow = { least = "3.75 m3/h", rated = "4.2 m3/h", most = "5.05 m3/h" }`, 1)} {
		c, ds := description.Read("many.toml", []byte(text))
		if c == nil {
			t.Fatal(ds)
		}
		made, err := plan.Make(c, plan.Findings|plan.Flows)
		if err != nil {
			t.Fatal(err)
		}
		if (len(graph.Errors(made.Findings)) > 0) != fault {
			t.Errorf("fault %v: %v", fault, graph.Errors(made.Findings))
		}
		style := form.Style{Units: quantity.MetricSystem}
		lines := table.PlainLines(made, style, "there")
		all := strings.Join(lines, "\n")
		if len(lines) > 7 || !strings.HasPrefix(lines[len(lines)-1], "In ") || !strings.HasSuffix(all, ": see there.") || !strings.Contains(all, "At low speed the heat pump") || fault != strings.Contains(all, "TOO LITTLE") {
			t.Errorf("fault %v:\n%s", fault, all)
		}
		b := book.Book{Kind: "pack", Bare: true, Job: made.Circuit.Job, Chapters: []book.Chapter{answer(made, factsOf(made, style.Units), style)}}
		pdf, err := b.PDF()
		if err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(pdf, []byte("/Type /Page\n")); n != 1 {
			t.Errorf("fault %v: the answer takes %d pages", fault, n)
		}
	}
}
