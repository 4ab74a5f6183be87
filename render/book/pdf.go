package book

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/go-pdf/fpdf"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
	"dryfit/render/table/form"
)

// Measures of the paper, mm, and sizes of letters, pt.
const (
	edge = 15.0
	foot = 16.0

	bodyPt  = 9.5
	leadPt  = 12.0
	tablePt = 8.0
	headPt  = 14.0
	subPt   = 10.5

	contentsPt = 8.5
	footPt     = 7.5
	line       = 1.32 // of a line by its letters' height
	ptMM       = 25.4 / 72
)

// PDF writes the book for paper: A4, a bookmark for each chapter and under it for its headings,
// sheets and what answers a question, page numbers, and every
// sheet at its true size on a page of its own. Equal books give equal bytes.
func (b *Book) PDF() ([]byte, error) {
	p := b.printer()
	p.print()
	var out bytes.Buffer
	if err := p.f.Output(&out); err != nil {
		return nil, fmt.Errorf("writing the book: %w", err)
	}
	return out.Bytes(), nil
}

func (b *Book) printer() *printer {
	w, h := b.text()
	return &printer{book: b, pageW: w, pageH: h, scale: 1, tight: 1}
}

// wide is the width of the text.
func (p *printer) wide() float64 { return p.pageW - 2*edge }

// printer writes the book page by page, and at the end, on the pages it has left, what is known
// only then.
type printer struct {
	book         *Book
	pageW, pageH float64

	f    *fpdf.Fpdf
	y    float64
	page int
	flow bool // the page in hand takes text

	feet   []int          // pages that want a foot
	starts map[string]int // page of each chapter
	listed []listed

	then  float64  // height of the hold point behind the item in hand, mm; 0: none follows
	scale float64  // of letters and of the room between them: 1, less on a page that has to hold all
	tight float64  // the scale of the chapters that share the pages in hand
	trial *printer // on which chapters are tried
}

// listed is a line of the contents whose page number is to be written at its right end.
type listed struct {
	chapter string
	page    int     // on which the contents stand
	x, y    float64 // right end and foot of the letters, mm
}

func (p *printer) print() {
	p.f = scene.NewPDF(p.book.Job.Name+": "+p.book.Kind, p.book.Job.Date)
	p.f.SetLang("en")
	p.starts = map[string]int{}
	p.newPage()
	p.f.Bookmark("Contents", 0, 0)
	p.front()
	for i, c := range p.book.Chapters {
		p.begin(c)
		p.scale = p.fits(i)
		p.starts[c.ID] = p.page
		p.f.Bookmark(scene.Visible(c.Title), 0, p.y+3)
		p.chapter(c)
		p.scale = 1
	}
	p.number()
}

// number writes the foot of every page of text, and where each chapter stands into the contents.
func (p *printer) number() {
	last := p.page
	_, high := p.f.GetPageSize()
	below := high - p.pageH // y is counted from the top of the last page, whichever is written on
	p.f.SetTextColor(60, 60, 60)
	p.f.SetFont(scene.PDFFont, "", footPt)
	name := p.fit(p.book.Job.Name, p.wide()-40)
	for _, page := range p.feet {
		p.f.SetPage(page)
		p.f.SetFont(scene.PDFFont, "", footPt)
		n := fmt.Sprintf("page %d of %d", page, last)
		p.f.Text(edge, below+p.pageH-9, name)
		p.f.Text(p.pageW-edge-p.f.GetStringWidth(n), below+p.pageH-9, n)
	}
	p.f.SetTextColor(0, 0, 0)
	for _, l := range p.listed {
		p.f.SetPage(l.page)
		p.f.SetFont(scene.PDFFont, "", contentsPt)
		n := fmt.Sprint(p.starts[l.chapter])
		p.f.Text(l.x-p.f.GetStringWidth(n), below+l.y, n)
	}
	p.f.SetPage(last)
}

// begin leaves the room that a chapter begins in.
func (p *printer) begin(c Chapter) {
	if c.NewPage || p.y > p.pageH-foot-60 {
		p.newPage()
	}
	p.room(28)
}

