package drawing

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// notToBeBuilt is what stands across a drawing of a plan with an error.
const notToBeBuilt = "NOT TO BE BUILT"

// faultOf is why a plan is not to be built, in the names of the papers; "" where it may be.
func faultOf(p *plan.Plan, units quantity.System) string {
	fault := p.Fault()
	if fault == nil {
		return ""
	}
	return tag.Of(p.Circuit, p.Net()).Text(fault.Message.In(units))
}

// warnAcross writes on every page that it is not to be built, and the reason, if there is one: in its
// title block, and as large as the drawing leaves room for it beside everything else.
func warnAcross(pages []*scene.Scene, reason string) {
	if reason == "" {
		return
	}
	for _, s := range pages {
		var taken []scene.Box
		for _, it := range s.Items {
			sh, ok := it.(scene.Shape)
			if ok && (sh.Name == "frame" || sh.Name == "title-block") {
				if sh.Name == "title-block" {
					s.Add(inBlock(scene.Bounds(sh))...)
				}
				continue
			}
			taken = append(taken, scene.Bounds(it).Grow(1.5))
		}
		frame := scene.Box{MinX: 22, MinY: 12, MaxX: s.WidthMM - 12, MaxY: s.HeightMM - 38}
		for _, wide := range []float64{170, 130, 100, 80, 60} {
			items, high := warning(reason, wide)
			if at, ok := free(frame, wide, high, taken); ok {
				for _, it := range items {
					s.Add(moved(it, at))
				}
				break
			}
		}
	}
}

// inBlock is the warning in a title block, over the title.
func inBlock(b scene.Box) []scene.Item {
	const x, y, w, h = 14.0, 8.3, 93.0, 3.4
	return []scene.Item{scene.Rect(b.MinX+x, b.MinY+y, w, h, scene.Stroke(sheet.Thin)),
		scene.Text{At: scene.Point{X: b.MinX + x + w/2, Y: b.MinY + y + h/2}, Text: notToBeBuilt + ": mend first", SizeMM: 2.9, Bold: true,
			Anchor: scene.Centre, Middle: true, Name: "not-to-be-built"}}
}

// warning is the box with the warning and its reason, its upper left corner at the origin.
func warning(reason string, wide float64) (items []scene.Item, high float64) {
	const size = 3.0
	em := math.Min(9, (wide-6)/scene.TextWidth(notToBeBuilt, 1, true))
	lines := sheet.Wrap(graph.Inert(reason), size, wide-6, false)
	if len(lines) > 3 { // a reason cut short may read as another: the book has it whole
		lines = sheet.Wrap("see the first page of the pack: mend first", size, wide-6, false)
	}
	high = em + 3 + float64(len(lines))*size*1.35
	items = append(items, scene.Rect(0, 0, wide, high, scene.Stroke(sheet.Thick)),
		scene.Text{At: scene.Point{X: wide / 2, Y: 1.2 + em/2}, Text: notToBeBuilt, SizeMM: em, Bold: true, Anchor: scene.Centre, Middle: true, Name: "not-to-be-built"})
	for i, l := range lines {
		items = append(items, scene.Text{At: scene.Point{X: wide / 2, Y: em + 1.4 + size*1.35*(float64(i)+0.5)}, Text: l, SizeMM: size,
			Anchor: scene.Centre, Middle: true, Name: "reason"})
	}
	return items, high
}

// free finds room for a box in the frame clear of what is taken: from the top, left to right.
func free(frame scene.Box, w, h float64, taken []scene.Box) (scene.Point, bool) {
	const step = 3.0
	for y := frame.MinY; y+h <= frame.MaxY; y += step {
		for x := frame.MinX; x+w <= frame.MaxX; x += step {
			b := scene.Box{MinX: x, MinY: y, MaxX: x + w, MaxY: y + h}
			ok := true
			for i := range taken {
				if b.Overlaps(taken[i]) {
					ok = false
					break
				}
			}
			if ok {
				return scene.Point{X: x, Y: y}, true
			}
		}
	}
	return scene.Point{}, false
}

// moved is an item moved by a way.
func moved(it scene.Item, by scene.Point) scene.Item {
	switch it := it.(type) {
	case scene.Shape:
		return it.Map(func(p scene.Point) scene.Point { return scene.Point{X: p.X + by.X, Y: p.Y + by.Y} })
	case scene.Text:
		it.At = scene.Point{X: it.At.X + by.X, Y: it.At.Y + by.Y}
		return it
	}
	return it
}
