package isometric

import (
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Scales tried to fill a page, and what labels need round the pipes.
const (
	mostScale  = 2.0
	leastScale = 0.85
	labelRoom  = 11.0
	legendRoom = 22.0
	inset      = 1.0 // between the drawing and the edge of the free area, mm
)

// sheets puts the members on as many sheets as they need.
func (d *drawing) sheets(ms []member) []*scene.Scene {
	groups := d.split(ms)
	var out []*scene.Scene
	for k, g := range groups {
		out = append(out, d.finish(g, k, len(groups)))
	}
	return out
}

// page is the sheet of a group with everything but the drawing.
func (d *drawing) page(p *picture, k, n int) *sheet.Sheet {
	doc := d.in.Title
	if doc == "" {
		doc = "Isometric of the new work"
		if d.oldAll {
			doc = "Isometric as it stands"
		}
	}
	h := sheet.HeadOf(d.c.Job, doc)
	h.Symbols = "after ISO 6412-2"
	h.Sheet, h.Of = 1+k, n
	if d.in.Sheet > 0 {
		h.Sheet, h.Of = d.in.Sheet+k, max(d.in.Of, d.in.Sheet+n-1)
	}
	s := sheet.New(d.in.Page.Format, d.in.Page.Orientation, h)
	notes := d.notes()
	if n > 1 {
		notes = append(notes, d.matchNotes(p, k)...)
	}
	s.Notes(notes...)
	s.Legend(p.entries()...)
	return s
}

// group is what stands on one sheet.
type group struct {
	ms   []member
	pic  *picture // set out and labelled; nil where it is not yet
	fits bool
}

// area is what is left for a drawing of a group, all but the legend's last lines known.
func (d *drawing) area(p *picture, k, n int) scene.Box {
	return d.page(p, k, n).Area().Grow(-inset)
}

// fit draws members as large as the page takes them and reports whether they fit it, with no
// label in the way.
func (d *drawing) fit(ms []member) (*picture, bool) {
	scale := d.scaleFor(ms)
	var best *picture
	fits := false
	for range 5 {
		p := d.layOut(ms, scale)
		p.draw()
		area := d.area(p, 0, 1)
		b := p.bounds()
		ok := b.W() <= area.W() && b.H() <= area.H()
		if best == nil || (ok && !fits) || (ok == fits && p.crowded < best.crowded) {
			best, fits = p, ok
		}
		if ok && p.crowded == 0 {
			break
		}
		scale *= 0.95
		if scale < leastScale {
			break
		}
	}
	return best, fits && best.crowded == 0
}

// scaleFor is the greatest scale at which the pipes alone, with room for labels, fit the page.
func (d *drawing) scaleFor(ms []member) float64 {
	room := d.room()
	lo, hi := leastScale, mostScale
	for range 5 {
		mid := (lo + hi) / 2
		f := d.layOut(ms, mid).frame()
		if f.W() <= room.W() && f.H() <= room.H() {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// room is what the page has for the pipes alone, with labels round them, notes and legend.
func (d *drawing) room() scene.Box {
	w, h := d.in.Page.Format.Size(d.in.Page.Orientation)
	return scene.Box{MaxX: w - 34 - 2*labelRoom, MaxY: h - 48 - legendRoom - 2*labelRoom}
}

// finish puts a group on its sheet.
func (d *drawing) finish(g group, k, n int) *scene.Scene {
	s := d.page(g.pic, k, n)
	area := s.Area().Grow(-inset)
	b := g.pic.bounds()
	if b.IsEmpty() {
		return s.Scene
	}
	scale := min(1, area.W()/b.W(), area.H()/b.H())
	c, a := b.Centre(), area.Centre()
	shift := sub(a, c)
	if scale == 1 {
		if at, ok := g.pic.triadAt(area, shift); ok {
			s.Add(triad(at)...)
		} else {
			s.Add(triad(at)...)
		}
	}
	for _, it := range append(append([]scene.Item{}, g.pic.items...), g.pic.labels...) {
		s.Add(moved(it, c, a, scale))
	}
	return s.Scene
}

// moved moves an item from about c to about a, scaled. Line widths stay.
func moved(it scene.Item, c, a scene.Point, k float64) scene.Item {
	f := func(p scene.Point) scene.Point { return add(a, times(k, sub(p, c))) }
	switch it := it.(type) {
	case scene.Shape:
		return it.Map(f)
	case scene.Text:
		it.At = f(it.At)
		it.SizeMM *= k
		return it
	}
	return it
}
