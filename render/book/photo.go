package book

import (
	"bytes"

	"codeberg.org/go-pdf/fpdf"

	"dryfit/render/scene"
)

// photoHigh is how high a photo stands at most, mm: two of them go on a page.
const photoHigh = 105.0

// photo is a picture as wide as the text, or as high as it may be, with its words under it.
func (p *printer) photo(it Item) {
	w := p.wide()
	h := w * float64(it.Photo.Height) / float64(it.Photo.Width)
	if h > photoHigh {
		w, h = w*photoHigh/h, photoHigh
	}
	p.room(h + 8)
	how := fpdf.ImageOptions{ImageType: "JPG"}
	p.f.RegisterImageOptionsReader(it.File, how, bytes.NewReader(it.Photo.JPEG))
	p.f.ImageOptions(it.File, edge, p.y, w, h, false, how, 0, "")
	p.y += h + 1
	p.text(it.Text, tablePt, false, 0, p.wide())
	p.y += 3
}

// picture is a small drawing at its true size, with its words under it.
func (p *printer) picture(it Item) {
	h := it.Scene.HeightMM + tablePt*ptMM*line + 2
	p.room(h + 2*bodyPt*ptMM*line) // with a step under it
	scene.PDFDraw(p.f, it.Scene, edge, p.y)
	p.y += it.Scene.HeightMM + 0.5
	p.text(it.Text, tablePt, false, 0, p.wide())
	p.y += 1.5
}
