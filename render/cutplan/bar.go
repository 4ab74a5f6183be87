package cutplan

import (
	"math"

	"dryfit/graph/takeoff"
	"dryfit/graph/takeoff/stock"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Heights within the strip of a bar, mm.
const (
	barH    = 11.0
	aboveMM = 2.0 // over the bar
	callMM  = 5.5 // more, where pieces are too narrow to be written on
	markMM  = 5.0 // under the bar, for the running marks
	numEm   = 3.6
	lenEm   = 2.6
	smallEm = sheet.LeastEm
	runEm   = sheet.LeastEm
)

// bar is the strip of one bar or coil.
func (d *drawing) bar(plan *takeoff.StockPlan, n int, b stock.Bar) row {
	top := aboveMM
	calls := d.calls(plan, b, func(mm float64) float64 { return mm / d.per })
	if len(calls) > 0 {
		top = aboveMM + callMM
		if crowded(calls) {
			top = aboveMM + 3.2 + widest(calls, smallEm)
		}
	}
	marks := markMM
	if list := d.marks(plan, b, func(mm float64) float64 { return mm / d.per }); crowded(list) {
		marks = math.Max(marks, 3.2+widest(append(list, call{text: "left " + d.text(b.OffcutMM)}), runEm))
	}
	return row{height: top + barH + marks + 1.5, draw: func(at scene.Point, width float64) []scene.Item {
		first, second := d.barWords(plan, n, b)
		second, size := sheet.Shrink(second, lenEm, sheet.LeastEm, barX-2, false)
		items := []scene.Item{
			scene.Text{At: scene.Point{X: at.X, Y: at.Y + top + 4}, Text: first, SizeMM: 3, Bold: true, Name: "bar"},
			scene.Text{At: scene.Point{X: at.X, Y: at.Y + top + 8.4}, Text: second, SizeMM: size, Name: "bar"},
		}
		return append(items, d.drawBar(plan, scene.Point{X: at.X + barX, Y: at.Y + top}, b, width-barX)...)
	}}
}

// written writes a piece's number and length on it, about the middle of the bar at c: one
// over the other, else along the bar's height; nil where it is too narrow for either to be
// read.
func (d *drawing) written(piece int, c scene.Point) []scene.Item {
	const leastNumber, leastLength, leastTurned = 2.6, sheet.LeastEm, sheet.LeastEm
	number, length := d.number(piece), d.said(piece)
	w := d.length[piece]/d.per - 0.9
	n := math.Min(numEm, w/scene.TextWidth(number, 1, true))
	l := math.Min(lenEm, w/scene.TextWidth(length, 1, false))
	text := func(dy float64, words string, em float64, bold bool, name string) scene.Text {
		return scene.Text{At: scene.Point{X: c.X, Y: c.Y + dy}, Text: words, SizeMM: em, Bold: bold, Anchor: scene.Centre, Middle: true, Name: name}
	}
	if n >= leastNumber && l >= leastLength {
		return []scene.Item{text(-2, number, n, true, "piece"), text(2.1, length, l, false, "length")}
	}
	both := number + ": " + length
	em := math.Min(math.Min(smallEm, (w+0.4)/1.05), (barH-0.6)/scene.TextWidth(both, 1, true))
	if em < leastTurned {
		return nil
	}
	t := text(0, both, em, true, "piece")
	t.TurnDeg = 90
	return []scene.Item{t}
}

// marks are the running marks of a bar: where each piece ends.
func (d *drawing) marks(plan *takeoff.StockPlan, b stock.Bar, x func(float64) float64) []call {
	var out []call
	pos := 0.0
	for i, n := range b.Pieces {
		pos += d.length[n]
		if i < len(b.Pieces)-1 || b.OffcutMM > 0.05 {
			out = append(out, call{x(pos), d.text(pos)})
		}
		pos += plan.KerfMM
	}
	return out
}

// calls are the names of the pieces too narrow to be written on.
func (d *drawing) calls(plan *takeoff.StockPlan, b stock.Bar, x func(float64) float64) []call {
	var out []call
	pos := 0.0
	for _, n := range b.Pieces {
		if d.written(n, scene.Point{}) == nil {
			out = append(out, call{x(pos + d.length[n]/2), d.number(n) + ": " + d.said(n)})
		}
		pos += d.length[n] + plan.KerfMM
	}
	return out
}

// crowded reports whether texts stand so close that they have to be turned.
func crowded(calls []call) bool {
	centres := spread(calls, scene.Box{MinX: -10, MaxX: 1000}, func(t string) float64 { return scene.TextWidth(t, smallEm, false) })
	for i, c := range calls {
		if math.Abs(centres[i]-c.x) > 5 {
			return true
		}
	}
	return false
}

func widest(calls []call, em float64) float64 {
	w := 0.0
	for _, c := range calls {
		w = math.Max(w, scene.TextWidth(c.text, em, false))
	}
	return w
}

// drawBar draws a bar with its upper left corner at at. Labels stay within the width.
func (d *drawing) drawBar(plan *takeoff.StockPlan, at scene.Point, b stock.Bar, width float64) []scene.Item {
	x := func(mm float64) float64 { return at.X + mm/d.per }
	box := scene.Box{MinX: at.X, MinY: at.Y, MaxX: x(b.StockMM), MaxY: at.Y + barH}
	var items, over []scene.Item
	pos := 0.0
	for i, n := range b.Pieces {
		end := pos + d.length[n]
		mid := scene.Point{X: (x(pos) + x(end)) / 2, Y: at.Y + barH/2}
		over = append(over, d.written(n, mid)...)
		if i < len(b.Pieces)-1 || b.OffcutMM > 0.05 {
			over = append(over, d.cut(x(end), at.Y, plan.KerfMM)...)
		}
		pos = end + plan.KerfMM
	}
	calls, marks := d.calls(plan, b, x), d.marks(plan, b, x)
	turnCalls, turnMarks := crowded(calls), crowded(marks)
	if b.OffcutMM > 0.05 {
		left := scene.Box{MinX: x(b.StockMM - b.OffcutMM), MinY: box.MinY, MaxX: box.MaxX, MaxY: box.MaxY}
		items = append(items, hatched(left).Named("left-over"))
		text := "left " + d.text(b.OffcutMM)
		if w := scene.TextWidth(text, lenEm, false); w+2 <= left.W() {
			c := left.Centre()
			items = append(items, scene.Rect(c.X-w/2-0.8, c.Y-2, w+1.6, 4, scene.Filled(1)),
				scene.Text{At: c, Text: text, SizeMM: lenEm, Anchor: scene.Centre, Middle: true, Name: "left"})
		} else {
			marks = append(marks, call{(left.MinX + left.MaxX) / 2, text})
		}
	}
	items = append(items, scene.Rect(box.MinX, box.MinY, box.W(), box.H(), scene.Stroke(sheet.Thin)).Named("stock"))
	items = append(items, over...)
	limit := scene.Box{MinX: at.X - 4, MaxX: at.X + width}
	items = append(items, callouts(calls, limit, at.Y, -1, smallEm, turnCalls)...)
	return append(items, callouts(marks, limit, at.Y+barH, 1, runEm, turnMarks)...)
}

// cut is a cut, as wide as the kerf where that can be seen.
func (d *drawing) cut(x, y, kerfMM float64) []scene.Item {
	w := math.Max(sheet.Thin, kerfMM/d.per)
	return []scene.Item{scene.Line(scene.Point{X: x + w/2, Y: y - 1}, scene.Point{X: x + w/2, Y: y + barH + 1}, scene.Stroke(w)).Named("cut")}
}

// call is a text that belongs to a place on the edge of the bar.
type call struct {
	x    float64
	text string
}

// callouts writes the texts in a row over (side -1) or under (side 1) the edge at y, each as
// near its place as the others let it, with a leader; turned, they stand along the pipe's
// cross-section.
func callouts(calls []call, limit scene.Box, y float64, side, em float64, turned bool) []scene.Item {
	width := func(t string) float64 { return scene.TextWidth(t, em, false) }
	if turned {
		width = func(string) float64 { return em - 0.2 }
	}
	centres := spread(calls, limit, width)
	var items []scene.Item
	for i, c := range calls {
		to := scene.Point{X: centres[i], Y: y + side*2.6}
		from := scene.Point{X: c.x, Y: y}
		if side > 0 {
			from.Y = y + 1
		}
		t := scene.Text{At: scene.Point{X: to.X, Y: to.Y + side*(em*0.5+0.2)}, Text: c.text, SizeMM: em, Anchor: scene.Centre, Middle: true, Name: "call"}
		if turned {
			t.At.Y, t.TurnDeg, t.Anchor = to.Y+side*0.4, 90, scene.End
			if side < 0 {
				t.Anchor = scene.Start
			}
		}
		items = append(items, scene.Line(from, to, scene.Stroke(sheet.Hair)).Named("leader"), t)
	}
	return items
}

// spread returns where the middles of texts in a row go so that none touches the next and
// all stay in the limit, moved as little as that allows: texts that push each other form a
// group, which stands where the mean of its texts' own places puts it.
func spread(calls []call, limit scene.Box, width func(string) float64) []float64 {
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
		widths[i] = width(c.text) + air
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

// hatched is what is left over.
func hatched(b scene.Box) scene.Shape { return scene.Hatch(b, 1.8, scene.Stroke(sheet.Hair)) }
