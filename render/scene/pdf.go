package scene

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// undated stands in a PDF for the date of a job that has none.
var undated = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// PDF writes the pages, each at its own size and with a bookmark of its name, with the font
// embedded and the text searchable. The date is the job's, as ISO 8601 (2026-04-18); equal
// pages give equal bytes.
func PDF(pages []*Scene, title, date string) ([]byte, error) {
	if len(pages) == 0 {
		return nil, fmt.Errorf("no page to write")
	}
	f := NewPDF(title, date)
	for i, s := range pages {
		name := Visible(s.Name)
		if name == "" {
			name = fmt.Sprintf("sheet %d", i+1)
		}
		PDFPage(f, s)
		f.Bookmark(name, 0, 0)
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return nil, fmt.Errorf("writing the PDF: %w", err)
	}
	return b.Bytes(), nil
}

// PDFFont is the name under which the font stands in a document of NewPDF, with the styles ""
// and "B".
const PDFFont = "dejavu"

// NewPDF begins a document in mm with the font embedded, no margins and no page yet. The date
// is the job's, as ISO 8601; nothing else in the document depends on when it is made.
func NewPDF(title, date string) *fpdf.Fpdf {
	day, err := time.Parse(time.DateOnly, date)
	if err != nil {
		day = undated
	}
	f := fpdf.New("P", "mm", "A4", "")
	f.SetCatalogSort(true)
	f.SetCreationDate(day)
	f.SetModificationDate(day)
	f.SetTitle(Visible(title), true)
	f.SetCreator("dryfit", true)
	f.SetProducer("dryfit", true)
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.AddUTF8FontFromBytes(PDFFont, "", regular().ttf)
	f.AddUTF8FontFromBytes(PDFFont, "B", bold().ttf)
	return f
}

// PDFPage adds a page of a scene's own size and draws the scene on it.
func PDFPage(f *fpdf.Fpdf, s *Scene) {
	f.AddPageFormat("P", fpdf.SizeType{Wd: s.WidthMM, Ht: s.HeightMM})
	pdfItems(f, s, s.HeightMM)
}

// PDFDraw draws a scene on the page in hand, its upper left corner at a place on it, mm.
func PDFDraw(f *fpdf.Fpdf, s *Scene, x, y float64) {
	_, high := f.GetPageSize()
	f.TransformBegin()
	f.TransformTranslate(x, y)
	pdfItems(f, s, high)
	f.TransformEnd()
	f.SetDrawColor(0, 0, 0)
	f.SetTextColor(0, 0, 0)
	f.SetDashPattern(nil, 0)
}

func pdfItems(f *fpdf.Fpdf, s *Scene, pageHeight float64) {
	f.SetLineCapStyle("butt")
	f.SetLineJoinStyle("round")
	for _, it := range s.Items {
		switch it := it.(type) {
		case Shape:
			pdfShape(f, it)
		case Text:
			pdfText(f, it, pageHeight)
		}
	}
}

// Visible returns a text with what the font lacks, control characters and marks of direction
// replaced by signs that can be seen.
func Visible(text string) string { return visible(text, false) }

func pdfShape(f *fpdf.Fpdf, s Shape) {
	how := ""
	if s.Style.Fill {
		v := int(level(s.Style.FillGrey))
		f.SetFillColor(v, v, v)
		how = "F"
	}
	if s.Style.StrokeMM > 0 {
		v := int(level(s.Style.Grey))
		f.SetDrawColor(v, v, v)
		f.SetLineWidth(s.Style.StrokeMM)
		f.SetDashPattern(s.Style.Dash, 0)
		how += "D"
	}
	if how == "" || len(s.Paths) == 0 {
		return
	}
	pdfPaths(f, s.Paths)
	f.DrawPath(how)
}

func pdfPaths(f *fpdf.Fpdf, paths []SubPath) {
	for _, sp := range paths {
		f.MoveTo(sp.Start.X, sp.Start.Y)
		for _, g := range sp.Segments {
			if g.Curve {
				f.CurveBezierCubicTo(g.C1.X, g.C1.Y, g.C2.X, g.C2.Y, g.To.X, g.To.Y)
			} else {
				f.LineTo(g.To.X, g.To.Y)
			}
		}
		if sp.Closed {
			f.ClosePath()
		}
	}
}

func pdfText(f *fpdf.Fpdf, t Text, pageHeight float64) {
	set := set(t)
	if strings.TrimSpace(set.text) == "" || t.SizeMM <= 0 {
		return
	}
	if t.Halo { // as outlines, so that a search finds the text once
		f.SetDrawColor(255, 255, 255)
		f.SetLineWidth(2 * haloMM(t.SizeMM))
		f.SetDashPattern(nil, 0)
		pdfPaths(f, set.outlines(t.Bold))
		f.DrawPath("D")
	}
	style := ""
	if t.Bold {
		style = "B"
	}
	const ptPerMM = 72 / 25.4
	f.SetFont("dejavu", style, t.SizeMM*ptPerMM)
	v := int(level(t.Grey))
	f.SetTextColor(v, v, v)
	if t.TurnDeg == 0 && t.SkewDeg == 0 {
		f.Text(set.origin.X, set.origin.Y, set.text)
		return
	}
	// In PDF units Y is up from the page's foot: text set at the page's lower left corner
	// is moved to its place.
	f.TransformBegin()
	k := t.SizeMM
	f.Transform(fpdf.TransformMatrix{
		A: set.along.X / k, B: -set.along.Y / k,
		C: set.up.X / k, D: -set.up.Y / k,
		E: set.origin.X * ptPerMM, F: (pageHeight - set.origin.Y) * ptPerMM,
	})
	f.Text(0, pageHeight, set.text)
	f.TransformEnd()
}
