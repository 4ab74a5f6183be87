package isometric

import (
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// triad draws the axes and the arrow to the front of the tub about a point.
func triad(at scene.Point) []scene.Item {
	const l = 9.0
	st := scene.Stroke(sheet.Thin)
	var out []scene.Item
	arm := func(way graph.Vec, word string, dx, dy float64, anchor scene.Anchor) {
		tip := add(at, times(l, project(way)))
		out = append(out, scene.Line(at, tip, st).Tagged("triad"), scene.Arrow(tip, project(way), 2, 1.2, scene.Filled(0)).Tagged("triad"),
			scene.Text{At: add(tip, scene.Point{X: dx, Y: dy}), Text: word, SizeMM: sheet.LeastEm, Anchor: anchor, Middle: true, Tag: "triad"})
	}
	arm(graph.Vec{X: 1}, "right", 0.8, -0.8, scene.Start)
	arm(graph.Vec{Y: 1}, "back", -0.8, -0.8, scene.End)
	arm(graph.Vec{Z: 1}, "up", 0, -2, scene.Centre)
	u := project(graph.Vec{Y: -1})
	v := times(0.5, project(graph.Vec{X: 1}))
	base, tip := add(at, times(1.2, u)), add(at, times(8, u))
	neck := add(at, times(5.2, u))
	out = append(out, scene.Polygon([]scene.Point{add(base, v), add(neck, v), add(neck, times(3, v)), tip,
		sub(neck, times(3, v)), sub(neck, v), sub(base, v)}, scene.Filled(0)).Tagged("triad"),
		scene.Text{At: add(tip, scene.Point{X: -1, Y: 2.4}), Text: "front of the tub", SizeMM: sheet.LeastEm, Bold: true, Anchor: scene.Centre, Middle: true, Tag: "triad"})
	return out
}

// triadBox is what the triad takes up when it stands at a point.
func triadBox(at scene.Point) scene.Box { return scene.Bounds(triad(at)...).Grow(1) }

// triadAt finds a free corner for the triad; ok is false where the drawing fills them all.
func triadAt(p *picture, area scene.Box, o onto) (at scene.Point, ok bool) {
	b := triadBox(scene.Point{})
	var taken []scene.Box
	taken = append(taken, p.fixed...)
	for _, it := range append(append([]scene.Item{}, p.items...), p.labels...) {
		switch it := it.(type) {
		case scene.Text:
			taken = append(taken, scene.Bounds(it))
		case scene.Shape:
			taken = append(taken, outline(it, 0.3)...)
		}
	}
	for i := range taken {
		t := &taken[i]
		lo, hi := o.point(scene.Point{X: t.MinX, Y: t.MinY}), o.point(scene.Point{X: t.MaxX, Y: t.MaxY})
		*t = scene.Box{MinX: lo.X, MinY: lo.Y, MaxX: hi.X, MaxY: hi.Y}
	}
	left, right := area.MinX-b.MinX, area.MaxX-b.MaxX
	top, foot := area.MinY-b.MinY, area.MaxY-b.MaxY
	for _, at := range []scene.Point{{X: left, Y: foot}, {X: left, Y: top}, {X: right, Y: foot}, {X: right, Y: top}} {
		own := triadBox(at)
		free := true
		for i := range taken {
			free = free && !own.Overlaps(taken[i])
		}
		if free {
			return at, true
		}
	}
	return scene.Point{X: left, Y: foot}, false
}
