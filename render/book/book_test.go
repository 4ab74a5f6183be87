package book

import (
	"bytes"
	"dryfit/catalog/quantity"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/table/form"
)

func sample() *Book {
	long := strings.Repeat("a sentence that goes on and on until it wraps, ", 40)
	grid := &form.Grid{Header: []string{"what", "kWh"}, Right: []bool{false, true}}
	for range 120 {
		grid.Rows = append(grid.Rows, []string{"a row with <b>words</b>", "12.5"})
	}
	sheet := &scene.Scene{Name: "Schematic", WidthMM: 297, HeightMM: 210}
	sheet.Add(scene.Rect(10, 10, 100, 50, scene.Stroke(0.5)))
	return &Book{Job: graph.Job{Name: "Invented <tub>", Date: "2026-05-11"}, File: "job.toml", Chapters: []Chapter{
		{ID: "answer", Title: "The answer", For: Everybody, Items: []Item{{Kind: Lead, Text: "It may be built."}, {Kind: Alert, Text: "Mend first", Lines: []string{"one", "two"}}}},
		{ID: "work", Title: "Order of work", For: Fitter, NewPage: true, Items: []Item{{Kind: Heading, Text: "On the bench"},
			{Kind: Steps, First: 7, Lines: []string{"cut", long}}, {Kind: Hold, Text: "HOLD: wait"}, {Kind: Bullets, Lines: []string{"x"}}}},
		{ID: "parts", Title: "Parts", For: Fitter, Items: []Item{{Kind: Table, Block: form.Block{Title: "To order", Grid: grid, Lines: []string{"a note"}}}}},
		{ID: "drawings", Title: "Drawings", For: Fitter, Items: []Item{{Kind: Sheet, Text: "Schematic", Scene: sheet, File: "schematic.svg"}}},
		{ID: "record", Title: "Record", For: Fitter | Electrician, Items: []Item{{Kind: Blanks, Block: form.Block{Grid: &form.Grid{Header: []string{"what", "found"}, Rows: [][]string{{"date", ""}}}}}}},
	}}
}

// Both writers give the same bytes twice, and whatever a user wrote is text.
func TestSameBytesAndInert(t *testing.T) {
	b := sample()
	one, err := b.PDF()
	if err != nil {
		t.Fatal(err)
	}
	two, _ := b.PDF()
	if !bytes.Equal(one, two) {
		t.Error("the PDF is not the same twice")
	}
	page, err := b.HTML()
	if err != nil {
		t.Fatal(err)
	}
	again, _ := b.HTML()
	if !bytes.Equal(page, again) {
		t.Error("the page is not the same twice")
	}
	for _, bad := range []string{"<tub>", "<b>words"} {
		if bytes.Contains(page, []byte(bad)) {
			t.Errorf("the page holds %s raw", bad)
		}
	}
	for _, want := range []string{`id="step-7"`, `id="step-8"`, `role="img" aria-label="Schematic"`, `href="schematic.svg"`, `scope="col"`, "The electrician:", `lang="en"`} {
		if !bytes.Contains(page, []byte(want)) {
			t.Errorf("the page lacks %s", want)
		}
	}
}

// A table longer than a page goes on with its head; a sheet keeps its own size.
func TestPagesOfThePaper(t *testing.T) {
	p := sample().printer()
	p.print()
	if p.page < 6 {
		t.Errorf("%d pages for 120 rows, a sheet and long steps", p.page)
	}
	if p.starts["work"] != 2 || p.starts["drawings"] <= p.starts["parts"] {
		t.Errorf("chapters at %v", p.starts)
	}
	if w, h, _ := p.f.PageSize(p.starts["drawings"] + 1); !(w > 296 && w < 298 && h > 209 && h < 211) {
		t.Errorf("the sheet's page is %g by %g", w, h)
	}
}

