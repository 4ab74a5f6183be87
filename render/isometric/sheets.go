package isometric

import (
	"strings"

	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Scales tried to fill a page, and what labels need round the pipes.
const (
	mostScale  = 2.0
	leastScale = 0.85
	labelRoom  = 11.0
	legendRoom = 22.0
	tries      = 8
	inset      = 1.0 // between the drawing and the edge of the free area, mm
)

// sheets puts the members on as many sheets as they need.
func (d *drawing) sheets(ms []member) []*scene.Scene {
	groups := d.split(ms)
	var out []*scene.Scene
	for k, g := range groups {
		out = append(out, d.finish(g, k, len(groups), d.matchNote(groups, k)))
	}
	return out
}

// page is the sheet of a group with everything but the drawing.
func (d *drawing) page(p *picture, k, n int, match string) *sheet.Sheet {
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
	if match != "" {
		notes = append(notes, match)
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

// fit draws members as large as the page takes them and reports whether they fit it, with no
// label in the way.
func (d *drawing) fit(ms []member) (*picture, bool) {
	scale := d.scaleFor(ms)
	var best *picture
	fits := false
	for range tries {
		p := d.layOut(ms, scale)
		p.draw()
		match := ""
		if g := (group{ms: ms}); len(g.cuts()) > 0 {
			match = "Match lines: " + strings.Join(g.cuts(), " on sheet 99, ") // as long as it will be
		}
		area := d.page(p, 0, 1, match).Area().Grow(-inset)
		b := p.bounds()
		ok := b.W() <= area.W() && b.H() <= area.H()
		if ok {
			_, ok = p.triadAt(area, p.onto(area))
		}
		if best == nil || (ok && !fits) || (ok == fits && p.crowded < best.crowded) {
			best, fits = p, ok
		}
		if ok && p.crowded == 0 {
			break
		}
		scale *= 0.96
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
	for range tries {
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

// onto says how a picture is moved, and scaled if it must be, into the middle of an area.
type onto struct {
	from, to scene.Point
	scale    float64
}

func (p *picture) onto(area scene.Box) onto {
	b := p.bounds()
	if b.IsEmpty() {
		return onto{scale: 1}
	}
	return onto{b.Centre(), area.Centre(), min(1, area.W()/b.W(), area.H()/b.H())}
}

func (o onto) point(p scene.Point) scene.Point { return add(o.to, times(o.scale, sub(p, o.from))) }

// finish puts a group on its sheet.
func (d *drawing) finish(g group, k, n int, match string) *scene.Scene {
	s := d.page(g.pic, k, n, match)
	area := s.Area().Grow(-inset)
	o := g.pic.onto(area)
	at, _ := g.pic.triadAt(area, o)
	s.Add(triad(at)...)
	for _, it := range append(append([]scene.Item{}, g.pic.items...), g.pic.labels...) {
		s.Add(o.item(it))
	}
	return s.Scene
}

// item moves an item. Line widths stay.
func (o onto) item(it scene.Item) scene.Item {
	switch it := it.(type) {
	case scene.Shape:
		return it.Map(o.point)
	case scene.Text:
		it.At = o.point(it.At)
		it.SizeMM *= o.scale
		return it
	}
	return it
}
