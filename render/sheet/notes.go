package sheet

import (
	"dryfit/render/scene"
)

// Sizes of notes and legend, mm.
const (
	noteEm   = 2.3
	noteLine = 3.2
	headEm   = 2.5
	headLine = 3.8
)

// Notes writes numbered notes beside the title block where they fit there, else in a strip
// across the sheet above it, and takes that strip from the free area. Long notes are
// wrapped; more than a third of the sheet's height is cut short with "…".
func (s *Sheet) Notes(notes ...string) {
	if len(notes) == 0 {
		return
	}
	if !s.left.IsEmpty() && s.left.W() > 0 {
		lines := noteLines(notes, s.left.W())
		if headLine+float64(len(lines))*noteLine <= s.left.H() {
			s.writeNotes(s.left, lines, 1)
			s.left = scene.Empty()
			return
		}
	}
	columns := max(1, int(s.area.W()/80))
	width := s.area.W()/float64(columns) - 3
	lines := noteLines(notes, width)
	rows := (len(lines) + columns - 1) / columns
	if most := int((s.Scene.HeightMM/3 - headLine) / noteLine); rows > most {
		rows = most
		lines = lines[:rows*columns]
		lines[len(lines)-1].text = Fit(lines[len(lines)-1].text+" …", noteEm, width, false)
	}
	s.writeNotes(s.take(headLine+float64(rows)*noteLine+1), lines, columns)
}

type noteLineText struct {
	text   string
	indent float64
}

func noteLines(notes []string, width float64) []noteLineText {
	const indent = 4.0
	var out []noteLineText
	for i, n := range notes {
		for j, l := range Wrap(n, noteEm, width-indent, false) {
			if j == 0 {
				out = append(out, noteLineText{text: number(i+1) + l})
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

func (s *Sheet) writeNotes(b scene.Box, lines []noteLineText, columns int) {
	s.Scene.Add(scene.Text{At: scene.Point{X: b.MinX, Y: b.MinY + headEm}, Text: "Notes", SizeMM: headEm, Bold: true})
	rows := (len(lines) + columns - 1) / columns
	width := b.W() / float64(columns)
	for i, l := range lines {
		at := scene.Point{X: b.MinX + float64(i/rows)*width + l.indent, Y: b.MinY + headLine + noteLine*float64(i%rows) + noteEm}
		s.Scene.Add(scene.Text{At: at, Text: l.text, SizeMM: noteEm, Tag: "note"})
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
	const symbolW, most = 13.0, 6.4
	columns := max(1, int(s.area.W()/43))
	rows := (len(entries) + columns - 1) / columns
	columns = (len(entries) + rows - 1) / rows
	width := s.area.W() / float64(columns)
	b := s.take(float64(rows)*most + headLine + 0.5)
	s.Scene.Add(scene.Line(scene.Point{X: b.MinX, Y: b.MinY}, scene.Point{X: b.MaxX, Y: b.MinY}, scene.Stroke(Fine)).Tagged("legend"))
	s.Scene.Add(scene.Text{At: scene.Point{X: b.MinX, Y: b.MinY + headEm + 0.8}, Text: "Legend", SizeMM: headEm, Bold: true})
	for i, e := range entries {
		x := b.MinX + float64(i%columns)*width
		y := b.MinY + headLine + most*(float64(i/columns)+0.5)
		k := 1.0
		if e.W > 0 {
			k = min(k, (symbolW-2)/e.W)
		}
		if e.H > 0 {
			k = min(k, (most-0.8)/e.H)
		}
		c := scene.Point{X: x + symbolW/2, Y: y}
		for _, it := range e.Symbol {
			s.Scene.Add(moved(it, c, k))
		}
		text, size := Shrink(e.Text, noteEm+0.2, 1.9, width-symbolW-1.5, false)
		s.Scene.Add(scene.Text{At: scene.Point{X: x + symbolW + 0.5, Y: y}, Text: text, SizeMM: size, Middle: true, Tag: "legend"})
	}
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
