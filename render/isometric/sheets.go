package isometric

import (
	"math"
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

// Bounds of what is drawn and how, in members.
const (
	mostApart    = 120 // whose lines are moved out of each other's way
	mostOverview = 150 // that are labelled in an overview
	mostDetail   = 300 // that are drawn on sheets of their own besides
)

// sheets puts the members on one sheet; on an overview and as many more as they need; or on
// an overview alone, if there are too many to look for one in. What then has no number on any
// sheet is listed. In an overview of more than can be labelled nothing is numbered.
func (d *drawing) sheets(ms []member) []*scene.Scene {
	if d.in.Gone != nil { // on one sheet: nobody cuts by it
		return []*scene.Scene{d.finish(group{ms: ms, pic: d.force(ms)}, 0, 1, false, "")}
	}
	groups, over := d.whole(ms)
	if over {
		if len(ms) <= mostDetail {
			groups = d.halves(ms)
		}
		groups = append([]group{{pic: d.oversee(ms)}}, groups...)
	}
	lists := d.pieceLists(groups)
	n := len(groups) + len(lists)
	var out []*scene.Scene
	for k, g := range groups {
		out = append(out, d.finish(g, k, n, over && k == 0, d.matchNote(groups, k)))
	}
	for k, l := range lists {
		out = append(out, d.listPage(l, len(groups)+k, n))
	}
	return out
}

// page is the sheet of a group with everything but the drawing.
func (d *drawing) page(p *picture, k, n int, over bool, match string) *sheet.Sheet {
	s := sheet.New(d.in.Page.Format, d.in.Page.Orientation, d.head(k, n, over))
	notes := d.notes()
	if over {
		notes = d.overviewNotes(n)
	}
	for _, more := range []string{match, p.keyNote()} {
		if more != "" && (!over || d.dense) {
			notes = append(notes, more)
		}
	}
	s.Notes(notes...)
	s.Legend(p.entries()...)
	return s
}

func (d *drawing) head(k, n int, over bool) sheet.Head {
	doc := d.in.Title
	switch {
	case doc != "":
	case d.in.Gone != nil:
		doc = "Isometric before the work"
	case d.oldAll:
		doc = "Isometric as it stands"
	case over:
		doc = "Isometric: overview of the new work"
	default:
		doc = "Isometric of the new work"
	}
	h := sheet.HeadOf(d.c.Job, doc)
	h.Symbols = "after ISO 6412-2"
	h.Sheet, h.Of = 1+k, n
	if d.in.Sheet > 0 {
		h.Sheet, h.Of = d.in.Sheet+k, max(d.in.Of, d.in.Sheet+n-1)
	}
	return h
}

// overviewNotes are what the overview needs said.
func (d *drawing) overviewNotes(sheets int) []string {
	out := []string{"Circles: pieces of the cut list, which has the lengths to cut. Not to scale."}
	if d.dense {
		out[0] = "Not to scale."
	}
	if sheets > 1 && !d.dense {
		out = append(out, "Lengths, joints and what goes on the pipe are on the sheets that follow.")
	}
	switch {
	case d.dense && sheets > 1 && len(d.lay.Pieces) > 0:
		out = append(out, "More pipe than can be numbered here: the numbers of the pieces are on the sheets that follow.")
	case d.dense:
		out = append(out, "More pipe than can be numbered on a drawing.")
	}
	if t := d.datum(); t != "" {
		out = append(out, t)
	}
	return append(out, d.in.Notes...)
}

// group is what stands on one sheet.
type group struct {
	ms   []member
	pic  *picture // set out and labelled; nil where it is not yet
	fits bool
}

// oversee draws the overview: with the pieces numbered where their numbers can be read.
func (d *drawing) oversee(ms []member) *picture {
	d.overview, d.dense = true, len(ms) > mostOverview
	defer func() { d.overview = false }()
	p, _ := d.fit(ms)
	if d.dense {
		return p
	}
	if larger := d.enlarge(p); larger != nil {
		return larger
	}
	d.dense = true
	p, _ = d.fit(ms)
	return p
}

// mostZoom is how much larger the labels of an overview are drawn: beyond that they need more
// room than the pipes, and the more the larger they are.
const mostZoom = 2.0

// enlarge draws a picture that is made smaller to fit its page with labels as much larger, so
// that they are placed at the size they are read. It is nil for an overview in which they would be
// too large.
func (d *drawing) enlarge(p *picture) *picture {
	defer func() { d.zoom = 0 }()
	match := ""
	if g := (group{ms: p.ms}); len(g.cuts()) > 0 {
		match = "Match lines: " + strings.Join(g.cuts(), " on sheet 99, ")
	}
	for range 3 {
		area := d.page(p, 0, 2, d.overview, match).Area().Grow(-inset)
		k := p.onto(area).scale
		if k*max(d.zoom, 1) > 0.995 {
			break
		}
		if d.zoom = max(1.02*d.zoom, 1/k); d.overview && d.zoom > mostZoom {
			return nil
		}
		p = d.layOut(p.ms, p.scale)
		p.draw()
	}
	return p
}

// How many labels may be without room for another scale to help; and for it to help even where
// the sheet could be cut in two.
const (
	mostCrowded = 5
	hopeless    = 15
)

// mostIdle is how many tries in a row may be no better than the best before no more are made.
const mostIdle = 2

// fit draws members as large as the page takes them and reports whether they fit it, with no
// label in the way.
func (d *drawing) fit(ms []member) (*picture, bool) {
	scale := d.scaleFor(ms)
	var best *picture
	fits, idle := false, 0
	for k := range tries {
		if k > 0 && d.work.Done() && fits {
			break
		}
		p := d.layOut(ms, scale)
		if p.most = mostSheetWork; d.hope && (best == nil || best.over == 0) {
			p.most = mostWholeWork
		}
		p.draw()
		match := ""
		if g := (group{ms: ms}); len(g.cuts()) > 0 {
			match = "Match lines: " + strings.Join(g.cuts(), " on sheet 99, ") // as long as it will be
		}
		area := d.page(p, 0, 1, d.overview, match).Area().Grow(-inset)
		b := p.bounds()
		ok := b.W() <= area.W() && b.H() <= area.H()
		if ok {
			_, ok = p.triadAt(area, p.onto(area))
		}
		if best == nil || (ok && !fits) || (ok == fits && p.over < best.over) {
			best, fits, idle = p, ok, 0
		} else if idle++; idle >= mostIdle {
			break
		}
		if ok && (p.over == 0 || p.over > mostCrowded) || p.over > hopeless && d.canCut(ms) {
			break
		}
		scale *= math.Min(0.94, math.Max(0.7, math.Min(area.W()/b.W(), area.H()/b.H())))
		if scale < d.leastScale() && (ok || scale < leastScale/2) {
			break
		}
	}
	best.sized = fits
	return best, fits && best.over == 0
}

// force is fit for members that cannot be shared out any further: what fits no page is made
// smaller, its letters not.
func (d *drawing) force(ms []member) *picture {
	p, _ := d.fit(ms)
	return d.enlarge(p)
}

// leastScale is the smallest scale at which labels go on the pipes; an overview takes what it
// needs.
func (d *drawing) leastScale() float64 {
	if d.overview {
		return leastScale / 12
	}
	return leastScale
}

// scaleFor is the greatest scale at which the pipes alone, with room for labels, fit the page.
func (d *drawing) scaleFor(ms []member) float64 {
	room := d.room()
	lo, hi := d.leastScale(), mostScale
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
func (d *drawing) finish(g group, k, n int, over bool, match string) *scene.Scene {
	s := d.page(g.pic, k, n, over, match)
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
		it.SizeMM = max(sheet.LeastEm, it.SizeMM*o.scale)
		return it
	}
	return it
}
