package book

import (
	"slices"

	"dryfit/render/scene"
)

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
// fit on it so. One that fits at none runs over, printed as large as takes no more pages than at the least;
// one that shares its page with the title and the contents is then printed as large as any.
func (p *printer) fits(i int) float64 {
	c := p.book.Chapters[i]
	if !c.OnePage {
		if !c.NewPage {
			return p.tight
		}
		p.tight = p.tightened(p.book.together(i))
		return p.tight
	}
	p.tight = 1 // a chapter behind it stands on a page of its group
	scale, fits := p.largest(c, 1)
	switch {
	case fits:
		return scale
	case !c.NewPage:
		return 1
	}
	scale, _ = p.largest(c, p.tried().pagesOf(scale, c))
	return scale
}

// largest is the greatest scale at which a chapter takes so many pages, of those above the least; the least,
// and false, where none does.
func (p *printer) largest(c Chapter, pages int) (scale float64, fits bool) {
	for scale = 1; scale > leastScale; scale -= scaleStep {
		if p.tried().pagesOf(scale, c) <= pages {
			return scale, true
		}
	}
	return scale, false
}

// together are a chapter that begins a page and those that begin on its pages, as far as they are text.
func (b *Book) together(i int) []Chapter {
	var out []Chapter
	for k, c := range b.Chapters[i:] {
		if k > 0 && c.NewPage {
			break
		}
		if sheet := slices.IndexFunc(c.Items, func(it Item) bool { return it.Kind == Sheet }); sheet >= 0 {
			c.Items = c.Items[:sheet]
			return append(out, c)
		}
		out = append(out, c)
	}
	return out
}

// tightened is the scale of chapters of several pages: 1, but where little stands on the last one, and
// letters a little smaller do without that page.
func (p *printer) tightened(together []Chapter) float64 {
	for _, c := range together {
		if slices.ContainsFunc(c.Items, func(it Item) bool { return it.Kind == Photo }) {
			return 1 // as large as it was given, however small the words
		}
	}
	pages := p.tried().pagesOf(1, together...)
	if pages == 1 || p.trial.y > edge+lonely {
		return 1
	}
	for scale := 1 - scaleStep; scale > leastTight; scale -= scaleStep {
		if p.trial.pagesOf(scale, together...) < pages {
			return scale
		}
	}
	return 1
}

// tried is the printer on which chapters are tried.
func (p *printer) tried() *printer {
	if p.trial == nil {
		p.trial = p.book.printer()
		p.trial.f = scene.NewPDF(p.book.Job.Name, p.book.Job.Date)
	}
	return p.trial
}

// lonely is how little on a page of its own looks lost there, mm: a third of what A4 holds.
const lonely = 90.0

// How small a chapter may be set, and by how much less it is tried each time.
const (
	leastScale = 0.72
	leastTight = 0.86 // of one that may run over: what stands in tables keeps leastPt
	scaleStep  = 0.04
)

// pagesOf counts the pages that chapters take by themselves, or under the title and the contents.
func (p *printer) pagesOf(scale float64, together ...Chapter) int {
	p.page = 0
	p.newPage()
	p.scale = 1
	if !together[0].NewPage {
		p.front()
	}
	p.scale = scale
	for i, c := range together {
		if i > 0 {
			p.begin(c)
		}
		p.chapter(c)
	}
	return p.page
}
