package isometric

import (
	"dryfit/graph"
	"dryfit/render/isometric/picture"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// triad draws the axes and the arrow to the front of the tub about a point.
func triad(at scene.Point) []scene.Item {
	const l = 9.0
	st := scene.Stroke(sheet.Thin)
	var out []scene.Item
	arm := func(way graph.Vec, word string, dx, dy float64, anchor scene.Anchor) {
		tip := space.Add(at, space.Times(l, space.Project(way)))
		out = append(out, scene.Line(at, tip, st).Named("triad"), scene.Arrow(tip, space.Project(way), 2, 1.2, scene.Filled(0)).Named("triad"),
			scene.Text{At: space.Add(tip, scene.Point{X: dx, Y: dy}), Text: word, SizeMM: sheet.LeastEm, Anchor: anchor, Middle: true, Name: "triad"})
	}
	arm(graph.Vec{X: 1}, "right", 0.8, -0.8, scene.Start)
	arm(graph.Vec{Y: 1}, "back", -0.8, -0.8, scene.End)
	arm(graph.Vec{Z: 1}, "up", 0, -2, scene.Centre)
	u := space.Project(graph.Vec{Y: -1})
	v := space.Times(0.5, space.Project(graph.Vec{X: 1}))
	base, tip := space.Add(at, space.Times(1.2, u)), space.Add(at, space.Times(8, u))
	neck := space.Add(at, space.Times(5.2, u))
	out = append(out, scene.Polygon([]scene.Point{space.Add(base, v), space.Add(neck, v), space.Add(neck, space.Times(3, v)), tip,
		space.Sub(neck, space.Times(3, v)), space.Sub(neck, v), space.Sub(base, v)}, scene.Filled(0)).Named("triad"),
		scene.Text{At: space.Add(tip, scene.Point{X: -1, Y: 2.4}), Text: "front of the tub", SizeMM: sheet.LeastEm, Bold: true, Anchor: scene.Centre, Middle: true, Name: "triad"})
	return out
}

// triadBox is what the triad takes up when it stands at a point.
func triadBox(at scene.Point) scene.Box { return scene.Bounds(triad(at)...).Grow(1) }

// triadAt finds a free corner for the triad; ok is false where the drawing fills them all.
func triadAt(p *picture.Picture, area scene.Box, o onto) (at scene.Point, ok bool) {
	b := triadBox(scene.Point{})
	var taken []scene.Box
	taken = append(taken, p.Fixed...)
	for _, it := range append(append([]scene.Item{}, p.Items...), p.Labels...) {
		switch it := it.(type) {
		case scene.Text:
			taken = append(taken, scene.Bounds(it))
		case scene.Shape:
			taken = append(taken, space.Outline(it, 0.3)...)
		}
	}
	for i := range taken {
		taken[i] = o.box(taken[i])
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
