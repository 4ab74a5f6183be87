package sticker

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Input is what the stickers are drawn from.
type Input struct {
	Stickers []Sticker
	Job      graph.Job
	Page     sheet.Page // zero: A4 landscape
}

// Least size of one sticker, mm; they are made larger to fill the sheet.
const (
	leastW = 60.0
	leastH = 30.0
	insetW = 2.5 // from a cut line to what is written
)

// Draw returns the sheets of stickers; none where there are none.
func Draw(in Input) []*scene.Scene {
	if len(in.Stickers) == 0 {
		return nil
	}
	area := page(in, in.Stickers, 1, 1).Area()
	columns, rows := int(area.W()/leastW), int(area.H()/leastH)
	w, h := area.W()/float64(columns), area.H()/float64(rows)
	in.Stickers = whole(in.Stickers, w-2*insetW, h-2*insetW)
	sheets := shared(in.Stickers, columns*rows)
	var out []*scene.Scene
	for n, stickers := range sheets {
		s := page(in, stickers, n+1, len(sheets))
		at := s.Area()
		used := (len(stickers) + columns - 1) / columns
		s.Add(grid(at, columns, used, w, h, len(stickers)-(used-1)*columns)...)
		for i, l := range stickers {
			x, y := at.MinX+float64(i%columns)*w, at.MinY+float64(i/columns)*h
			s.Add(l.draw(scene.Box{MinX: x + insetW, MinY: y + insetW, MaxX: x + w - insetW, MaxY: y + h - insetW})...)
		}
		out = append(out, s.Scene)
	}
	return out
}

// shared shares stickers out over sheets of so many each: those of valves begin a sheet of their own
// where that takes no more sheets, so that none of them stands alone on the last.
func shared(stickers []Sticker, each int) [][]Sticker {
	whole := slices.Collect(slices.Chunk(stickers, each))
	valves := slices.IndexFunc(stickers, func(l Sticker) bool { return l.Valve })
	if len(whole) < 2 || valves < 1 {
		return whole
	}
	apart := slices.AppendSeq(slices.Collect(slices.Chunk(stickers[:valves], each)), slices.Chunk(stickers[valves:], each))
	if len(apart) > len(whole) {
		return whole
	}
	return apart
}

// whole hangs two stickers on a valve, or more, where one of a width and height would cut off what it says.
func whole(stickers []Sticker, width, height float64) []Sticker {
	var out []Sticker
	for _, l := range stickers {
		n := len(l.Modes)
		if _, fits := l.table(low(scene.Box{MaxX: width, MaxY: height})); fits || n < 2 {
			out = append(out, l)
			continue
		}
		first, rest := l, l
		first.Modes, rest.Modes = l.Modes[:n/2], l.Modes[n/2:]
		out = append(out, whole([]Sticker{first, rest}, width, height)...)
	}
	return out
}

// page is one sheet, with the notes its stickers ask for.
func page(in Input, stickers []Sticker, n, of int) *sheet.Sheet {
	h := sheet.HeadOf(in.Job, "Labels")
	h.Sheet, h.Of, h.Scale = n, of, "1:1"
	s := sheet.New(in.Page.Format, in.Page.Orientation, h)
	piece, star, valve, union := false, false, false, false
	for _, l := range stickers {
		piece = piece || !l.Valve
		star = star || !l.Valve && len(l.Head) > 0 && l.Head[len(l.Head)-1] == '*'
		union = union || l.Valve && l.Head == "union"
		valve = valve || l.Valve && l.Head != "union"
	}
	hung := "valve"
	switch {
	case union && valve:
		hung = "valve and union"
	case union:
		hung = "union"
	}
	how := "Cut along the dashed lines. Stick on each piece as it is cut; tie on each " + hung + "."
	switch {
	case !valve && !union:
		how = "Cut along the dashed lines. Stick on each piece as it is cut."
	case !piece:
		how = "Cut along the dashed lines. Tie on each " + hung + "."
	}
	notes := []string{how}
	if star {
		notes = append(notes, "*: measure the part first, the length hangs on it.")
	}
	if valve {
		notes = append(notes, "Valves: how each stands in normal use, mode by mode.")
	}
	s.Notes(notes...)
	return s
}