// Every page of text is numbered of all, 9 mm above its lower edge, and the contents name each
// chapter's page, also where the last page is a sheet of another size.
func TestPagesAreNumbered(t *testing.T) {
	b := sample()
	n := len(b.Chapters)
	b.Chapters[n-2], b.Chapters[n-1] = b.Chapters[n-1], b.Chapters[n-2] // the sheet last
	p := b.printer()
	p.print()
	p.f.SetCompression(false)
	var out bytes.Buffer
	if err := p.f.Output(&out); err != nil {
		t.Fatal(err)
	}
	streams := strings.Split(out.String(), "\nstream\n")[1:] // the pages' come first, in their order
	written := func(text string) *regexp.Regexp {
		utf16 := "\x00" + strings.Join(strings.Split(text, ""), "\x00")
		return regexp.MustCompile(`BT [\d.]+ ([\d.]+) Td \(` + regexp.QuoteMeta(utf16) + `\) Tj`)
	}
	for page := 1; page <= p.page; page++ {
		foot := written(fmt.Sprintf("page %d of %d", page, p.page)).FindStringSubmatch(streams[page-1])
		switch {
		case page == p.page:
			if foot != nil {
				t.Error("the sheet has a foot")
			}
		case foot == nil || foot[1] != fmt.Sprintf("%.2f", 9*72/25.4):
			t.Errorf("page %d has its foot at %v", page, foot)
		}
	}
	for _, c := range b.Chapters {
		title, number := written(c.Title).FindStringSubmatch(streams[0]), written(fmt.Sprint(p.starts[c.ID])).FindAllStringSubmatch(streams[0], -1)
		if title == nil || !slices.ContainsFunc(number, func(n []string) bool { return n[1] == title[1] }) {
			t.Errorf("%s: at %v, its page at %v", c.Title, title, number)
		}
	}
}

// filledUp is a book of chapters on pages of their own: 30 lines to 59, behind them what is asked for, and so
// many lines more that no chapter is set smaller to do without its last page.
func filledUp(behind func(lines int) []Item) *Book {
	filler := slices.Repeat([]Item{{Kind: Words, Text: "filler"}}, 59)
	b := &Book{Job: graph.Job{Name: "Invented", Date: "2026-05-11"}}
	for lines := 30; lines < 60; lines++ {
		c := Chapter{ID: fmt.Sprint(lines), Title: "A", For: Fitter, NewPage: true}
		c.Items = slices.Concat(filler[:lines], behind(lines), filler[:30])
		b.Chapters = append(b.Chapters, c)
	}
	return b
}

// nth is a word of the chapter with so many lines.
func nth(word string, lines int) string { return fmt.Sprint(word, lines, "x") }

// However full a page is, a table's title stands on the page of its head and its first row, and
// a heading over it there too.
func TestTitleStaysWithItsTable(t *testing.T) {
	on := printed(t, filledUp(func(lines int) []Item {
		grid := &form.Grid{Header: []string{"what"}, Rows: [][]string{{nth("firstrow", lines) + " " + strings.Repeat("goes on ", 90)}, {"second"}}}
		return []Item{{Kind: Heading, Text: nth("Overhead", lines)}, {Kind: Table, Block: form.Block{Title: nth("Thetitle", lines), Grid: grid}}}
	}))
	for lines := 30; lines < 60; lines++ {
		if over, title, row := on(nth("Overhead", lines)), on(nth("Thetitle", lines)), on(nth("firstrow", lines)); len(title) != 1 || !slices.Equal(title, row) || !slices.Equal(over, row) {
			t.Errorf("after %d lines the heading stands on page %v, the title on %v, the first row on %v", lines, over, title, row)
		}
	}
}

// No word is lost by wrapping, however narrow the column.
func TestWrapKeepsEveryLetter(t *testing.T) {
	p := sample().printer()
	p.f = scene.NewPDF("x", "")
	p.f.SetFont(scene.PDFFont, "", 8)
	for _, text := range []string{"short", "averyveryverylongwordthatfitsnowhere and a short one", "½ in × 1½ in ≥ 20 °C", strings.Repeat("w", 200)} {
		for _, width := range []float64{6, 15, 40} {
			got := strings.Join(p.wrap(text, width), "")
			if strings.ReplaceAll(got, " ", "") != strings.ReplaceAll(text, " ", "") {
				t.Errorf("%q at %g mm: %q", text, width, got)
			}
		}
	}
}

