package isometric

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph/route"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
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
func pieceLists(d *members.Drawing, groups []group) [][]*route.Piece {
	ringed := map[int]bool{}
	for _, g := range groups {
		for n := range g.pic.Ringed {
			ringed[n] = true
		}
	}
	var left []*route.Piece
	for i := range d.Lay.Pieces {
		if p := &d.Lay.Pieces[i]; !ringed[p.Number] {
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
func listGrid(d *members.Drawing) (columns, rows int) {
	s := sheet.New(d.In.Page.Format, d.In.Page.Orientation, headOf(d, 0, 1, false, false))
	s.Notes(listNotes(true, true)...)
	return max(1, int(s.Area().W()/listWide)), int(s.Area().H() / listRow)
}

func listNotes(measured, onSite bool) []string {
	out := []string{"Pieces of the cut list that have no place on the drawings: how long each is cut, and the joints at its two ends."}
	if onSite {
		out = append(out, "Pieces with + are cut on site, when the unit stands.")
	}
	if measured {
		out = append(out, "Pieces with * hang on a part that has to be measured first: see the cut list.")
	}
	return out
}

// listPage draws pieces in circles with their lengths and where they go.
func listPage(d *members.Drawing, pieces []*route.Piece, k, n int) *scene.Scene {
	h := headOf(d, k, n, false, false)
	h.Document = "Pieces not on the drawings"
	s := sheet.New(d.In.Page.Format, d.In.Page.Orientation, h)
	s.Notes(listNotes(slices.ContainsFunc(pieces, func(p *route.Piece) bool { return p.Measure }), slices.ContainsFunc(pieces, func(p *route.Piece) bool { return p.OnSite }))...)
	_, rows := listGrid(d)
	for i, p := range pieces {
		x := s.Area().MinX + 4 + float64(i/rows)*listWide
		y := s.Area().MinY + listRow*(float64(i%rows)+0.5)
		text := picture.Number(p.Number)
		s.Add(scene.Circle(scene.Point{X: x, Y: y}, picture.RingR(scene.TextWidth(text, members.PieceEm, true)), scene.Outline(sheet.Fine)).Named("ring"),
			scene.Text{At: scene.Point{X: x, Y: y}, Text: text, SizeMM: members.PieceEm, Bold: true, Anchor: scene.Centre, Middle: true, Name: "label:piece"})
		end := func(e route.End) string {
			if e.Joint == 0 {
				return d.Names.End(e.Fitting)
			}
			return tag.Joint(e.Joint) + " " + d.Names.End(e.Fitting)
		}
		words := quantity.Format(p.CutMM, quantity.Length, d.In.Units)
		if p.OverMM > 0 {
			words += " + " + quantity.Format(p.OverMM, quantity.Length, d.In.Units) + " over"
		}
		if p.OnSite {
			words = "cut on site"
		}
		words += p.Signs()
		words += ": " + end(p.From) + " – " + end(p.To)
		s.Add(scene.Text{At: scene.Point{X: x + 8, Y: y}, Text: sheet.Fit(words, members.TextEm, listWide-14, false), SizeMM: members.TextEm, Middle: true, Name: "piece-list"})
	}
	return s.Scene
}
