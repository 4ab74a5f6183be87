package symbol

import "dryfit/render/scene"

// suction: a half circle on the tub's wall with a grid, its flat side to the tub (on the
// left). Own shape.
func suction(l Look) Symbol {
	const r = 1.3 * M
	s := Symbol{In: -0.6 * M, Out: 0.7 * M, Legend: "suction fitting"}
	half := scene.Arc(at(-0.6*M, 0), r, -90, 90, scene.Outline(l.Pen))
	half.Paths[0].Closed = true
	s.Items = []scene.Item{half}
	for _, y := range []float64{-0.65 * M, 0, 0.65 * M} {
		s.Items = append(s.Items, path(0.25, -0.6*M, y, 0.4*M, y))
	}
	s.Items = append(s.Items, path(0.25, -0.1*M, -1.1*M, -0.1*M, 1.1*M))
	return s
}

// jets: two nozzles that widen towards the tub (on the right). Source: "small triangles on
// the wall", common.
func jets(l Look) Symbol {
	const w = 1.2 * M
	return Symbol{In: -w, Out: w, Legend: "jets", Items: []scene.Item{
		path(l.Pen, -w, 0, -0.6*M, 0),
		path(l.Pen, -0.6*M, -1.1*M, -0.6*M, 1.1*M),
		area(l.Pen, -0.6*M, -1.1*M, w, -1.8*M, w, -0.4*M),
		area(l.Pen, -0.6*M, 1.1*M, w, 0.4*M, w, 1.8*M),
	}}
}

// Tub is an open-topped basin of the size with waves, its middle at the origin.
// Source: ISO 10628-2, open vessel (from memory).
func Tub(w, h float64, l Look) Symbol {
	x, y := w/2, h/2
	s := Symbol{In: -x, Out: x, Legend: "tub"}
	s.Items = []scene.Item{path(l.Pen, -x, -y, -x, y, x, y, x, -y)}
	wave := scene.SubPath{Start: at(-x, -y+3)}
	n := max(2, int(w/5))
	step := w / float64(n)
	for i := range n {
		x0 := -x + float64(i)*step
		d := 1.3
		if i%2 == 1 {
			d = -d
		}
		wave.Segments = append(wave.Segments, scene.Segment{Curve: true, C1: at(x0+step/3, -y+3-d), C2: at(x0+2*step/3, -y+3-d), To: at(x0+step, -y+3)})
	}
	s.Items = append(s.Items, scene.Shape{Style: scene.Stroke(0.25), Paths: []scene.SubPath{wave}})
	s.Box = scene.Box{MinX: -x, MinY: -y, MaxX: x, MaxY: y}.Grow(l.Pen / 2)
	return s
}

// Manifold is an upright bar from y0 to y1 at the origin, from which pipes leave on both
// sides. Own shape.
func Manifold(up, down float64, l Look) Symbol {
	const w = 0.6 * M
	s := Symbol{In: -w, Out: w, Legend: "manifold"}
	s.Items = []scene.Item{area(l.Pen, -w, -up-M, w, -up-M, w, down+M, -w, down+M)}
	s.Box = scene.Bounds(s.Items...)
	return s
}
