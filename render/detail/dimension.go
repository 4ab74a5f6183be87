package detail

import (
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

const (
	dimEm    = 2.6
	arrowMM  = 2.2
	overshot = 1.2 // of the extension lines
	dimLift  = 1.1 // of a text over its line: clear of the line with its tails
)

// dimension draws a dimension line between two places on a line across the extension
// lines: along the sheet at y = at, or with upright up it at x = at. from0 and from1 are where
// the extension lines begin. Its text stands over the line where it goes between the extension
// lines; else it wants a place near by.
func (d *drawing) dimension(a, b, at, from0, from1 float64, text string, upright bool) {
	if a > b {
		a, b, from0, from1 = b, a, from1, from0
	}
	pt := func(along, across float64) scene.Point {
		if upright {
			return scene.Point{X: across, Y: along}
		}
		return scene.Point{X: along, Y: across}
	}
	ext := func(along, from float64) {
		over := overshot
		if from > at {
			over = -overshot
		}
		d.solid(scene.Line(pt(along, from), pt(along, at+over), scene.Stroke(sheet.Hair)).Named("extension"))
	}
	ext(a, from0)
	ext(b, from1)
	st := scene.Stroke(sheet.Hair)
	if b-a >= 2*arrowMM+1 {
		d.solid(scene.Line(pt(a, at), pt(b, at), st).Named("dimension"),
			scene.Arrow(pt(a, at), pt(-1, 0), arrowMM, 1, scene.Filled(0)), scene.Arrow(pt(b, at), pt(1, 0), arrowMM, 1, scene.Filled(0)))
	} else { // arrows from outside
		d.solid(scene.Line(pt(a-arrowMM-1, at), pt(b+arrowMM+1, at), st).Named("dimension"),
			scene.Arrow(pt(a, at), pt(1, 0), arrowMM, 1, scene.Filled(0)), scene.Arrow(pt(b, at), pt(-1, 0), arrowMM, 1, scene.Filled(0)))
	}
	em := dimEm
	if w := scene.TextWidth(text, 1, false); w*em > b-a-1 {
		em = (b - a - 1) / w
	}
	if em < sheet.LeastEm {
		d.want(request{name: "dim", lines: []string{text}, plain: true, at: []scene.Point{pt((a+b)/2, at)}, em: sheet.LeastEm})
		return
	}
	t := scene.Text{At: pt((a+b)/2, at-dimLift), Text: text, SizeMM: em, Anchor: scene.Centre, Name: "dim"}
	if upright {
		t.TurnDeg = 90
	}
	d.solid(t)
}
