package curves

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// axis turns a quantity into mm along one side of the plot.
type axis struct {
	factor float64 // from SI to what is printed
	unit   string
	most   float64 // as printed, at the end of the axis
	step   float64
}

// newAxis returns an axis from 0 to at least most (SI), with four to nine steps of 1, 2 or 5
// times a power of ten.
func newAxis(most, factor float64, unit string) axis {
	a := axis{factor: factor, unit: unit}
	top := most * factor
	if !(top > 0) {
		top = 1
	}
	a.step = math.Pow(10, math.Floor(math.Log10(top/4)))
	for _, k := range []float64{2, 5, 10} {
		if top/a.step <= 9 {
			break
		}
		a.step = k * math.Pow(10, math.Floor(math.Log10(top/4)))
	}
	a.most = math.Ceil(top/a.step-1e-9) * a.step
	return a
}

func flowAxis(most float64, s quantity.System) axis {
	if s == quantity.InchSystem {
		return newAxis(most, quantity.In(1, quantity.Flow, "gpm"), "gpm")
	}
	return newAxis(most, quantity.In(1, quantity.Flow, "m3/h"), "m3/h")
}

func headAxis(most float64, s quantity.System) axis {
	if s == quantity.InchSystem {
		return newAxis(most, quantity.In(1, quantity.Head, "ft"), "ft of water")
	}
	return newAxis(most, 1, "m of water")
}

// plot is the rectangle the curves stand in and its two axes.
type plot struct {
	box  scene.Box
	x, y axis
}

// p is the place of a flow (m³/s) and a head (m).
func (p plot) p(flow, head float64) scene.Point {
	return scene.Point{
		X: p.box.MinX + flow*p.x.factor/p.x.most*p.box.W(),
		Y: p.box.MaxY - head*p.y.factor/p.y.most*p.box.H(),
	}
}

// draw draws the grid, the axes with their figures, and what they measure.
func (p plot) draw() []scene.Item {
	const em = 2.6
	grid := scene.Style{StrokeMM: sheet.Hair, Grey: 0.75}
	var items []scene.Item
	steps := func(a axis) int { return int(math.Round(a.most / a.step)) }
	for i := range steps(p.x) + 1 {
		v := float64(i) * p.x.step
		at := p.p(v/p.x.factor, 0)
		if i > 0 {
			items = append(items, scene.Line(scene.Point{X: at.X, Y: p.box.MinY}, at, grid).Named("grid"))
		}
		items = append(items, scene.Line(at, scene.Point{X: at.X, Y: at.Y + 1.2}, scene.Stroke(sheet.Thin)),
			scene.Text{At: scene.Point{X: at.X, Y: at.Y + 4}, Text: quantity.Trim(quantity.Round(v, 6)), SizeMM: em, Anchor: scene.Centre, Name: "tick"})
	}
	for i := range steps(p.y) + 1 {
		v := float64(i) * p.y.step
		at := p.p(0, v/p.y.factor)
		if i > 0 {
			items = append(items, scene.Line(at, scene.Point{X: p.box.MaxX, Y: at.Y}, grid).Named("grid"))
		}
		items = append(items, scene.Line(scene.Point{X: at.X - 1.2, Y: at.Y}, at, scene.Stroke(sheet.Thin)),
			scene.Text{At: scene.Point{X: at.X - 2, Y: at.Y}, Text: quantity.Trim(quantity.Round(v, 6)), SizeMM: em, Anchor: scene.End, Middle: true, Name: "tick"})
	}
	items = append(items,
		scene.Polyline([]scene.Point{{X: p.box.MinX, Y: p.box.MinY}, {X: p.box.MinX, Y: p.box.MaxY}, {X: p.box.MaxX, Y: p.box.MaxY}}, scene.Stroke(sheet.Thin)).Named("axes"),
		scene.Text{At: scene.Point{X: p.box.MaxX, Y: p.box.MaxY + 8.2}, Text: "flow through the pump, " + p.x.unit, SizeMM: em + 0.3, Bold: true, Anchor: scene.End, Name: "axis"},
		scene.Text{At: scene.Point{X: p.box.MinX - 9.5, Y: p.box.MinY}, Text: "head, " + p.y.unit, SizeMM: em + 0.3, Bold: true, Anchor: scene.End, TurnDeg: 90, Name: "axis"})
	return items
}

// line returns the points of a curve inside the plot, cut off where it leaves it.
func (p plot) line(flows, heads []float64) []scene.Point {
	var pts []scene.Point
	for i := range flows {
		q := p.p(flows[i], heads[i])
		if out := q.Y < p.box.MinY || q.X > p.box.MaxX; !out {
			pts = append(pts, q)
			continue
		}
		if len(pts) > 0 { // up to the edge
			pts = append(pts, p.edge(pts[len(pts)-1], q))
		}
		break
	}
	return pts
}

// edge is where a line from inside the plot leaves it at the head or the right.
func (p plot) edge(in, out scene.Point) scene.Point {
	t := 1.0
	if out.Y < p.box.MinY {
		t = math.Min(t, (in.Y-p.box.MinY)/(in.Y-out.Y))
	}
	if out.X > p.box.MaxX {
		t = math.Min(t, (p.box.MaxX-in.X)/(out.X-in.X))
	}
	return scene.Point{X: in.X + t*(out.X-in.X), Y: in.Y + t*(out.Y-in.Y)}
}