// chapter prints a chapter from where the page stands.
func (p *printer) chapter(c Chapter) {
	p.y += 3
	p.text(c.Title, headPt, true, 0, p.wide())
	p.f.SetLineWidth(0.5)
	p.f.SetDrawColor(0, 0, 0)
	p.f.Line(edge, p.y, p.pageW-edge, p.y)
	p.air(2.5)
	for i, it := range c.Items {
		if it.Kind == Heading {
			p.room(p.headed(c.Items[i:]))
		}
		p.then = 0
		if i+1 < len(c.Items) && c.Items[i+1].Kind == Hold {
			p.then = p.holdHeight(c.Items[i+1].Text)
		}
		p.item(it)
	}
}

// headed is how much room a heading wants with the beginning of what stands under it, mm: no
// page ends with a heading.
func (p *printer) headed(items []Item) float64 {
	const heading = 9
	if len(items) < 2 {
		return heading
	}
	switch next := items[1]; next.Kind {
	case Heading:
		return heading + p.headed(items[1:])
	case Table, Blanks:
		return heading + p.titled(next.Block, next.Kind == Blanks)
	case Picture:
		return heading + next.Scene.HeightMM + 14
	default:
		h := 2 * p.size(leadPt) * ptMM * line
		if next.Kind == Steps && len(next.Lines) == 1 && len(items) > 2 && items[2].Kind == Hold { // one step, which its hold goes with
			h = min(max(h, p.stepHeight(next.Lines[0])+p.holdHeight(items[2].Text)+holdAir), mostStart)
		}
		return heading + h
	}
}

// front is the title and the contents.
func (p *printer) front() {
	p.text(p.book.Job.Name, 20, true, 0, p.wide())
	p.y += 1
	p.text(strings.Join(p.book.head(), " · "), bodyPt, false, 0, p.wide())
	for _, n := range p.book.Job.Notes {
		p.text(n, bodyPt, false, 0, p.wide())
	}
	if note := p.book.letters(); note != "" {
		p.text(note, bodyPt, true, 0, p.wide())
	}
	p.y += 4
	if p.book.Bare {
		return
	}
	top, low := p.y, p.y
	for i, r := range sideBySide(p.book.readers()) {
		p.y = top
		for _, one := range r {
			p.contents(one, float64(i)*(p.wide()+contentsAir)/2, (p.wide()-contentsAir)/2)
		}
		low = max(low, p.y)
	}
	p.y = low
}

// contentsAir is the room between the two columns of the contents, mm.
const contentsAir = 12.0

// contents is what is for one reader, at a distance from the page's edge, in a column of a width.
func (p *printer) contents(r readerChapters, from, width float64) {
	p.text(r.Name, contentsPt, true, from, from+width)
	for _, c := range r.Chapters {
		y := p.y
		p.text(c.Title, contentsPt, false, from+4, from+width-8)
		p.listed = append(p.listed, listed{c.ID, p.page, edge + from + width, y + contentsPt*ptMM})
	}
	p.y += 1.5
}

// sideBySide shares the readers between two columns: the one with most to read has one to himself,
// so that the answer stands on the first page with the contents.
func sideBySide(all []readerChapters) [2][]readerChapters {
	most := 0
	for i, r := range all {
		if len(r.Chapters) > len(all[most].Chapters) {
			most = i
		}
	}
	var out [2][]readerChapters
	for i, r := range all {
		if i == most {
			out[1] = append(out[1], r)
		} else {
			out[0] = append(out[0], r)
		}
	}
	return out
}

// newPage begins a page for text.
func (p *printer) newPage() {
	p.f.AddPageFormat("P", fpdf.SizeType{Wd: p.pageW, Ht: p.pageH})
	p.page++
	p.y, p.flow = edge, true
	p.feet = append(p.feet, p.page)
}

// fit cuts a text at a width with the font in hand.
func (p *printer) fit(text string, width float64) string {
	text = scene.Visible(text)
	runes := []rune(text)
	for len(runes) > 1 && p.f.GetStringWidth(string(runes)) > width {
		runes = runes[:len(runes)-1]
	}
	return string(runes)
}