// A line is not broken between a number and its unit.
func TestUnbroken(t *testing.T) {
	for text, want := range map[string]string{
		"4.88 m of pipe":           "4.88 m|of|pipe",
		"54 to 61 h in the cold":   "54|to|61 h|in|the|cold",
		"1 ft 7-7/8 in from there": "1 ft 7-7/8 in|from|there",
		"2 ft 3 pieces":            "2 ft|3|pieces",
		"1.4 m3/h to 1.7 m3/h;":    "1.4 m3/h|to|1.7 m3/h;",
		"step 4 in the old line":   "step|4 in|the|old|line", // an inch is spelt so
		"two pieces":               "two|pieces",
		"2.84 to 5.38":             "2.84 to 5.38", // a cell of a table
		"906 of 1021":              "906 of 1021",
		"(± 491 kWh), loss":        "(± 491 kWh),|loss",
		"T2 to CV1":                "T2|to|CV1",
		"2.84 to 5.38 of them":     "2.84|to|5.38|of|them",
	} {
		if got := strings.Join(quantity.Unbroken(text), "|"); got != want {
			t.Errorf("%q breaks as %q, not %q", text, got, want)
		}
	}
}

// On the page no line ends within an amount; what is no text of the page stays as it is.
func TestAmountsKept(t *testing.T) {
	for page, want := range map[string]string{
		`<td>-0.3 to 5.38</td><td>T2 to V1</td>`:                        `<td>-0.3_to_5.38</td><td>T2 to V1</td>`,
		`<p title="3 m long">it gets 5.3 m3/h, and 9 ft 10-3/16 in</p>`: `<p title="3 m long">it gets 5.3_m3/h, and 9_ft_10-3/16_in</p>`,
		`<td>&#34;38 °C&#34;</td><td>2 tees</td>`:                       `<td>&#34;38_°C&#34;</td><td>2 tees</td>`,
		`<svg><text>3 m</text></svg> 4 m<style>a { 5 m }</style>`:       `<svg><text>3 m</text></svg> 4_m<style>a { 5 m }</style>`,
		"<p>3\n  m and  2 m</p>":                                        "<p>3\n  m and  2_m</p>",
	} {
		if got := strings.ReplaceAll(string(AmountsKept([]byte(page))), noBreak, "_"); got != want {
			t.Errorf("%s\nbecomes %s\nwant    %s", page, got, want)
		}
	}
	b := sample()
	b.Chapters[0].Say("it gets 5.3 m3/h")
	page, err := b.HTML()
	if err != nil || !strings.Contains(string(page), "5.3"+noBreak+"m3/h") {
		t.Errorf("the page lets a line end within an amount: %v", err)
	}
}

// What answers a question, a heading and a sheet have bookmarks under that of their chapter, on the
// page on which they begin.
func TestMarks(t *testing.T) {
	b := sample()
	long := Chapter{ID: "long", Title: "Long", For: Everybody, NewPage: true}
	for range 60 {
		long.Say("a line")
	}
	long.Add(Item{Kind: Lead, Bookmark: "Asked?", Text: "told"}, Item{Kind: Heading, Text: "Under it"}, Item{Text: "no bookmark"})
	b.Chapters = append(b.Chapters, long)
	p := b.printer()
	p.print()
	var out bytes.Buffer
	if err := p.f.Output(&out); err != nil {
		t.Fatal(err)
	}
	at := bookmarks(t, out.Bytes())
	if at["Asked?"] <= at["Long"] || at["Under it"] < at["Asked?"] || at["Long"] == 0 {
		t.Errorf("the bookmarks lead to the pages %v", at)
	}
	if _, ok := at["no bookmark"]; ok {
		t.Error("an item has a bookmark that nobody gave it")
	}
	page, err := b.HTML()
	if err != nil {
		t.Fatal(err)
	}
	// the page has the same way in: a link among the contents, and what it leads to once
	for _, want := range []string{`<a href="#asked-asked">Asked?</a>`, `id="asked-asked"`} {
		if n := strings.Count(string(page), want); n != 1 {
			t.Errorf("the page has %s %d times", want, n)
		}
	}
	if link, to := strings.Index(string(page), `href="#asked-asked"`), strings.Index(string(page), `id="asked-asked"`); to < link || !strings.HasPrefix(string(page)[to:], "id=\"asked-asked\"></div>\n<p class=\"lead\">told") {
		t.Error("the page's link does not lead to what answers it")
	}
}

