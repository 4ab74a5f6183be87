package drawing

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// notToBeBuilt is what stands across a drawing of a plan with an error.
const notToBeBuilt = "NOT TO BE BUILT"

// warnAcross writes across every page that it is not to be built, and the first reason.
func warnAcross(pages []*scene.Scene, fault *graph.Diagnostic, units quantity.System) {
	if fault == nil {
		return
	}
	for _, s := range pages {
		w, h := s.WidthMM, s.HeightMM
		turn := math.Atan2(h, w) * 180 / math.Pi
		em := 0.72 * math.Hypot(w, h) / scene.TextWidth(notToBeBuilt, 1, true)
		em = math.Min(em, h/6)
		s.Add(scene.Text{At: scene.Point{X: w / 2, Y: h / 2}, Text: notToBeBuilt, SizeMM: em, Bold: true, Grey: 0.55,
			Anchor: scene.Centre, Middle: true, TurnDeg: turn, Tag: "not-to-be-built"})
		const edge, size = 24.0, 3.2
		lines := sheet.Wrap(notToBeBuilt+": "+graph.Inert(fault.Message.In(units)), size, w-2*edge-8, true)
		high := float64(len(lines))*size*1.35 + 3
		s.Add(scene.Rect(edge, 12, w-2*edge, high, scene.Filled(1)), scene.Rect(edge, 12, w-2*edge, high, scene.Stroke(sheet.Thick)))
		for i, l := range lines {
			s.Add(scene.Text{At: scene.Point{X: w / 2, Y: 12 + 1.5 + size*1.35*(float64(i)+0.5)}, Text: l, SizeMM: size, Bold: true,
				Anchor: scene.Centre, Middle: true, Tag: "reason"})
		}
	}
}
