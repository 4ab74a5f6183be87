package sheet

import "dryfit/render/scene"

// GoneDash is the line of what the work takes out.
var GoneDash = []float64{2, 1.3}

const (
	crossMM  = 2.2 // half the arms of a cross on what is taken out
	crossPen = 0.5
)

// Cross is the cross on what is taken out.
func Cross(at scene.Point) scene.Shape {
	pt := func(x, y float64) scene.Point { return scene.Point{X: at.X + x, Y: at.Y + y} }
	return scene.Join(
		scene.Line(pt(-crossMM, -crossMM), pt(crossMM, crossMM), scene.Stroke(crossPen)),
		scene.Line(pt(-crossMM, crossMM), pt(crossMM, -crossMM), scene.Stroke(crossPen))).Named("gone")
}

// GoneEntry is the legend's entry for what is taken out.
func GoneEntry() Entry {
	return Entry{Symbol: []scene.Item{scene.Line(scene.Point{X: -6}, scene.Point{X: 6}, scene.Dashed(Thin, GoneDash...)), Cross(scene.Point{})},
		W: 12, H: 2 * crossMM, Text: "taken out"}
}