// The reader with most to read has a column of the contents to himself, and nobody is left out.
func TestContentsSideBySide(t *testing.T) {
	columns := sideBySide(sample().readers())
	if len(columns[1]) != 1 || columns[1][0].Name != "The fitter:" {
		t.Errorf("the second column is %v", columns[1])
	}
	if n := len(columns[0]) + len(columns[1]); n != len(sample().readers()) {
		t.Errorf("%d readers in the contents", n)
	}
}

// No row of a table stands alone on a page, before it breaks or after: wherever a table begins and
// however long it is, at least two rows come before a break and three behind it.
func TestFewRowsStayTogether(t *testing.T) {
	p := sample().printer()
	p.f = scene.NewPDF("a table", "2026-05-11")
	for rows := 1; rows <= 45; rows++ {
		for _, from := range []float64{edge, 100, p.pageH - foot - 40, p.pageH - foot - 22, p.pageH - foot - 9} {
			g := &form.Grid{Header: []string{"what", "found"}}
			for range rows {
				g.Rows = append(g.Rows, []string{"a row", ""})
			}
			p.newPage()
			p.y = from
			began := p.page
			p.grid(g, true)
			head, row := p.height(p.lines(g.Header, p.widths(g, true), true), 0), p.leastRow(true)
			last := int((p.y-edge-head)/row + 0.01) // on the last page
			if pages := p.page - began; pages > 0 && last < min(rows, fewest) {
				t.Fatalf("%d rows from %.0f mm down: %d of them alone on the last page", rows, from, last)
			}
			if p.page == began+1 && rows-last == 1 {
				t.Fatalf("%d rows from %.0f mm down: one alone on the first page", rows, from)
			}
		}
	}
}

// A point at which the work waits stands on the page of the step before it, however full the page is.
func TestHoldStaysWithItsStep(t *testing.T) {
	for first := range 3 { // with fewer steps before the last, down to one alone, which its heading stands with too
		on := printed(t, filledUp(func(lines int) []Item {
			steps := append(slices.Repeat([]string{"a step"}, 2-first), nth("laststep", lines))
			return []Item{{Kind: Heading, Text: nth("Overhead", lines)}, {Kind: Steps, First: 1, Lines: steps}, {Kind: Hold, Text: nth("waithere", lines)}}
		}))
		for lines := 30; lines < 60; lines++ {
			over, step, hold := on(nth("Overhead", lines)), on(nth("laststep", lines)), on(nth("waithere", lines))
			if len(step) != 1 || !slices.Equal(step, hold) {
				t.Errorf("after %d lines the last step stands on page %v, the hold behind it on %v", lines, step, hold)
			}
			if first == 2 && !slices.Equal(over, step) {
				t.Errorf("after %d lines the heading stands on page %v, its only step on %v", lines, over, step)
			}
		}
	}
}

// bookmarks reads the names of a PDF's bookmarks and the pages they lead to: of a file as fpdf
// writes it, in which a page and its text are the objects 2n+1 and 2n+2.
func bookmarks(t *testing.T, pdf []byte) map[string]int {
	t.Helper()
	at := map[string]int{}
	for _, m := range regexp.MustCompile(`(?s)/Title \((.*?)\)\n.*?/Dest \[(\d+) 0 R`).FindAllSubmatch(pdf, -1) {
		object, err := strconv.Atoi(string(m[2]))
		if err != nil {
			t.Fatal(err)
		}
		at[strings.ReplaceAll(strings.TrimPrefix(string(m[1]), "\xfe\xff"), "\x00", "")] = (object - 1) / 2
	}
	return at
}

