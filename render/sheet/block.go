package sheet

import (
	"fmt"

	"dryfit/render/scene"
)

const rowHeight = blockHeight / 3

// Letter heights (em) in the title block, mm.
const (
	captionEm = LeastEm
	fieldEm   = 3.0
	titleEm   = 4.4
)

// titleBlock draws the fields of ISO 7200:2004, clause 5 (from memory): owner's title,
// document type, reference, revision, date of issue, creator, approval person, sheet.
func (s *Sheet) titleBlock(b scene.Box, h Head) {
	const row = rowHeight
	x, y := b.MinX, b.MinY
	scale := h.Scale
	if scale == "" {
		scale = "not to scale"
	}
	s.cell(x, y, 42, "Prepared by", h.PreparedBy)
	s.cell(x+42, y, 30, "Approved by", "")
	s.cell(x+72, y, 48, "Document", h.Document)
	s.cell(x+120, y, 42, "Reference", h.Reference)
	s.cell(x+162, y, 18, "Revision", h.Revision)
	s.title(x, y+row, 108, 2*row, h.Title)
	s.cell(x+108, y+row, 40, "Date of issue", h.Date)
	s.cell(x+148, y+row, 32, "Sheet", fmt.Sprintf("%d of %d", h.Sheet, h.Of))
	s.cell(x+108, y+2*row, 40, "Scale", scale)
	s.cell(x+148, y+2*row, 32, "Symbols", h.Symbols)
	s.Scene.Add(scene.Rect(b.MinX, b.MinY, b.W(), b.H(), scene.Stroke(Thick)).Named("title-block"))
}

// cell draws one field: a small caption above its text.
func (s *Sheet) cell(x, y, w float64, caption, text string) {
	const h = rowHeight
	s.Scene.Add(scene.Rect(x, y, w, h, scene.Stroke(Fine)),
		scene.Text{At: scene.Point{X: x + 1.2, Y: y + 2.7}, Text: caption, SizeMM: captionEm})
	if text != "" {
		text, size := Shrink(text, fieldEm, LeastEm, w-2.4, false)
		s.Scene.Add(scene.Text{At: scene.Point{X: x + 1.2, Y: y + h - 1.4}, Text: text, SizeMM: size, Name: "title:" + caption})
	}
}

// title draws the job's name in one line if it fits, else in two.
func (s *Sheet) title(x, y, w, h float64, text string) {
	s.Scene.Add(scene.Rect(x, y, w, h, scene.Stroke(Fine)),
		scene.Text{At: scene.Point{X: x + 1.2, Y: y + 2.7}, Text: "Title", SizeMM: captionEm})
	size := titleEm
	lines := Wrap(text, size, w-2.4, true)
	if len(lines) > 2 {
		size = fieldEm
		lines = Wrap(text, size, w-2.4, true)
	}
	if len(lines) > 2 {
		lines = []string{lines[0], Fit(lines[1]+" …", size, w-2.4, true)}
	}
	at := y + 9.8
	if len(lines) > 1 {
		at = y + 7.6
	}
	for i, l := range lines {
		s.Scene.Add(scene.Text{At: scene.Point{X: x + 1.2, Y: at + float64(i)*size*1.35}, Text: l, SizeMM: size, Bold: true, Name: "title:Title"})
	}
}
