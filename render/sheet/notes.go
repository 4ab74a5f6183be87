package sheet

import (
	"fmt"
	"slices"

	"dryfit/render/scene"
)

// Sizes of notes and legend, mm.
const (
	noteEm   = LeastEm
	noteLine = 3.4
	headEm   = 2.7
	headLine = 4.0
)

// Notes writes numbered notes beside the title block where they fit there, else in a strip
// across the sheet above it, and takes that strip from the free area. Long notes are
// wrapped; of more than a third of the sheet's height the last are left out, and it is said which.
func (s *Sheet) Notes(notes ...string) {
	if len(notes) == 0 {
		return
	}
	if !s.left.IsEmpty() && s.left.W() > 0 {
		lines := noteLines(notes, s.left.W())
		if headLine+float64(len(lines))*noteLine <= s.left.H() {
			s.writeNotes(s.left, lines, 1, len(lines))
			s.left = scene.Empty()
			return
		}
	}
	columns := max(1, int(s.area.W()/80))
	width := s.area.W()/float64(columns) - 3
	lines := noteLines(notes, width)
	rows := (len(lines) + columns - 1) / columns
	for columnsFor(lines, rows) > columns { // a note stays in one column
		rows++
	}
	if most := int((s.Scene.HeightMM/3 - headLine) / noteLine); rows > most {
		rows = most
		if len(lines) > rows*columns {
			lines = cutNotes(lines, rows*columns, len(notes))
		}
		for i := range lines {
			lines[i].first = false // no room to keep notes whole
		}
	}
	s.writeNotes(s.take(headLine+float64(rows)*noteLine+1), lines, columns, rows)
}

// cutNotes keeps as many lines of so many notes as go on the sheet; the last says which notes are left out,
// in whole or in part.
func cutNotes(lines []noteLineText, most, notes int) []noteLineText {
	most = max(most, 1)
	first := 1 // of those left out
	for i, l := range lines[:most-1] {
		if l.first && i+noteLength(lines, i) <= most-1 {
			first++
		}
	}
	words := fmt.Sprintf("… notes %d to %d have no room here", first, notes)
	if first == notes {
		words = fmt.Sprintf("… note %d has no room here", first)
	}
	return append(slices.Clone(lines[:most-1]), noteLineText{text: words})
}

// columnsFor returns how many columns of the rows the lines take where a column breaks only
// before a note; a note longer than a column makes it too many.
func columnsFor(lines []noteLineText, rows int) int {
	columns, used := 1, 0
	for i := 0; i < len(lines); {
		n := noteLength(lines, i)
		if used+n > rows {
			columns, used = columns+1, 0
			if n > rows {
				return len(lines) + 1
			}
		}
		used += n
		i += n
	}
	return columns
}

// noteLength returns how many lines the note has that begins at line i.
func noteLength(lines []noteLineText, i int) int {
	n := 1
	for i+n < len(lines) && !lines[i+n].first {
		n++
	}
	return n
}

type noteLineText struct {
	text   string
	indent float64
	first  bool // begins a note
}

func noteLines(notes []string, width float64) []noteLineText {
	const indent = 4.0
	var out []noteLineText
	for i, n := range notes {
		for j, l := range Wrap(n, noteEm, width-indent, false) {
			if j == 0 {
				out = append(out, noteLineText{text: number(i+1) + l, first: true})
			} else {
				out = append(out, noteLineText{text: l, indent: indent})
			}
		}
	}
	return out
}

// number returns the note's number and the space that brings the text to the indent.
func number(n int) string {
	digits := ""
	for v := n; v > 0; v /= 10 {
		digits = string(rune('0'+v%10)) + digits
	}
	return digits + "  "
}

func (s *Sheet) writeNotes(b scene.Box, lines []noteLineText, columns, rows int) {
	s.Scene.Add(scene.Text{At: scene.Point{X: b.MinX, Y: b.MinY + headEm}, Text: "Notes", SizeMM: headEm, Bold: true})
	width := b.W() / float64(columns)
	column, row := 0, 0
	for i, l := range lines {
		if row == rows || (l.first && row+noteLength(lines, i) > rows) {
			column, row = column+1, 0
		}
		at := scene.Point{X: b.MinX + float64(column)*width + l.indent, Y: b.MinY + headLine + noteLine*float64(row) + noteEm}
		s.Scene.Add(scene.Text{At: at, Text: l.text, SizeMM: noteEm, Name: "note"})
		row++
	}
}

// Entry is one line of the legend: a symbol drawn about the origin, W by H mm, and what it
// means.
type Entry struct {
	Symbol []scene.Item
	W, H   float64
	Text   string
}

// Legend draws the entries in a strip across the sheet above the title block and takes
// that strip from the free area.
func (s *Sheet) Legend(entries ...Entry) {
	if len(entries) == 0 {
		return
	}
	const symbolW, usual, leastColumns = 13.0, 6.4, 3
	most := usual
	for _, e := range entries {
		most = max(most, e.H*readable(e.Symbol)+0.8)
	}
	columns, widest := max(1, int(s.area.W()/43)), 0.0
	for _, e := range entries {
		widest = max(widest, scene.TextWidth(e.Text, LeastEm, false)+symbolW+1.6)
	}
	for columns > leastColumns && s.area.W()/float64(columns) < widest { // so that no text is cut off
		columns--
	}
	rows := (len(entries) + columns - 1) / columns
	columns = (len(entries) + rows - 1) / rows
	width := s.area.W() / float64(columns)
	b := s.take(float64(rows)*most + headLine + 0.5)
	s.Scene.Add(scene.Line(scene.Point{X: b.MinX, Y: b.MinY}, scene.Point{X: b.MaxX, Y: b.MinY}, scene.Stroke(Fine)).Named("legend"))
	s.Scene.Add(scene.Text{At: scene.Point{X: b.MinX, Y: b.MinY + headEm + 0.8}, Text: "Legend", SizeMM: headEm, Bold: true})
	for i, e := range entries {
		x := b.MinX + float64(i%columns)*width
		y := b.MinY + headLine + most*(float64(i/columns)+0.5)
		k := 1.0
		if e.W > 0 {
			k = min(k, (symbolW-2)/e.W)
		}
		if e.H > 0 {
			k = min(k, (usual-0.8)/e.H)
		}
		k = max(k, readable(e.Symbol))
		c := scene.Point{X: x + symbolW/2, Y: y}
		for _, it := range e.Symbol {
			s.Scene.Add(moved(it, c, k))
		}
		text, size := Shrink(e.Text, noteEm+0.2, LeastEm, width-symbolW-1.5, false)
		s.Scene.Add(scene.Text{At: scene.Point{X: x + symbolW + 0.5, Y: y}, Text: text, SizeMM: size, Middle: true, Name: "legend"})
	}
}

// readable is the smallest scale of a symbol at which its letters can be read; 0 for one
// without letters.
func readable(symbol []scene.Item) float64 {
	k := 0.0
	for _, it := range symbol {
		if t, ok := it.(scene.Text); ok && t.SizeMM > 0 {
			k = max(k, LeastEm/t.SizeMM)
		}
	}
	return min(1, k)
}

// moved returns the item scaled by k about the origin and moved to c. Line widths stay.
func moved(it scene.Item, c scene.Point, k float64) scene.Item {
	f := func(p scene.Point) scene.Point { return scene.Point{X: c.X + k*p.X, Y: c.Y + k*p.Y} }
	switch it := it.(type) {
	case scene.Shape:
		return it.Map(f)
	case scene.Text:
		it.At = f(it.At)
		it.SizeMM *= k
		return it
	}
	return it
}