// printed prints a book and returns what tells the pages a word stands on.
func printed(t *testing.T, b *Book) func(word string) []int {
	t.Helper()
	p := b.printer()
	p.print()
	p.f.SetCompression(false)
	var out bytes.Buffer
	if err := p.f.Output(&out); err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(out.String(), "\nstream\n")[1 : p.page+1]
	return func(word string) (on []int) {
		for i, s := range pages {
			if strings.Contains(s, "\x00"+strings.Join(strings.Split(word, ""), "\x00")) {
				on = append(on, i+1)
			}
		}
		return on
	}
}

// A table with more columns than a page has room for goes on below itself, its first column before each part;
// none is squeezed to less than a letter.
func TestWideTableIsParted(t *testing.T) {
	grid := &form.Grid{Header: []string{"run"}, Right: []bool{false}, Rows: [][]string{{"return-line"}}}
	for i := range 70 {
		grid.Header, grid.Right = append(grid.Header, fmt.Sprintf("with the circulation pump at speed %d", i)), append(grid.Right, true)
		grid.Rows[0] = append(grid.Rows[0], fmt.Sprint(i))
	}
	b := sample()
	b.Chapters[2].Items[0].Block.Grid = grid
	if _, err := b.PDF(); err != nil {
		t.Fatal(err)
	}
	p := b.printer()
	p.print()
	var seen []string
	for _, part := range p.parts(grid, false) {
		if part.Header[0] != "run" || part.Rows[0][0] != "return-line" || len(part.Right) != len(part.Header) || part.Right[0] || !part.IsRight(1) {
			t.Errorf("a part is headed %v, its row %v", part.Header, part.Rows[0])
		}
		if least, _ := p.needs(part, false, narrowWord); len(least) > 2 && sum(least) > p.wide() {
			t.Errorf("a part of %d columns wants %.0f mm of %.0f", len(least), sum(least), p.wide())
		}
		if broken := p.broken(part); len(broken) > 0 {
			t.Errorf("a part of %d columns breaks %q", len(part.Header), broken)
		}
		seen = append(seen, part.Rows[0][1:]...)
	}
	if len(seen) != 70 || seen[0] != "0" || seen[69] != "69" {
		t.Errorf("the parts hold %v", seen)
	}
	if parts := p.parts(sample().Chapters[2].Items[0].Block.Grid, false); len(parts) != 1 {
		t.Errorf("a table that fits is in %d parts", len(parts))
	}
}

// Where a table has just room, its longest words are broken, and no amount.
func TestNarrowTableKeepsAmountsWhole(t *testing.T) {
	grid := &form.Grid{Header: []string{"run", "pipe"}, Right: []bool{false, true}, Rows: [][]string{{"return-line", "0.90 m"}}}
	for range 8 {
		grid.Header, grid.Right = append(grid.Header, "fittings, with counterrotation"), append(grid.Right, true)
		grid.Rows[0] = append(grid.Rows[0], "10.26 m")
	}
	p := sample().printer()
	p.print()
	if n := len(p.parts(grid, false)); n != 1 {
		t.Fatalf("the table is in %d parts", n)
	}
	broken := p.broken(grid)
	if len(broken) == 0 || slices.Contains(broken, "0.90 m") || slices.Contains(broken, "10.26 m") {
		t.Errorf("broken are %q", broken)
	}
}

// broken are the words and amounts of a table that its columns are too narrow for.
func (p *printer) broken(g *form.Grid) []string {
	var out []string
	for i, w := range p.widths(g, false) {
		for k, row := range append([][]string{g.Header}, g.Rows...) {
			style := ""
			if k == 0 {
				style = "B"
			}
			p.f.SetFont(scene.PDFFont, style, p.size(tablePt))
			for _, word := range quantity.Unbroken(row[i]) {
				if p.f.GetStringWidth(word) > w-2*cellPad+hair && !slices.Contains(out, word) {
					out = append(out, word)
				}
			}
		}
	}
	return out
}

func sum(all []float64) float64 {
	out := 0.0
	for _, x := range all {
		out += x
	}
	return out
}
