package sheet

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
)

// Line widths in mm, from the series of ISO 128 (steps of √2).
const (
	Hair  = 0.18 // projection, hatching
	Fine  = 0.25 // dimension and leader lines, title block
	Thin  = 0.35 // existing pipe, symbols
	Thick = 0.7  // new pipe, frame
)

// LeastEm is the least size of letters on any paper, mm: their capitals, 0.729 of it, are
// then 1.8 mm high (ISO 3098's least size, from memory).
const LeastEm = 2.5

// Format is a paper size: of ISO 216, or of the letter sizes of North America.
type Format int

// The formats.
const (
	A4 Format = iota
	A3
	Letter
)

// Orientation is how the paper lies.
type Orientation int

// The orientations.
const (
	Landscape Orientation = iota
	Portrait
)

// Size returns width and height in mm.
func (f Format) Size(o Orientation) (w, h float64) {
	w, h = 297, 210
	switch f {
	case A3:
		w, h = 420, 297
	case Letter:
		w, h = 279.4, 215.9
	}
	if o == Portrait {
		w, h = h, w
	}
	return w, h
}

// Margins of the frame and sizes of the title block, mm.
const (
	marginLeft  = 20.0
	margin      = 10.0
	blockWidth  = 180.0
	blockHeight = 24.0
	gap         = 2.0 // between what stands on the sheet
)

// Head is what the title block says. Empty fields stay empty, to be filled in by hand.
type Head struct {
	Title      string // of the job
	Document   string // kind of document: "Schematic", "Isometric of the new work"
	Reference  string
	Revision   string
	Date       string // ISO 8601
	PreparedBy string
	Scale      string // "" means "not to scale"
	Symbols    string // the standard the symbols follow: "symbols after ISO 10628-2"; may be empty
	Sheet, Of  int    // 0, 0: 1 of 1
}

// HeadOf returns the head of a job's document.
func HeadOf(job graph.Job, document string) Head {
	return Head{Title: job.Name, Document: document, Reference: job.Reference,
		Revision: job.Revision, Date: job.Date, PreparedBy: job.PreparedBy}
}

// Sheet is one page with its frame and title block drawn.
type Sheet struct {
	Scene *scene.Scene
	area  scene.Box
	left  scene.Box // beside the title block; empty where there is no room or it is used
}

// New returns a sheet with frame and title block.
func New(f Format, o Orientation, h Head) *Sheet {
	w, ht := f.Size(o)
	if h.Sheet <= 0 {
		h.Sheet = 1
	}
	if h.Of < h.Sheet {
		h.Of = h.Sheet
	}
	s := &Sheet{Scene: &scene.Scene{Name: name(h), WidthMM: w, HeightMM: ht}}
	frame := scene.Box{MinX: marginLeft, MinY: margin, MaxX: w - margin, MaxY: ht - margin}
	s.Scene.Add(scene.Rect(frame.MinX, frame.MinY, frame.W(), frame.H(), scene.Stroke(Thick)).Named("frame"))
	block := scene.Box{MinX: frame.MaxX - blockWidth, MinY: frame.MaxY - blockHeight, MaxX: frame.MaxX, MaxY: frame.MaxY}
	s.titleBlock(block, h)
	s.area = scene.Box{MinX: frame.MinX + gap, MinY: frame.MinY + gap, MaxX: frame.MaxX - gap, MaxY: block.MinY - gap}
	if block.MinX-frame.MinX > 40 {
		s.left = scene.Box{MinX: frame.MinX + gap, MinY: block.MinY, MaxX: block.MinX - gap, MaxY: frame.MaxY - gap/2}
	}
	return s
}

func name(h Head) string {
	if h.Of > 1 {
		return fmt.Sprintf("%s, sheet %d of %d", h.Document, h.Sheet, h.Of)
	}
	return h.Document
}

// Area returns the rectangle that is free for the drawing. It shrinks with every call of
// Legend and Notes.
func (s *Sheet) Area() scene.Box { return s.area }

// Add puts items on the sheet.
func (s *Sheet) Add(items ...scene.Item) { s.Scene.Add(items...) }

// take cuts a strip of the height off the foot of the free area and returns it.
func (s *Sheet) take(height float64) scene.Box {
	strip := scene.Box{MinX: s.area.MinX, MinY: s.area.MaxY - height, MaxX: s.area.MaxX, MaxY: s.area.MaxY}
	s.area.MaxY -= height + gap
	return strip
}

// Page is the paper a drawing is wanted on. The zero Page is A4, lying as the drawing needs it.
type Page struct {
	Format      Format
	Orientation Orientation
	Fixed       bool // the user said so
	First       int  // number of the drawing's first sheet among its papers; 0: 1
}

// ParsePage reads "a4", "a3", "letter", "a4 portrait", "a3 landscape" in any case.
func ParsePage(text string) (Page, error) {
	p := Page{Fixed: true}
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(text, "-", " ")))
	for i, w := range words {
		switch {
		case i == 0 && w == "a4":
		case i == 0 && w == "a3":
			p.Format = A3
		case i == 0 && w == "letter":
			p.Format = Letter
		case i == 1 && w == "landscape":
		case i == 1 && w == "portrait":
			p.Orientation = Portrait
		default:
			return Page{}, fmt.Errorf("page %q is not known; it is a4, a3 or letter, landscape or portrait", text)
		}
	}
	if len(words) == 0 || len(words) > 2 {
		return Page{}, fmt.Errorf("page %q is not known; it is a4, a3 or letter, landscape or portrait", text)
	}
	return p, nil
}
