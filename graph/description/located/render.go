package located

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// tabWidth is how far apart tab stops are taken to be where a source line is shown.
const tabWidth = 4

// The longest stretch of a source line that is shown, in characters, and how much of it
// stands before the place that is meant.
const (
	shownWidth  = 100
	shownBefore = 60
)

// Render writes findings for a person, quantities in the units asked for: file:line:col, what is
// wrong and the rule in brackets, what it is in other modes, the line of the file with a caret
// under the place, a hint, and where the other half of the problem is. The sources are those of the files by name; a file that is not
// among them is shown without its line.
func Render(ds []graph.Diagnostic, sources map[string][]byte, units quantity.System, colour bool) string {
	lines := map[string][][]byte{}
	for name, data := range sources { // each into its own slot: the order does not matter
		lines[name] = bytes.Split(bytes.TrimPrefix(data, byteOrderMark), []byte("\n"))
	}
	p := palette{on: colour}
	var b strings.Builder
	for _, d := range graph.ByMode(ds, units) {
		fmt.Fprintf(&b, "%s: %s %s [%s]\n", where(d.Pos), p.severity(d.Severity), Inert(d.Lines[0]), d.Rule)
		for _, line := range d.Lines[1:] {
			fmt.Fprintf(&b, "    and %s\n", Inert(line))
		}
		excerpt(&b, lines[d.Pos.File], d.Pos, p)
		for _, hint := range d.Hints {
			fmt.Fprintf(&b, "    hint: %s\n", Inert(hint))
		}
		for _, r := range d.Related {
			fmt.Fprintf(&b, "    %s: %s\n", where(r.Pos), Inert(r.Message.In(units)))
		}
	}
	return b.String()
}

func where(p graph.Pos) string {
	if s := Inert(p.String()); s != "" {
		return s
	}
	return "description"
}

// palette colours by ANSI escapes, or not at all.
type palette struct{ on bool }

func (p palette) severity(s graph.Severity) string {
	codes := map[graph.Severity]string{graph.Error: "31", graph.Warning: "33", graph.Note: "36"}
	return p.paint(s.String()+":", "1;"+codes[s])
}

func (p palette) paint(text, code string) string {
	if !p.on {
		return text
	}
	return "\x1b[" + code + "m" + text + "\x1b[0m"
}

// excerpt writes the line of the file and a caret under the column, tabs set out as spaces.
func excerpt(b *strings.Builder, lines [][]byte, pos graph.Pos, p palette) {
	if !pos.IsValid() || pos.Line > len(lines) {
		return
	}
	text, caret := expand(string(bytes.TrimSuffix(lines[pos.Line-1], []byte("\r"))), pos.Column)
	shown := []rune(text)
	if len(shown) == 0 {
		return
	}
	before, after := "", ""
	if start := caret - shownBefore; len(shown) > shownWidth && start > 0 {
		before, shown, caret = "…", shown[start:], caret-start+1
	}
	if len(shown) > shownWidth {
		after, shown = "…", shown[:shownWidth]
	}
	fmt.Fprintf(b, "    %s%s%s\n", before, string(shown), after)
	fmt.Fprintf(b, "    %s%s\n", strings.Repeat(" ", caret), p.paint("^", "1;32"))
}

// expand sets out tabs as spaces and makes what a terminal would act on visible; it returns
// how many characters stand before the column.
func expand(line string, column int) (text string, before int) {
	var b strings.Builder
	width, at := 0, 0
	before = -1
	for i := 0; i < len(line); {
		c, n := utf8.DecodeRuneInString(line[i:])
		if at++; at == column {
			before = width
		}
		switch {
		case c == '\t':
			next := (width/tabWidth + 1) * tabWidth
			b.WriteString(strings.Repeat(" ", next-width))
			width = next
		case graph.Obeyed(c):
			b.WriteRune('�')
			width++
		default:
			b.WriteRune(c)
			width++
		}
		i += n
	}
	if before < 0 {
		before = width
	}
	return b.String(), before
}