// grid is the cut lines round the stickers: whole rows, and the last one as far as it is used.
func grid(at scene.Box, columns, rows int, w, h float64, last int) []scene.Item {
	line := func(x0, y0, x1, y1 float64) scene.Item {
		return scene.Line(scene.Point{X: x0, Y: y0}, scene.Point{X: x1, Y: y1}, scene.Dashed(sheet.Hair, 3, 1.5)).Named("cut-line")
	}
	wide := columns
	if rows == 1 {
		wide = last
	}
	var out []scene.Item
	for r := range rows + 1 {
		n := wide
		if r == rows {
			n = last
		}
		y := at.MinY + float64(r)*h
		out = append(out, line(at.MinX, y, at.MinX+float64(n)*w, y))
	}
	for c := range wide + 1 {
		n := rows
		if c > last {
			n = rows - 1
		}
		x := at.MinX + float64(c)*w
		out = append(out, line(x, at.MinY, x, at.MinY+float64(n)*h))
	}
	return out
}

// Sizes of what is written, mm.
const (
	bigEm   = 11.0
	headEm  = 5.0
	subEm   = 3.2
	whereEm = 3.0
	leastEm = sheet.LeastEm
)

// draw writes a sticker in a box.
func (l Sticker) draw(b scene.Box) []scene.Item {
	var items []scene.Item
	put := func(x, y float64, text string, em, width float64, bold bool, name string) {
		text, em = sheet.Shrink(text, em, leastEm, width, bold)
		items = append(items, scene.Text{At: scene.Point{X: x, Y: y}, Text: text, SizeMM: em, Bold: bold, Middle: true, Name: name})
	}
	big, em, wide := l.plate(b.W())
	frame := scene.Rect(b.MinX, b.MinY, wide, topH, scene.Stroke(sheet.Thin))
	if l.Valve { // a plate with cut corners: valves are told from pieces at a glance
		const c = 2.2
		x0, y0, x1, y1 := b.MinX, b.MinY, b.MinX+wide, b.MinY+topH
		frame = scene.Polygon([]scene.Point{{X: x0 + c, Y: y0}, {X: x1 - c, Y: y0}, {X: x1, Y: y0 + c}, {X: x1, Y: y1 - c},
			{X: x1 - c, Y: y1}, {X: x0 + c, Y: y1}, {X: x0, Y: y1 - c}, {X: x0, Y: y0 + c}}, scene.Stroke(sheet.Thick))
	}
	items = append(items, frame.Named("plate"),
		scene.Text{At: scene.Point{X: b.MinX + wide/2, Y: b.MinY + topH/2}, Text: big, SizeMM: em, Bold: true, Anchor: scene.Centre, Middle: true, Name: "big"})
	x := b.MinX + wide + 2.5
	right := b.MaxX - x
	if l.Sub == "" {
		put(x, b.MinY+topH/2, l.Head, headEm, right, true, "head")
	} else {
		put(x, b.MinY+3.6, l.Head, headEm, right, true, "head")
		put(x, b.MinY+8.9, l.Sub, subEm, right, false, "sub")
	}
	under := low(b)
	if l.Valve {
		rows, _ := l.table(under)
		return append(items, rows...)
	}
	step := under.H() / float64(max(len(l.Lines), 3))
	for i, t := range l.Lines {
		put(under.MinX, under.MinY+(float64(i)+0.5)*step, t, whereEm, under.W(), false, "where")
	}
	return items
}

// topH is the height of the plate, mm.
const topH = 11.0

