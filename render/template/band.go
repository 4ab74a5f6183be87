package template

import (
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Measures of a band, mm.
const (
	tabMM   = 13.0 // to glue under the other end
	wasteMM = 17.0 // paper beyond the saw line
	backMM  = 10.0 // from the depth mark to the edge of the paper, along which the second mark goes
	plainMM = 30.0 // paper on the side that stays, where no depth is known
)

// band is a strip of the template of one cut: the whole of it, or a part where the sheet is
// shorter than the pipe is round.
type band struct {
	cut      Cut
	part, of int
	from, to float64 // along the circumference
}

// bands divides the template of a cut into strips no longer than the width allows.
func (d *drawing) bands(c Cut, width float64) []band {
	round := c.circumference()
	n := 1
	for round/float64(n)+tabMM+1 > width {
		n++
	}
	var out []band
	for i := range n {
		out = append(out, band{cut: c, part: i + 1, of: n,
			from: round * float64(i) / float64(n), to: round * float64(i+1) / float64(n)})
	}
	return out
}

// keep is the paper on the side of the pipe that stays.
func (b band) keep() float64 {
	if b.cut.DepthMM > 0 {
		return b.cut.DepthMM + backMM
	}
	return plainMM
}

func (b band) height() float64 { return b.keep() + wasteMM }

// draw puts a band on the sheet, its upper left corner at at. The start of the run's leg
// lies towards the head of the sheet, so that the two bands of a cut-out lie as on the pipe.
func (d *drawing) draw(b band, at scene.Point) []scene.Item {
	long := b.to - b.from
	// y is the page's Y of a distance from the saw line, into the side that stays.
	y := func(mm float64) float64 {
		if b.cut.Second {
			return at.Y + wasteMM + mm
		}
		return at.Y + b.keep() - mm
	}
	box := func(from, to float64) scene.Box {
		lo, hi := math.Min(y(from), y(to)), math.Max(y(from), y(to))
		return scene.Box{MinX: at.X, MinY: lo, MaxX: at.X + long, MaxY: hi}
	}
	items := d.waste(box(-wasteMM, 0), b)
	items = append(items, d.tab(b, at, long)...)
	items = append(items, scene.Rect(at.X, at.Y, long, b.height(), scene.Stroke(sheet.Fine)).Named("band:"+b.cut.Name))
	items = append(items, scene.Line(scene.Point{X: at.X, Y: y(0)}, scene.Point{X: at.X + long, Y: y(0)}, scene.Stroke(sheet.Thick)).Named("saw-line:"+b.cut.Name))
	inner := box(0, b.keep())
	if depth := b.cut.DepthMM; depth > 0 {
		items = append(items, d.depth(b, at.X, long, y(depth))...)
		inner = box(0, depth)
		edge := box(depth, b.keep())
		words := []string{", " + d.length(b.keep()) + " from the " + b.cut.line()}
		wipe := "primer"
		if b.cut.Metric {
			wipe = "cleaner"
		}
		text := "second mark along this edge"
		if !b.cut.Spec.IsHose() {
			words = append(words, ": "+wipe+" wipes the first")
		}
		for _, more := range words {
			if scene.TextWidth(text+more, sheet.LeastEm, false) > long-6 { // on thin pipe the band is short
				break
			}
			text += more
		}
		items = append(items, scene.Text{At: scene.Point{X: at.X + long/2, Y: edge.Centre().Y + edgeShift(b)}, Text: text, SizeMM: sheet.LeastEm, Anchor: scene.Centre, Middle: true, Name: "edge"})
	}
	return append(items, d.words(b, inner)...)
}

// edgeShift moves the words at the edge away from the windows of the depth mark.
func edgeShift(b band) float64 {
	if b.cut.Second {
		return 1.6
	}
	return -1.6
}

// waste is the hatched side with its words.
func (d *drawing) waste(b scene.Box, bd band) []scene.Item {
	items := []scene.Item{scene.Hatch(b, 3, scene.Stroke(sheet.Hair)).Named("waste")}
	word := func(x float64, text string, em float64) {
		w := scene.TextWidth(text, em, true)
		items = append(items, scene.Rect(x-w/2-1.5, b.Centre().Y-em*0.75, w+3, em*1.5, scene.Filled(1)),
			scene.Text{At: scene.Point{X: x, Y: b.Centre().Y}, Text: text, SizeMM: em, Bold: true, Anchor: scene.Centre, Middle: true, Name: "waste"})
	}
	c := bd.cut
	if c.Other == "" {
		word(b.Centre().X, "WASTE", 5)
		return items
	}
	arrow := "↓"
	if c.Second {
		arrow = "↑"
	}
	word(b.MinX+b.W()*0.2, "WASTE", 4.6)
	word(b.MinX+b.W()*0.63, fmt.Sprintf("%s %s to %s, line to line", arrow, d.length(c.OtherMM), c.Other), math.Min(3.4, b.W()/32))
	return items
}

// tab is the paper beyond the end of the strip, to be glued under the start of the next (or
// of the same).
func (d *drawing) tab(b band, at scene.Point, long float64) []scene.Item {
	h := b.height()
	x := at.X + long
	const slant = 3.0
	tab := scene.Polyline([]scene.Point{{X: x, Y: at.Y}, {X: x + tabMM, Y: at.Y + slant}, {X: x + tabMM, Y: at.Y + h - slant}, {X: x, Y: at.Y + h}},
		scene.Dashed(sheet.Fine, 2, 1)).Named("tab")
	meets := fmt.Sprintf("%s meets here", b.cut.Name)
	glue := "tab: glue under"
	if b.of > 1 {
		meets = fmt.Sprintf("%s strip %d meets here", b.cut.Name, b.part%b.of+1)
	}
	mid := at.Y + h/2
	text := func(dx float64, words string, em float64, bold bool) scene.Text {
		words, em = sheet.Shrink(words, em, sheet.LeastEm, h-2*slant, bold)
		return scene.Text{At: scene.Point{X: x + dx, Y: mid}, Text: words, SizeMM: em, Bold: bold, Anchor: scene.Centre, Middle: true, TurnDeg: 90, Name: "tab"}
	}
	return []scene.Item{tab, text(3.5, meets, 2.6, true), text(8.5, glue, sheet.LeastEm, false)}
}

// depth is the line to which the pipe goes into its socket, with windows to mark through.
func (d *drawing) depth(b band, x, long, y float64) []scene.Item {
	items := []scene.Item{scene.Line(scene.Point{X: x, Y: y}, scene.Point{X: x + long, Y: y}, scene.Dashed(sheet.Thin, 4, 1.5)).Named("depth-line:" + b.cut.Name)}
	const r = 2.2
	for _, share := range []float64{0.06, 0.5, 0.94} {
		c := scene.Point{X: x + share*long, Y: y}
		items = append(items, scene.Polygon([]scene.Point{{X: c.X - r, Y: c.Y}, {X: c.X, Y: c.Y - r}, {X: c.X + r, Y: c.Y}, {X: c.X, Y: c.Y + r}},
			scene.Outline(sheet.Fine)).Named("window"))
	}
	return items
}

// line is what the line is called that is cut along.
func (c Cut) line() string {
	if c.hose() {
		return "cut line"
	}
	return "saw line"
}

func (c Cut) hose() bool { return c.Spec.IsHose() }

// words are what is printed between the saw line and the depth line.
func (d *drawing) words(b band, box scene.Box) []scene.Item {
	c := b.cut
	side := -1.0 // from the saw line towards the side that stays
	saw, far := box.MaxY, box.MinY
	if c.Second {
		side, saw, far = 1, box.MinY, box.MaxY
	}
	var items []scene.Item
	label := func(x, y float64, text string, em float64, bold bool, anchor scene.Anchor, width float64) {
		text, em = sheet.Shrink(text, em, sheet.LeastEm, width, bold)
		items = append(items, scene.Text{At: scene.Point{X: x, Y: y}, Text: text, SizeMM: em, Bold: bold, Anchor: anchor, Middle: true, Name: "word"})
	}
	half := box.W()/2 - 4
	label(box.MinX+3, saw+side*2.4, c.line()+" "+c.Name, 2.6, true, scene.Start, half)
	label(box.MaxX-3, saw+side*2.4, "KEEP this side", 2.6, true, scene.End, half)
	if c.DepthMM > 0 {
		label(box.MinX+box.W()*0.28, far-side*2.6, "depth "+d.length(c.DepthMM), sheet.LeastEm, false, scene.Centre, box.W()*0.38)
		label(box.MinX+box.W()*0.72, far-side*2.6, "mark in the cut-outs", sheet.LeastEm, false, scene.Centre, box.W()*0.38)
	}
	mid := scene.Box{MinX: box.MinX + 3, MaxX: box.MaxX - 3, MinY: math.Min(saw+side*4.6, far-side*4.6), MaxY: math.Max(saw+side*4.6, far-side*4.6)}
	return append(items, d.middle(b, mid)...)
}

// middle is the cut's name, how it is found on the pipe, and which way the water runs.
func (d *drawing) middle(b band, box scene.Box) []scene.Item {
	c := b.cut
	em := math.Min(9, box.H()*0.8)
	items := []scene.Item{scene.Text{At: scene.Point{X: box.MinX, Y: box.Centre().Y}, Text: c.Name, SizeMM: em, Bold: true, Middle: true, Name: "name"}}
	x := box.MinX + scene.TextWidth(c.Name, em, true) + 4
	right := box.MaxX
	if c.Flow != 0 {
		right -= 9
		from, to := scene.Point{X: box.MaxX - 4, Y: box.MinY + 0.5}, scene.Point{X: box.MaxX - 4, Y: box.MaxY - 0.5}
		if c.Flow < 0 {
			from, to = to, from
		}
		way := scene.Point{X: 0, Y: to.Y - from.Y}
		items = append(items, scene.Line(from, scene.Point{X: to.X, Y: to.Y - math.Copysign(2, way.Y)}, scene.Stroke(sheet.Thin)),
			scene.Arrow(to, way, 3, 2.2, scene.Filled(0)).Named("flow"),
			scene.Text{At: scene.Point{X: box.MaxX - 6, Y: box.Centre().Y}, Text: "water", SizeMM: sheet.LeastEm, Anchor: scene.Centre, Middle: true, TurnDeg: 90, Name: "word"})
	}
	var lines []string
	size := 2.7
	for {
		lines = nil
		for _, l := range d.lines(b) {
			lines = append(lines, sheet.Wrap(l, size, right-x, false)...)
		}
		if float64(len(lines))*size*1.35 <= box.H() || size <= sheet.LeastEm {
			break
		}
		size = math.Max(sheet.LeastEm, size-0.1)
	}
	lines = lines[:min(len(lines), max(1, int(box.H()/(size*1.3))))]
	for i, l := range lines {
		y := box.Centre().Y + (float64(i)-float64(len(lines)-1)/2)*size*1.35
		items = append(items, scene.Text{At: scene.Point{X: x, Y: y}, Text: l, SizeMM: size, Middle: true, Name: "word"})
	}
	return items
}

// lines say where the cut lies and which pipe it is for.
func (d *drawing) lines(b band) []string {
	c := b.cut
	var out []string
	if c.From != "" {
		at := c.FromMM
		if c.FirstMM > 0 {
			at = quantity.Beyond(c.FirstMM, c.OtherMM, d.in.Units)
		}
		out = append(out, fmt.Sprintf("%s from the %s", d.length(at), c.From))
	}
	how := "by the catalogue: measure it"
	if c.Measured {
		how = "as measured"
	}
	out = append(out, fmt.Sprintf("for %s, %s %s: outside diameter %s %s", c.Pipe, c.Spec.Word(), c.Run, d.diameter(c.OutsideMM), how))
	if c.KerfMM > 0 {
		out = append(out, fmt.Sprintf("saw takes %s from the waste", quantity.Length.Finely(c.KerfMM).In(d.in.Units)))
	}
	if b.of > 1 {
		out = append(out, fmt.Sprintf("strip %d of %d", b.part, b.of))
	}
	return out
}

// diameter writes what a calliper reads.
func (d *drawing) diameter(mm float64) string {
	return quantity.Length.Finely(mm).In(d.in.Units)
}

func (d *drawing) length(mm float64) string {
	return quantity.Format(mm, quantity.Length, d.in.Units)
}
