package schematic

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// both is one sheet for a circuit before and after the work, each in a panel of its own.
type both struct {
	was, is *drawing
	page    sheet.Page
	stacked bool // one above the other, not side by side
}

// headMM is the strip of a panel in which its name stands, and gutterMM what parts two panels.
const (
	headMM   = 6.0
	gutterMM = 4.0
)

// DrawBoth draws a circuit of which something is taken out before and after the work, on one
// sheet; in is as for Draw, its stage left out. Where the two can't be read on one sheet of that
// paper they stand on sheets of their own, one behind the other.
func DrawBoth(in Input) []*scene.Scene {
	ways := []both{{page: in.Page}, {page: in.Page, stacked: true}}
	if !in.Page.Fixed {
		upright := in.Page
		upright.Orientation = sheet.Portrait
		ways = append(ways, both{page: upright, stacked: true})
	}
	for i := range ways {
		b := &ways[i]
		before, after := in, in
		before.Stage, before.Settled, before.Page, after.Page = graph.Before, nil, b.page, b.page
		b.was, b.is = newDrawing(before), newDrawing(after)
		b.share()
		b.was.layOut(1) // both are asked for their legends
		b.is.layOut(1)
		if b.hopeless() {
			continue
		}
		b.was.arrange()
		b.is.arrange()
		if b.reads(b.was) && b.reads(b.is) {
			return []*scene.Scene{b.sheet()}
		}
	}
	before, after := in, in
	before.Settled, before.Stage, before.Title = nil, graph.Before, "Schematic before the work"
	was := Draw(before)
	after.Title, after.Sheet = "Schematic after the work", max(1, in.Sheet)+len(was)
	return append(was, Draw(after)...)
}

// hopeless reports whether a drawing is so much larger than its panel that no breaking of its
// rows can bring it in: by its area.
func (b *both) hopeless() bool {
	for _, d := range []*drawing{b.was, b.is} {
		need, have := d.bounds(), b.panel(d)
		if need.W()*need.H()*goodScale*goodScale > have.W()*have.H() {
			return true
		}
	}
	return false
}

// reads reports whether a drawing stands in its panel large enough to be read, with nothing in
// the way of its labels.
func (b *both) reads(d *drawing) bool {
	return len(d.overlaps) == 0 && d.scaleFor(b.panel(d)) >= goodScale-0.01
}

// panel is the room of one of the two drawings on the sheet.
func (b *both) panel(d *drawing) scene.Box {
	out := b.frame(d, b.paper().Area())
	out.MinY += headMM
	return out
}

// frame is the panel with its name.
func (b *both) frame(d *drawing, area scene.Box) scene.Box {
	first, second := area, area
	if b.stacked {
		// each as high as its drawing asks
		w, i := b.was.bounds().H()+headMM, b.is.bounds().H()+headMM
		at := area.MinY + (area.H()-gutterMM)*w/(w+i)
		first.MaxY, second.MinY = at, at+gutterMM
	} else {
		w, i := b.was.bounds().W(), b.is.bounds().W()
		at := area.MinX + (area.W()-gutterMM)*w/(w+i)
		first.MaxX, second.MinX = at, at+gutterMM
	}
	if d == b.was {
		return first
	}
	return second
}

// paper is the sheet with everything but the drawings.
func (b *both) paper() *sheet.Sheet {
	in := b.is.in
	h := sheet.HeadOf(b.is.c.Titled(), "Schematic, before and after")
	h.Symbols = "after ISO 10628-2"
	h.Sheet, h.Of = in.Sheet, in.Of
	s := sheet.New(b.page.Format, b.page.Orientation, h)
	s.Notes(b.notes()...)
	var legend []sheet.Entry
	for _, e := range append(b.was.legend(nil), b.is.legend(nil)...) {
		if !slices.ContainsFunc(legend, func(o sheet.Entry) bool { return o.Text == e.Text }) {
			legend = append(legend, e)
		}
	}
	s.Legend(legend...)
	return s
}

// share makes the two drawings those of one sheet: of one pipe, unless marked.
func (b *both) share() {
	b.was.both, b.is.both = b, b
	b.was.common = b.is.common
}

// notes are those of both drawings, each once; of two that begin alike the one that says more.
func (b *both) notes() []string {
	var out []string
	all := append(b.was.notes(), b.is.notes()...)
	for _, n := range all {
		begins := func(o string) bool { return strings.HasPrefix(o, strings.TrimSuffix(n, ".")+";") }
		if !slices.Contains(out, n) && !slices.ContainsFunc(all, begins) && !strings.HasPrefix(n, takenOut) { // said of what is before
			out = append(out, n)
		}
	}
	return out
}

// sheet puts both drawings on their sheet.
func (b *both) sheet() *scene.Scene {
	s := b.paper()
	area := s.Area()
	for _, d := range []*drawing{b.was, b.is} {
		frame, name := b.frame(d, area), "After the work"
		if d == b.was {
			name = "Before the work"
		}
		s.Add(scene.Text{At: scene.Point{X: frame.MinX + 1, Y: frame.MinY + 4}, Text: name, SizeMM: 3.4, Bold: true, Name: "panel"})
		panel := frame
		panel.MinY += headMM
		d.put(s, panel)
	}
	first, second := b.frame(b.was, area), b.frame(b.is, area)
	line := scene.Line(scene.Point{X: first.MaxX + gutterMM/2, Y: area.MinY}, scene.Point{X: first.MaxX + gutterMM/2, Y: area.MaxY}, scene.Stroke(sheet.Fine))
	if b.stacked {
		y := (first.MaxY + second.MinY) / 2
		line = scene.Line(scene.Point{X: area.MinX, Y: y}, scene.Point{X: area.MaxX, Y: y}, scene.Stroke(sheet.Fine))
	}
	s.Add(line.Named("panels"))
	return s.Scene
}