// room begins a page where less than h is left.
func (p *printer) room(h float64) {
	if !p.flow || p.y+h > p.pageH-foot {
		p.newPage()
	}
}

// wrap breaks a text into lines of a width with the font in hand.
func (p *printer) wrap(text string, width float64) []string {
	var out []string
	for _, para := range strings.Split(scene.Visible(text), "\n") {
		now := ""
		for _, word := range quantity.Unbroken(para) {
			for p.f.GetStringWidth(word) > width { // a word longer than the line is broken
				runes, n := []rune(word), 1
				if len(runes) < 2 { // no line is narrower than a letter
					break
				}
				for n < len(runes) && p.f.GetStringWidth(now+string(runes[:n+1])) <= width {
					n++
				}
				if now != "" {
					out, now = append(out, now), ""
					continue
				}
				out, word = append(out, string(runes[:n])), string(runes[n:])
			}
			switch {
			case now == "":
				now = word
			case p.f.GetStringWidth(now+" "+word) <= width:
				now += " " + word
			default:
				out, now = append(out, now), word
			}
		}
		out = append(out, now)
	}
	return out
}

// text writes a paragraph; a line that finds no room begins a page.
func (p *printer) text(text string, pt float64, bold bool, indent, width float64) {
	pt = p.size(pt)
	style := ""
	if bold {
		style = "B"
	}
	p.f.SetFont(scene.PDFFont, style, pt)
	for _, l := range p.wrap(text, width-indent) {
		p.room(pt * ptMM * line)
		p.f.SetFont(scene.PDFFont, style, pt)
		p.f.Text(edge+indent, p.y+pt*ptMM, l)
		p.y += pt * ptMM * line
	}
}

// bookmark sets the bookmark of an item where it begins, under that of its chapter.
func (p *printer) bookmark(it Item) {
	name := it.Bookmark
	if name == "" && (it.Kind == Heading || it.Kind == Sheet) {
		name = it.Text
	}
	if name == "" {
		return
	}
	switch it.Kind {
	case Sheet: // on the page that was begun for it
		p.f.Bookmark(scene.Visible(name), 1, 0)
		return
	case Heading:
		p.room(headingRoom)
	case Table, Blanks:
		p.room(p.titled(it.Block, it.Kind == Blanks))
	case Lead, Alert:
		p.room(p.size(leadPt) * ptMM * line)
	default:
		p.room(p.size(bodyPt) * ptMM * line)
	}
	p.f.Bookmark(scene.Visible(name), 1, p.y)
}

// headingRoom is the least room a heading begins in, mm.
const headingRoom = 16

func (p *printer) item(it Item) {
	if it.Kind != Sheet {
		p.bookmark(it)
	}
	switch it.Kind {
	case Words:
		p.text(it.Text, bodyPt, false, 0, p.wide())
		p.air(1.2)
	case Lead:
		p.text(it.Text, leadPt, false, 0, p.wide())
		p.air(1.5)
	case Heading:
		p.room(headingRoom)
		p.air(1.5)
		p.text(it.Text, subPt, true, 0, p.wide())
		p.air(0.8)
	case Hold:
		p.hold(it.Text)
	case Alert:
		p.text(it.Text, leadPt, true, 0, p.wide())
		p.bullets(it.Lines)
	case Bullets:
		p.bullets(it.Lines)
	case Steps:
		p.steps(it)
	case Table, Blanks:
		p.block(it.Block, it.Kind == Blanks)
	case Picture:
		p.picture(it)
	case Photo:
		p.photo(it)
	case Sheet:
		scene.PDFPage(p.f, it.Scene)
		p.bookmark(it)
		p.page++
		p.flow = false
	}
}

func (p *printer) bullets(lines []string) {
	for _, l := range lines {
		p.room(p.size(bodyPt) * ptMM * line)
		p.f.SetFont(scene.PDFFont, "", p.size(bodyPt))
		p.f.Text(edge+1, p.y+p.size(bodyPt)*ptMM, "•")
		p.text(l, bodyPt, false, 5, p.wide())
		p.air(0.6)
	}
	p.air(1)
}

