package cutplan

import (
	"math"

	"dryfit/graph/takeoff"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Heights within the strip of a bar, mm.
const (
	barH    = 10.0
	aboveMM = 2.0 // over the bar
	callMM  = 5.5 // more, where pieces are too narrow to be written on
	markMM  = 5.0 // under the bar, for the running marks
	numEm   = 3.6
	lenEm   = 2.6
	smallEm = 2.4
	runEm   = 2.0
)

// bar is the strip of one bar.
func (d *drawing) bar(n int, b takeoff.Bar) row {
	top := aboveMM
	for _, p := range b.Pieces {
		if _, _, ok := d.sizes(p); !ok {
			top = aboveMM + callMM
		}
	}
	return row{height: top + barH + markMM + 1.5, draw: func(at scene.Point, width float64) []scene.Item {
		first, second := d.barWords(n, b)
		second, size := sheet.Shrink(second, lenEm, 1.8, barX-2, false)
		items := []scene.Item{
			scene.Text{At: scene.Point{X: at.X, Y: at.Y + top + 4}, Text: first, SizeMM: 3, Bold: true, Tag: "bar"},
			scene.Text{At: scene.Point{X: at.X, Y: at.Y + top + 8.4}, Text: second, SizeMM: size, Tag: "bar"},
		}
		return append(items, d.drawBar(scene.Point{X: at.X + barX, Y: at.Y + top}, b, width-barX)...)
	}}
}

// sizes returns how large the number and the length of a piece can stand on it, one over
// the other; ok is false where it is too narrow for either to be read.
func (d *drawing) sizes(piece int) (number, length float64, ok bool) {
	const leastNumber, leastLength = 2.6, 2.0
	w := d.length[piece]/d.per - 0.9
	number = math.Min(numEm, w/scene.TextWidth(d.number(piece), 1, true))
	length = math.Min(lenEm, w/scene.TextWidth(d.text(d.length[piece]), 1, false))
	return number, length, number >= leastNumber && length >= leastLength
}

// drawBar draws a bar with its upper left corner at at. Labels stay within the width.
func (d *drawing) drawBar(at scene.Point, b takeoff.Bar, width float64) []scene.Item {
	x := func(mm float64) float64 { return at.X + mm/d.per }
	box := scene.Box{MinX: at.X, MinY: at.Y, MaxX: x(b.StockMM), MaxY: at.Y + barH}
	var items, over []scene.Item
	var calls, marks []call
	pos := 0.0
	for i, n := range b.Pieces {
		end := pos + d.length[n]
		mid := (x(pos) + x(end)) / 2
		if number, length, ok := d.sizes(n); ok {
			over = append(over,
				scene.Text{At: scene.Point{X: mid, Y: at.Y + 3.3}, Text: d.number(n), SizeMM: number, Bold: true, Anchor: scene.Centre, Middle: true, Tag: "piece"},
				scene.Text{At: scene.Point{X: mid, Y: at.Y + 7.3}, Text: d.text(d.length[n]), SizeMM: length, Anchor: scene.Centre, Middle: true, Tag: "length"})
		} else {
			calls = append(calls, call{mid, d.number(n) + ": " + d.text(d.length[n])})
		}
		if last := i == len(b.Pieces)-1; !last || b.OffcutMM > 0.05 {
			over = append(over, d.cut(x(end), at.Y)...)
			marks = append(marks, call{x(end), d.text(end)})
		}
		pos = end + d.in.List.KerfMM
	}
	if b.OffcutMM > 0.05 {
		left := scene.Box{MinX: x(b.StockMM - b.OffcutMM), MinY: box.MinY, MaxX: box.MaxX, MaxY: box.MaxY}
		items = append(items, hatch(left).Tagged("left-over"))
		text := "left " + d.text(b.OffcutMM)
		if w := scene.TextWidth(text, lenEm, false); w+2 <= left.W() {
			c := left.Centre()
			items = append(items, scene.Rect(c.X-w/2-0.8, c.Y-2, w+1.6, 4, scene.Filled(1)),
				scene.Text{At: c, Text: text, SizeMM: lenEm, Anchor: scene.Centre, Middle: true, Tag: "left"})
		} else {
			marks = append(marks, call{(left.MinX + left.MaxX) / 2, text})
		}
	}
	items = append(items, scene.Rect(box.MinX, box.MinY, box.W(), box.H(), scene.Stroke(sheet.Thin)).Tagged("stock"))
	items = append(items, over...)
	limit := scene.Box{MinX: at.X - 4, MaxX: at.X + width}
	items = append(items, callouts(calls, limit, at.Y, -1, smallEm)...)
	return append(items, callouts(marks, limit, at.Y+barH, 1, runEm)...)
}

// cut is a saw cut, as wide as the kerf where that can be seen.
func (d *drawing) cut(x, y float64) []scene.Item {
	w := math.Max(sheet.Thin, d.in.List.KerfMM/d.per)
	return []scene.Item{scene.Line(scene.Point{X: x + w/2, Y: y - 1}, scene.Point{X: x + w/2, Y: y + barH + 1}, scene.Stroke(w)).Tagged("cut")}
}

// call is a text that belongs to a place on the edge of the bar.
type call struct {
	x    float64
	text string
}

// callouts writes the texts in a row over (side -1) or under (side 1) the edge at y, each as
// near its place as the others let it, with a leader.
func callouts(calls []call, limit scene.Box, y float64, side, em float64) []scene.Item {
	centres := spread(calls, limit, em)
	var items []scene.Item
	for i, c := range calls {
		to := scene.Point{X: centres[i], Y: y + side*2.6}
		from := scene.Point{X: c.x, Y: y}
		if side > 0 {
			from.Y = y + 1
		}
		items = append(items, scene.Line(from, to, scene.Stroke(sheet.Hair)).Tagged("leader"),
			scene.Text{At: scene.Point{X: to.X, Y: to.Y + side*(em*0.5+0.2)}, Text: c.text, SizeMM: em, Anchor: scene.Centre, Middle: true, Tag: "call"})
	}
	return items
}

// spread returns where the middles of texts in a row go so that none touches the next and
// all stay in the limit, moved as little as that allows: texts that push each other form a
// group, which stands where the mean of its texts' own places puts it.
func spread(calls []call, limit scene.Box, em float64) []float64 {
	const air = 1.4
	type group struct {
		first, last int
		width       float64
		sum         float64 // of the starts each of its texts alone would give it
		start       float64
	}
	place := func(g group) group {
		g.start = g.sum / float64(g.last-g.first+1)
		g.start = math.Max(limit.MinX, math.Min(g.start, limit.MaxX-g.width))
		return g
	}
	widths := make([]float64, len(calls))
	var groups []group
	for i, c := range calls {
		widths[i] = scene.TextWidth(c.text, em, false) + air
		groups = append(groups, place(group{first: i, last: i, width: widths[i], sum: c.x - widths[i]/2}))
		for n := len(groups) - 1; n > 0; n-- {
			a, b := groups[n-1], groups[n]
			if a.start+a.width <= b.start+1e-9 {
				break
			}
			joined := group{first: a.first, last: b.last, width: a.width + b.width,
				sum: a.sum + b.sum - float64(a.width*float64(b.last-b.first+1))}
			groups = append(groups[:n-1], place(joined))
		}
	}
	out := make([]float64, len(calls))
	for _, g := range groups {
		at := g.start
		for i := g.first; i <= g.last; i++ {
			out[i] = at + widths[i]/2
			at += widths[i]
		}
	}
	return out
}

// hatch fills a box with lines at 45 degrees, 1.8 mm apart.
func hatch(b scene.Box) scene.Shape {
	const step = 1.8
	out := scene.Shape{Style: scene.Stroke(sheet.Hair)}
	for k := math.Ceil((b.MinX + b.MinY) / step); k*step < b.MaxX+b.MaxY; k++ {
		s := k * step // x + y = s
		x0, x1 := math.Max(b.MinX, s-b.MaxY), math.Min(b.MaxX, s-b.MinY)
		if x1-x0 < 0.05 {
			continue
		}
		out = scene.Join(out, scene.Line(scene.Point{X: x0, Y: s - x0}, scene.Point{X: x1, Y: s - x1}, out.Style))
	}
	return out
}
