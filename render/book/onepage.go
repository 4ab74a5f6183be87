package book

import "dryfit/render/scene"

// leastPt is the size below which no letter is set: its capitals stand 1.8 mm high.
const leastPt = 7.0

// size is the size of a letter in the chapter in hand, pt.
func (p *printer) size(pt float64) float64 {
	if p.scale == 1 {
		return pt
	}
	return max(min(pt, leastPt), pt*p.scale)
}

// air leaves room between two things, mm.
func (p *printer) air(mm float64) { p.y += mm * p.scale }

// fits is the scale at which a chapter is printed: 1, but for one that is a single page and does not
// fit on it so. One that fits at none is printed at the least, and runs over; one that shares its page
// with the title and the contents is then printed as large as any.
func (p *printer) fits(c Chapter) float64 {
	if !c.OnePage {
		return 1
	}
	if p.trial == nil {
		p.trial = p.book.printer()
		p.trial.f = scene.NewPDF(p.book.Job.Name, p.book.Job.Date)
	}
	scale := 1.0
	for ; scale > leastScale; scale -= scaleStep {
		if p.trial.pagesOf(c, scale) == 1 {
			return scale
		}
	}
	if !c.NewPage {
		return 1
	}
	return scale
}

// How small a chapter may be set, and by how much less it is tried each time.
const (
	leastScale = 0.72
	scaleStep  = 0.04
)

// pagesOf counts the pages a chapter takes by itself, or under the title and the contents.
func (p *printer) pagesOf(c Chapter, scale float64) int {
	p.page = 0
	p.newPage()
	p.scale = 1
	if !c.NewPage {
		p.front()
	}
	p.scale = scale
	p.chapter(c)
	return p.page
}
