package detail

import (
	"math"

	"dryfit/render/scene"
	"dryfit/render/sheet"
)

const (
	dimEm      = 2.6
	leastDimEm = 1.9
	arrowMM    = 2.2
	overshot   = 1.2 // of the extension lines
)

// dimension draws a dimension line between two places on a line across the extension
// lines, with its text over it: along the sheet at y, or with upright up it at x. from0 and
// from1 are where the extension lines begin. under puts the text on the other side of the
// line.
func dimension(a, b, at, from0, from1 float64, text string, upright, under bool) []scene.Item {
	if a > b {
		a, b, from0, from1 = b, a, from1, from0
	}
	pt := func(along, across float64) scene.Point {
		if upright {
			return scene.Point{X: across, Y: along}
		}
		return scene.Point{X: along, Y: across}
	}
	ext := func(along, from float64) scene.Item {
		over := overshot
		if from > at {
			over = -overshot
		}
		return scene.Line(pt(along, from), pt(along, at+over), scene.Stroke(sheet.Hair)).Tagged("extension")
	}
	items := []scene.Item{ext(a, from0), ext(b, from1)}
	st := scene.Stroke(sheet.Hair)
	if b-a >= 2*arrowMM+1 {
		items = append(items, scene.Line(pt(a, at), pt(b, at), st).Tagged("dimension"),
			scene.Arrow(pt(a, at), pt(-1, 0), arrowMM, 1, scene.Filled(0)), scene.Arrow(pt(b, at), pt(1, 0), arrowMM, 1, scene.Filled(0)))
	} else { // arrows from outside
		items = append(items, scene.Line(pt(a-arrowMM-1, at), pt(b+arrowMM+1, at), st).Tagged("dimension"),
			scene.Arrow(pt(a, at), pt(1, 0), arrowMM, 1, scene.Filled(0)), scene.Arrow(pt(b, at), pt(-1, 0), arrowMM, 1, scene.Filled(0)))
	}
	em := dimEm
	if w := scene.TextWidth(text, em, false); w > b-a-0.6 {
		em = math.Max(leastDimEm, em*(b-a-0.6)/w)
	}
	off := -0.7
	if under {
		off = 0.7 + 0.75*em
	}
	t := scene.Text{At: pt((a+b)/2, at+off), Text: text, SizeMM: em, Anchor: scene.Centre, Halo: true, Tag: "dim"}
	if upright {
		t.TurnDeg = 90
	}
	return append(items, t)
}

// fits reports whether the text of a dimension goes between its extension lines, mm apart.
func fits(text string, apart float64) bool {
	return scene.TextWidth(text, leastDimEm, false) <= apart-0.6
}