// steps are numbered, each with a box to tick.
func (p *printer) steps(it Item) {
	for i, l := range it.Lines {
		p.f.SetFont(scene.PDFFont, "", p.size(bodyPt))
		need := min(p.stepHeight(l), 3*p.size(bodyPt)*ptMM*line)
		if i == len(it.Lines)-1 && p.then > 0 { // the last of them stands with what is waited for
			need = p.stepHeight(l) + p.then + holdAir
		}
		p.room(min(need, mostStart))
		p.f.SetFont(scene.PDFFont, "", p.size(bodyPt))
		p.f.SetLineWidth(0.25)
		p.f.Rect(edge, p.y+0.4, 3.2, 3.2, "D")
		n := fmt.Sprintf("%d", it.First+i)
		p.f.Text(edge+11-p.f.GetStringWidth(n), p.y+p.size(bodyPt)*ptMM, n)
		p.text(l, bodyPt, false, 14, p.wide())
		p.air(0.9)
	}
	p.air(0.8)
}

// holdAir is the room between a step and the hold point behind it, and under that, mm.
const holdAir = 4

// stepHeight is how high a step stands, mm.
func (p *printer) stepHeight(text string) float64 {
	p.f.SetFont(scene.PDFFont, "", p.size(bodyPt))
	return float64(len(p.wrap(text, p.wide()-14))) * p.size(bodyPt) * ptMM * line
}

// holdHeight is how high a point at which the work waits stands, mm.
func (p *printer) holdHeight(text string) float64 {
	p.f.SetFont(scene.PDFFont, "B", p.size(bodyPt))
	return float64(len(p.wrap(text, p.wide()-5))) * p.size(bodyPt) * ptMM * line
}

// hold is a bar at the edge and bold words.
func (p *printer) hold(text string) {
	h := p.holdHeight(text)
	p.room(h + 2)
	p.f.SetFillColor(0, 0, 0)
	p.f.Rect(edge, p.y, 1.2, h+1, "F")
	p.text(text, bodyPt, true, 4, p.wide())
	p.air(2.5)
}

// titled is how much room a block begins in: its title with the start of its table.
func (p *printer) titled(b form.Block, blanks bool) float64 {
	if b.Title == "" {
		return p.start(b.Grid, blanks)
	}
	p.f.SetFont(scene.PDFFont, "B", p.size(subPt))
	title := float64(len(p.wrap(b.Title, p.wide())))*p.size(subPt)*ptMM*line + 1.8
	return max(20, title+p.start(b.Grid, blanks))
}

// block writes a table with its head on every page, then its lines.
func (p *printer) block(b form.Block, blanks bool) {
	if b.Title != "" {
		p.room(p.titled(b, blanks))
		p.air(1)
		p.text(b.Title, subPt, true, 0, p.wide())
		p.air(0.8)
	}
	if b.Grid != nil && len(b.Grid.Header) > 0 {
		for _, part := range p.parts(b.Grid, blanks) {
			p.grid(part, blanks)
		}
	}
	for _, l := range b.Lines {
		p.text(strings.TrimSpace(l), tablePt+0.3, false, 0, p.wide())
		p.air(0.4)
	}
	p.air(1.5)
}

const (
	cellPad = 1.1  // mm, left and right of what a cell says
	hair    = 0.01 // mm: widths that are the same to the last digit but one
)

func (p *printer) grid(g *form.Grid, blanks bool) {
	p.room(p.start(g, blanks))
	widths, least := p.widths(g, blanks), p.leastRow(blanks)
	p.row(p.lines(g.Header, widths, true), widths, g, true, 0)
	rows := make([][][]string, len(g.Rows))
	for i, r := range g.Rows {
		rows[i] = p.lines(r, widths, false)
	}
	for i, lines := range rows {
		need := p.height(lines, least)
		if i > 0 && i == len(rows)-fewest { // the last few stay together
			few := need
			for _, more := range rows[i+1:] {
				few += p.height(more, least)
			}
			if few <= mostStart {
				need = few
			}
		}
		if p.y+need > p.pageH-foot {
			if i > 0 && empty(g.Rows[i-1:]) { // there is one to write into, and no page is begun for more
				break
			}
			p.newPage()
			p.row(p.lines(g.Header, widths, true), widths, g, true, 0)
		}
		p.row(lines, widths, g, false, least)
	}
	p.air(1.2)
}