// low is what is left of a sticker's box under its plate.
func low(b scene.Box) scene.Box {
	return scene.Box{MinX: b.MinX, MinY: b.MinY + topH + 1.5, MaxX: b.MaxX, MaxY: b.MaxY}
}

// plate is what stands large on a sticker of a width, in letters of what size and how wide its frame
// is: as large as leaves the words beside it whole.
func (l Sticker) plate(width float64) (big string, em, wide float64) {
	for share := 0.42; ; share -= 0.04 {
		big, em = sheet.Shrink(l.Big, bigEm, leastEm, width*share, true)
		wide = math.Max(scene.TextWidth(big, em, true)+5, topH)
		right := width - wide - 2.5
		whole := scene.TextWidth(l.Head, leastEm, true) <= right && scene.TextWidth(l.Sub, leastEm, false) <= right
		if whole || share < 0.2 {
			return big, em, wide
		}
	}
}

// table writes the positions, a row a mode, as large as they go; long words for a mode take a
// second line. It is false where words had to be cut off.
func (l Sticker) table(b scene.Box) (items []scene.Item, whole bool) {
	rows := l.Modes
	if n := int(b.H() / (leastEm * rowAir)); len(rows) > n {
		rows = append(append([]Setting{}, rows[:n-1]...), Setting{"more", "see the valve schedule"})
	}
	if len(rows) == 0 {
		return nil, true
	}
	whole = true
	const most, between = 7.0, 3.0
	step := math.Min(b.H()/float64(len(rows)), most)
	em := math.Min(step/rowAir, 4.6)
	name, place, least := 0.0, 0.0, 0.0
	for _, s := range rows {
		name = math.Max(name, scene.TextWidth(s.Mode, em, false))
		place = math.Max(place, scene.TextWidth(s.Position, em, true))
		least = math.Max(least, scene.TextWidth(s.Position, leastEm, true))
	}
	if whole := name + between + place; whole > b.W() {
		name = math.Max(math.Min(name, b.W()*0.55), b.W()-between-place)
		name = math.Max(math.Min(name, b.W()-between-least), 0) // how a valve stands is not cut off for the mode's sake
		em = math.Max(leastEm, fitting(rows, name, b.H(), em))
	}
	lines, used := make([][]string, len(rows)), 0
	for i, s := range rows {
		lines[i] = sheet.Wrap(s.Mode, em, name, false)
		used += len(lines[i])
	}
	if least := leastEm * rowAir; float64(used)*least > b.H() { // a word for each, as far as it goes
		used = len(rows)
		for i, s := range rows {
			lines[i] = []string{sheet.Fit(s.Mode, em, name, false)}
			whole = whole && lines[i][0] == s.Mode
		}
	}
	step = math.Min(b.H()/float64(used), most)
	em = math.Min(em, step/rowAir)
	y := b.MinY + (b.H()-step*float64(used))/2 + step/2
	for i, s := range rows {
		text, size := sheet.Shrink(s.Position, em, leastEm, b.W()-name-between, true)
		whole = whole && text == s.Position
		items = append(items, scene.Text{At: scene.Point{X: b.MinX + name + between, Y: y}, Text: text, SizeMM: size, Bold: true, Middle: true, Name: "position"})
		for _, words := range lines[i] {
			items = append(items, scene.Text{At: scene.Point{X: b.MinX, Y: y}, Text: words, SizeMM: em, Middle: true, Name: "mode"})
			y += step
		}
	}
	return items, whole
}

// rowAir is the height of a row of letters over the letters'.
const rowAir = 1.3

// fitting returns the largest letters, up to em, in which the words for the modes fit a width and,
// wrapped, a height; 0 where none do.
func fitting(rows []Setting, width, height, em float64) float64 {
	for ; em >= leastEm; em -= 0.1 {
		lines := 0
		for _, s := range rows {
			lines += len(sheet.Wrap(s.Mode, em, width, false))
		}
		if float64(lines)*em*rowAir <= height {
			return em
		}
	}
	return 0
}
