package form

import (
	"bytes"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// Block is one titled stretch of a list: a grid of cells, then lines of words. A terminal
// and a page print the same blocks.
type Block struct {
	Title string
	Grid  *Grid // nil: none
	Lines []string
}

// Grid is a table of texts.
type Grid struct {
	Header []string
	Right  []bool // columns set to the right; may be shorter than Header
	Widest []int  // on a terminal: characters after which a column's cells go on in a new line; 0: never
	Rows   [][]string
}

// Column is one column of a grid while it is put together.
type Column struct {
	Head   string
	Right  bool
	Widest int
}

// NewGrid returns a grid without rows.
func NewGrid(columns ...Column) *Grid {
	g := &Grid{}
	for _, c := range columns {
		g.Header = append(g.Header, c.Head)
		g.Right = append(g.Right, c.Right)
		g.Widest = append(g.Widest, c.Widest)
	}
	return g
}

// DropLast takes the last column out.
func (g *Grid) DropLast() {
	n := len(g.Header) - 1
	g.Header = g.Header[:n]
	g.Right, g.Widest = g.Right[:min(n, len(g.Right))], g.Widest[:min(n, len(g.Widest))]
	for i, row := range g.Rows {
		g.Rows[i] = row[:min(n, len(row))]
	}
}

// IsRight reports whether a column is set to the right.
func (g *Grid) IsRight(i int) bool { return i < len(g.Right) && g.Right[i] }

// Columns returns the grid with its first column and those from one to before another.
func (g *Grid) Columns(from, to int) *Grid {
	out := &Grid{Header: pick(g.Header, from, to), Right: pick(g.Right, from, to), Widest: pick(g.Widest, from, to)}
	for _, r := range g.Rows {
		out.Rows = append(out.Rows, pick(r, from, to))
	}
	return out
}

func pick[T any](all []T, from, to int) []T {
	out := slices.Clone(all[:min(1, len(all))])
	return append(out, all[min(from, len(all)):min(to, len(all))]...)
}

// Add appends a row.
func (g *Grid) Add(cells ...string) { g.Rows = append(g.Rows, cells) }

// LineWidth is how many characters a line of words has on a terminal.
const LineWidth = 110

// Text prints blocks for a terminal, an empty line before every title but the first.
func Text(blocks []Block, s Style) []byte {
	var b bytes.Buffer
	for i, block := range blocks {
		if i > 0 && block.Title != "" {
			b.WriteByte('\n')
		}
		if block.Title != "" {
			b.WriteString(s.title(plain(block.Title)))
		}
		if block.Grid != nil {
			b.WriteString(s.grid(block.Grid))
		}
		for _, l := range block.Lines {
			b.WriteString(Wrapped(plain(l)) + "\n")
		}
	}
	return b.Bytes()
}

// grid prints a grid for a terminal.
func (s Style) grid(g *Grid) string {
	t := table.NewWriter()
	t.SetStyle(table.StyleLight)
	t.Style().Options = table.Options{DrawBorder: false, SeparateColumns: false, SeparateHeader: true}
	t.Style().Format.Header = text.FormatDefault
	if s.Colour {
		t.Style().Color.Header = text.Colors{text.Bold} //nolint:misspell // the name of the field
	}
	var config []table.ColumnConfig
	head := make(table.Row, len(g.Header))
	for i, h := range g.Header {
		head[i] = plain(h)
		c := table.ColumnConfig{Number: i + 1, WidthMaxEnforcer: text.WrapSoft}
		if g.IsRight(i) {
			c.Align, c.AlignHeader = text.AlignRight, text.AlignRight
		}
		if i < len(g.Widest) {
			c.WidthMax = g.Widest[i]
		}
		config = append(config, c)
	}
	t.SetColumnConfigs(config)
	t.AppendHeader(head)
	for _, row := range g.Rows {
		cells := make(table.Row, len(row))
		for i, c := range row {
			cells[i] = plain(c)
		}
		t.AppendRow(cells)
	}
	return trimLines(t.Render()) + "\n"
}

// lead is what stands before the words of a line: an indent, and a dash or a number.
var lead = regexp.MustCompile(`^ *(- |\d+\. )?`)

// Wrapped breaks a line of words that is too long for a terminal; what goes on in a new
// line stands under the words after a dash or a number, else two characters further in.
func Wrapped(line string) string {
	if utf8.RuneCountInString(line) <= LineWidth {
		return line
	}
	first := lead.FindString(line)
	words := strings.Split(line[len(first):], " ")
	indent := strings.Repeat(" ", len(first))
	if strings.TrimLeft(first, " ") == "" {
		indent += "  "
	}
	var b strings.Builder
	b.WriteString(first + words[0])
	at := len(first) + utf8.RuneCountInString(words[0])
	for _, w := range words[1:] {
		n := utf8.RuneCountInString(w)
		if at+1+n > LineWidth {
			b.WriteString("\n" + indent)
			at = len(indent)
		} else {
			b.WriteByte(' ')
			at++
		}
		b.WriteString(w)
		at += n
	}
	return b.String()
}

// trimLines cuts blanks off the ends of lines.
func trimLines(s string) string {
	lines := strings.Split(s, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// title prints a heading line.
func (s Style) title(t string) string {
	if s.Colour {
		return text.Bold.Sprint(t) + "\n"
	}
	return t + "\n"
}