// parts is a table as often as its columns want: one wider than the page, though words are broken in it, goes
// on in further ones below it, each with the first column before it; in these no word need be broken.
func (p *printer) parts(g *form.Grid, blanks bool) []*form.Grid {
	if _, fits := p.widthsFor(g, blanks, brokenWord); fits {
		return []*form.Grid{g}
	}
	least, _ := p.needs(g, blanks, narrowWord)
	var out []*form.Grid
	for from := 1; from == 1 || from < len(least); {
		to, wide := from, least[0]
		for to < len(least) && (to == from || wide+least[to] < p.wide()) {
			wide += least[to]
			to++
		}
		out = append(out, g.Columns(from, to))
		from = to
	}
	return out
}

// How long a word is, mm, that is not broken in a cell if that can be, and of which a cell holds so much
// in a table that is not parted.
const (
	narrowWord = 32.0
	brokenWord = 14.0
)

// empty reports whether nothing stands in the rows: they are for what is added by hand.
func empty(rows [][]string) bool {
	return !slices.ContainsFunc(rows, func(r []string) bool {
		return slices.ContainsFunc(r, func(cell string) bool { return cell != "" })
	})
}

// leastRow is how high a row is at the least, mm: one to be filled in has room for a hand.
func (p *printer) leastRow(blanks bool) float64 {
	if blanks {
		return 8 * p.scale
	}
	return 0
}

// mostStart is how much of a page at most is kept free for the start of a table, mm.
const mostStart = 60

// fewest is how many rows of a table stand alone on a page at the least.
const fewest = 3

// start is how much room a table begins in, mm: that of its head and its first two rows, or all of a
// few, which no page's end parts from one another or from their title.
func (p *printer) start(g *form.Grid, blanks bool) float64 {
	if g == nil || len(g.Header) == 0 {
		return 0
	}
	widths := p.widths(g, blanks)
	h := p.height(p.lines(g.Header, widths, true), 0)
	first := 2
	if len(g.Rows) <= fewest+1 { // parted, one of them would stand alone
		first = fewest + 1
	}
	for _, r := range g.Rows[:min(first, len(g.Rows))] {
		h += p.height(p.lines(r, widths, false), p.leastRow(blanks))
	}
	return min(max(h, 16), mostStart)
}

// widths shares the page's width out: every column what its longest word needs, then the
// rest by what its longest text would like.
func (p *printer) widths(g *form.Grid, blanks bool) []float64 {
	for _, longest := range []float64{60, 46, narrowWord, 26, 20} { // a key to be copied is broken only where nothing else helps
		if out, fits := p.widthsFor(g, blanks, longest); fits {
			return out
		}
	}
	out, _ := p.widthsFor(g, blanks, brokenWord) // an amount is narrower than that, and stays whole
	return out
}

// needs is how wide each column has to be, mm, with words broken that are longer than so many, and how
// wide it would like to be.
func (p *printer) needs(g *form.Grid, blanks bool, longest float64) (least, wish []float64) {
	n := len(g.Header)
	least, wish = make([]float64, n), make([]float64, n)
	measure := func(cells []string, bold bool) {
		style := ""
		if bold {
			style = "B"
		}
		p.f.SetFont(scene.PDFFont, style, p.size(tablePt))
		for i, c := range cells {
			if i >= n {
				break
			}
			c = scene.Visible(c)
			wish[i] = max(wish[i], p.f.GetStringWidth(c)+2*cellPad)
			for _, w := range quantity.Unbroken(c) {
				least[i] = max(least[i], min(p.f.GetStringWidth(w), longest)+2*cellPad)
			}
		}
	}
	measure(g.Header, true)
	for _, r := range g.Rows {
		measure(r, false)
	}
	if blanks {
		least[n-1] = max(least[n-1], 46)
		wish[n-1] = max(wish[n-1], 46)
	}
	for i := range least {
		least[i] = max(least[i], 4)
		wish[i] = max(wish[i], least[i])
	}
	return least, wish
}

