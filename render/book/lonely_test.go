package book

import (
	"bytes"
	"fmt"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/render/table/form"
)

// pages counts those of a book of the chapters.
func pages(t *testing.T, chapters ...Chapter) int {
	t.Helper()
	pdf, err := (&Book{Bare: true, Job: graph.Job{Name: "Invented"}, Chapters: chapters}).PDF()
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Count(pdf, []byte("/Type /Page\n"))
}

// taken is how many pages each of some chapters takes, printed in one book: to begin a book takes as
// long as a page of it.
func taken(chapters []Chapter) []int {
	p := (&Book{Bare: true, Job: graph.Job{Name: "Invented"}, Chapters: chapters}).printer()
	p.print()
	out := make([]int, len(chapters))
	for i, c := range chapters {
		next := p.page + 1
		if i+1 < len(chapters) {
			next = p.starts[chapters[i+1].ID]
		}
		out[i] = next - p.starts[c.ID]
	}
	return out
}

func listOf(rows int) *form.Grid {
	g := &form.Grid{Header: []string{"what", "where"}}
	for i := range rows {
		g.Rows = append(g.Rows, []string{fmt.Sprint("row ", i), "here"})
	}
	return g
}

// A few lines do not get a page of their own: the chapter is set a little smaller, and so are those
// that begin on its pages. Of many rows the last page stays as it is.
func TestNoLonelyPage(t *testing.T) {
	chapter := func(id string, rows int, begins bool) Chapter {
		return Chapter{ID: id, Title: "A list", NewPage: begins, Items: []Item{{Kind: Table, Block: form.Block{Grid: listOf(rows)}}}}
	}
	var each []Chapter // of one row, of two and so on, each on pages of its own
	for rows := 1; rows < 90; rows++ {
		each = append(each, chapter(fmt.Sprint("of ", rows), rows, true))
	}
	most := slices.IndexFunc(taken(each), func(pages int) bool { return pages != 1 }) // rows that go on a page
	if most < 40 {
		t.Fatalf("a page holds %d rows", most)
	}
	full := (&Book{Bare: true}).printer().rowsAtFullSize()
	for _, c := range []struct {
		name  string
		rows  []int
		pages int
	}{
		{"two rows more than smaller letters hold", []int{most + 2}, 3},
		{"half a page more", []int{most + most/2}, 3},
		{"two chapters on one page", []int{full / 2, full/2 - 2}, 2},
	} {
		var all []Chapter
		for i, rows := range c.rows {
			all = append(all, chapter(fmt.Sprint("c", i), rows, i == 0))
		}
		if n := pages(t, all...); n != c.pages {
			t.Errorf("%s: %d pages, not %d", c.name, n, c.pages)
		}
	}
	if most <= full {
		t.Errorf("%d rows go on a page, %d at full size: nothing was set smaller", most, full)
	}
}

// rowsAtFullSize is how many rows of a line each go under a chapter's title on a page of A4, by the
// measures of the letters.
func (p *printer) rowsAtFullSize() int {
	row := tablePt*ptMM*1.25 + 1.2
	room := p.pageH - foot - edge - 3 - headPt*ptMM*line - 2.5 - row
	return int(room / row)
}

// Empty rows to write into begin no page where one of them stands already.
func TestEmptyRowsBeginNoPage(t *testing.T) {
	blanks := func(rows, empty int) Chapter {
		g := listOf(rows)
		for range empty {
			g.Rows = append(g.Rows, []string{"", ""})
		}
		return Chapter{ID: fmt.Sprint(rows, " and ", empty), Title: "As built", NewPage: true, Items: []Item{{Kind: Blanks, Block: form.Block{Grid: g}}}}
	}
	var five, one []Chapter
	for rows := 20; rows < 40; rows++ {
		five, one = append(five, blanks(rows, 5)), append(one, blanks(rows, 1))
	}
	without := taken(one)
	for i, with := range taken(five) {
		if with != without[i] {
			t.Errorf("%d rows: %d pages with five empty rows, %d with one", 20+i, with, without[i])
		}
	}
	if without[0] != 1 || without[len(without)-1] != 2 {
		t.Errorf("%v pages: nothing runs over", without)
	}
}

// A sheet to hand over that no scale keeps on one page is set as large as takes no more pages than the smallest.
func TestSheetOfManyPagesIsSetLarge(t *testing.T) {
	for lines := 60; lines < 200; lines += 10 {
		c := Chapter{ID: "owner", Title: "For the owner", NewPage: true, OnePage: true}
		for range lines {
			c.Items = append(c.Items, Item{Kind: Words, Text: "The unit gets what it needs."})
		}
		b := sample()
		b.Chapters = []Chapter{c}
		p := b.printer()
		scale := p.fits(0)
		pages, least := p.tried().pagesOf(scale, c), p.tried().pagesOf(leastScale, c)
		if pages != least {
			t.Errorf("%d lines take %d pages at %.2f and %d at the least", lines, pages, scale, least)
		}
		if scale < 1 && p.tried().pagesOf(scale+scaleStep, c) <= least {
			t.Errorf("%d lines are set at %.2f; larger they take %d pages too", lines, scale, least)
		}
	}
}
