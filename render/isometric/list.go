package isometric

import (
	"dryfit/catalog/quantity"
	"dryfit/graph/route"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// Layout of the lists of pieces, mm.
const (
	listRow  = 8.6
	listWide = 118.0
)

// pieceLists gathers the pieces whose number stands on no drawing, page by page.
func pieceLists(d *drawing, groups []group) [][]*route.Piece {
	ringed := map[int]bool{}
	for _, g := range groups {
		for n := range g.pic.ringed {
			ringed[n] = true
		}
	}
	var left []*route.Piece
	for i := range d.lay.Pieces {
		if p := &d.lay.Pieces[i]; !ringed[p.Number] {
			left = append(left, p)
		}
	}
	columns, rows := listGrid(d)
	var out [][]*route.Piece
	for each := columns * rows; len(left) > 0; {
		n := min(each, len(left))
		out = append(out, left[:n])
		left = left[n:]
	}
	return out
}

// listGrid is how many columns and rows of pieces one page holds.
func listGrid(d *drawing) (columns, rows int) {
	s := sheet.New(d.in.Page.Format, d.in.Page.Orientation, headOf(d, 0, 1, false))
	s.Notes(listNotes(d)...)
	return max(1, int(s.Area().W()/listWide)), int(s.Area().H() / listRow)
}

func listNotes(d *drawing) []string {
	return []string{"Pieces of the cut list that have no place on the drawings: how long each is cut, and the joints at its two ends."}
}

// listPage draws pieces in circles with their lengths and where they go.
func listPage(d *drawing, pieces []*route.Piece, k, n int) *scene.Scene {
	h := headOf(d, k, n, false)
	h.Document = "Pieces not on the drawings"
	s := sheet.New(d.in.Page.Format, d.in.Page.Orientation, h)
	s.Notes(listNotes(d)...)
	_, rows := listGrid(d)
	for i, p := range pieces {
		x := s.Area().MinX + 4 + float64(i/rows)*listWide
		y := s.Area().MinY + listRow*(float64(i%rows)+0.5)
		text := number(p.Number)
		s.Add(scene.Circle(scene.Point{X: x, Y: y}, ringR(scene.TextWidth(text, pieceEm, true)), scene.Outline(sheet.Fine)).Tagged("ring"),
			scene.Text{At: scene.Point{X: x, Y: y}, Text: text, SizeMM: pieceEm, Bold: true, Anchor: scene.Centre, Middle: true, Tag: "label:piece"})
		end := func(e route.End) string {
			if e.Joint == 0 {
				return d.names.End(e.Fitting)
			}
			return tag.Joint(e.Joint) + " " + d.names.End(e.Fitting)
		}
		words := quantity.Format(p.CutMM, quantity.Length, d.in.Units)
		if p.OverMM > 0 {
			words += " + " + quantity.Format(p.OverMM, quantity.Length, d.in.Units) + " over"
		}
		words += ": " + end(p.From) + " – " + end(p.To)
		s.Add(scene.Text{At: scene.Point{X: x + 8, Y: y}, Text: sheet.Fit(words, textEm, listWide-14, false), SizeMM: textEm, Middle: true, Tag: "piece-list"})
	}
	return s.Scene
}