func total(widths []float64) (sum float64) {
	for _, w := range widths {
		sum += w
	}
	return sum
}

// usual is how wide the columns of a table to be filled in would like to be, mm. Where not all find the room they
// wish for it goes by their texts in the mean of squares first: one long text in a column would else take the room
// from many in another, and a record of short lines run over its sheet.
func (p *printer) usual(g *form.Grid, least, wish []float64) []float64 {
	wished, sum := total(wish), 0.0
	if wished <= p.wide() || len(g.Rows) == 0 {
		return wish
	}
	out := make([]float64, len(wish))
	for i := range out {
		squares := 0.0
		for _, r := range g.Rows {
			if i < len(r) {
				w := p.f.GetStringWidth(scene.Visible(r[i])) + 2*cellPad
				squares += w * w
			}
		}
		out[i] = min(wish[i], max(least[i], math.Sqrt(squares/float64(len(g.Rows)))))
		sum += out[i]
	}
	if left := p.wide() - sum; left > 0 {
		for i := range out {
			out[i] += (wish[i] - out[i]) / (wished - sum) * left
		}
	}
	return out
}

// widthsFor is widths with words broken that are longer than so many mm, and whether all find room.
func (p *printer) widthsFor(g *form.Grid, blanks bool, longest float64) (out []float64, fits bool) {
	least, wish := p.needs(g, blanks, longest)
	if blanks {
		wish = p.usual(g, least, wish)
	}
	sumLeast, sumWish := total(least), total(wish)
	n := len(least)
	out = make([]float64, n)
	for i := range out {
		switch {
		case sumWish <= p.wide():
			out[i] = wish[i]
			if blanks && i == n-1 {
				out[i] += p.wide() - sumWish
			}
		case sumLeast >= p.wide():
			out[i] = least[i] / sumLeast * p.wide()
		default:
			out[i] = least[i] + (wish[i]-least[i])/(sumWish-sumLeast)*(p.wide()-sumLeast)
		}
	}
	return out, sumLeast < p.wide()
}

// lines breaks the cells of a row into lines.
func (p *printer) lines(cells []string, widths []float64, head bool) [][]string {
	style := ""
	if head {
		style = "B"
	}
	p.f.SetFont(scene.PDFFont, style, p.size(tablePt))
	out := make([][]string, min(len(cells), len(widths)))
	for i := range out {
		out[i] = p.wrap(cells[i], widths[i]-2*cellPad+hair) // as wide as its longest word, which is to fit
	}
	return out
}

// height is what a row takes.
func (p *printer) height(cells [][]string, least float64) float64 {
	most := 1
	for _, lines := range cells {
		most = max(most, len(lines))
	}
	return max(least, float64(most)*p.size(tablePt)*ptMM*1.25+1.2)
}

func (p *printer) row(cells [][]string, widths []float64, g *form.Grid, head bool, least float64) {
	h := p.height(cells, least)
	x := edge
	style := ""
	if head {
		style = "B"
		p.f.SetFillColor(235, 235, 235)
	}
	p.f.SetDrawColor(120, 120, 120)
	p.f.SetLineWidth(0.15)
	for i, w := range widths {
		how := "D"
		if head {
			how = "FD"
		}
		p.f.Rect(x, p.y, w, h, how)
		if i < len(cells) {
			p.f.SetFont(scene.PDFFont, style, p.size(tablePt))
			for k, l := range cells[i] {
				at := x + cellPad
				if g.IsRight(i) {
					at = x + w - cellPad - p.f.GetStringWidth(l)
				}
				p.f.Text(at, p.y+0.6+p.size(tablePt)*ptMM*(1.25*float64(k)+0.95), l)
			}
		}
		x += w
	}
	p.f.SetDrawColor(0, 0, 0)
	p.y += h
}
