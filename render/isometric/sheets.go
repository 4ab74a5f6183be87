package isometric

import (
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/picture"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Scales tried to fill a page, and what labels need round the pipes.
const (
	mostScale  = 2.0
	leastScale = 0.85
	tries      = 8
	inset      = 1.0 // between the drawing and the edge of the free area, mm
)

// Bounds of what is drawn and how, in members.
const (
	mostDetail = 300 // that are drawn on sheets of their own besides
)

// Draw returns the sheets of an isometric: one; or where one page cannot hold it first an
// overview of all new work, then its parts, joined by match lines.
func Draw(in Input) []*scene.Scene {
	d := members.NewDrawing(in)
	return sheetsOf(d, d.Members())
}

// sheetsOf puts the members on one sheet; on an overview and as many more as they need; or on
// an overview alone, if there are too many to look for one in. What then has no number on any
// sheet is listed. In an overview of more than can be labelled nothing is numbered.
func sheetsOf(d *members.Drawing, ms []members.Member) []*scene.Scene {
	if d.In.Gone != nil { // on one sheet: nobody cuts by it
		return []*scene.Scene{finish(d, group{ms: ms, pic: forceOn(d, ms)}, 0, 1, false, "")}
	}
	groups, over := wholeOf(d, ms)
	if over {
		if len(ms) <= mostDetail {
			groups = halvesOf(d, ms)
			slices.SortStableFunc(groups, func(a, b group) int { // what is worked on first
				return quantity.CompareBool(oldOnly(a.ms), oldOnly(b.ms))
			})
		}
		groups = append([]group{{pic: oversee(d, ms)}}, groups...)
	}
	lists := pieceLists(d, groups)
	n := len(groups) + len(lists)
	var out []*scene.Scene
	for k, g := range groups {
		out = append(out, finish(d, g, k, n, over && k == 0, matchNote(d, groups, k)))
	}
	for k, l := range lists {
		out = append(out, listPage(d, l, len(groups)+k, n))
	}
	return out
}

// pageOf is the sheet of a group with everything but the drawing.
func pageOf(d *members.Drawing, p *picture.Picture, k, n int, over bool, match string) *sheet.Sheet {
	s := sheet.New(d.In.Page.Format, d.In.Page.Orientation, headOf(d, k, n, over, oldOnly(p.Ms)))
	notes := notesOf(d, p)
	if over {
		notes = overviewNotes(d, n)
	}
	for _, more := range []string{match, p.KeyNote()} {
		if more != "" && (!over || d.Dense) {
			notes = append(notes, more)
		}
	}
	s.Notes(notes...)
	s.Legend(entriesOf(p)...)
	return s
}

// oldOnly reports whether nothing new stands on a sheet.
func oldOnly(ms []members.Member) bool {
	return !slices.ContainsFunc(ms, func(m members.Member) bool { return m.IsNew || len(m.Pieces) > 0 })
}

func headOf(d *members.Drawing, k, n int, over, old bool) sheet.Head {
	doc := d.In.Title
	switch {
	case doc != "":
	case d.In.Gone != nil:
		doc = "Isometric before the work"
	case d.OldAll:
		doc = "Isometric as it stands"
	case over:
		doc = "Isometric: overview of the new work"
	case old:
		doc = "Isometric of old pipe beside the new work"
	default:
		doc = "Isometric of the new work"
	}
	h := sheet.HeadOf(d.C.Titled(), doc)
	h.Symbols = "after ISO 6412-2"
	h.Sheet, h.Of = 1+k, n
	if d.In.Sheet > 0 {
		h.Sheet, h.Of = d.In.Sheet+k, max(d.In.Of, d.In.Sheet+n-1)
	}
	return h
}

// overviewNotes are what the overview needs said.
func overviewNotes(d *members.Drawing, sheets int) []string {
	out := []string{"Circles: pieces of the cut list, which has the lengths to cut. Not to scale."}
	if d.Dense {
		out[0] = "Not to scale."
	}
	if sheets > 1 && !d.Dense {
		out = append(out, "Lengths, joints and what goes on the pipe are on the sheets that follow.")
	}
	switch {
	case d.Dense && sheets > 1 && len(d.Lay.Pieces) > 0:
		out = append(out, "More pipe than can be numbered here: the numbers of the pieces are on the sheets that follow.")
	case d.Dense:
		out = append(out, "More pipe than can be numbered on a drawing.")
	}
	if t := datumOf(d); t != "" {
		out = append(out, t)
	}
	return append(out, d.In.Notes...)
}

// group is what stands on one sheet.
type group struct {
	ms   []members.Member
	pic  *picture.Picture // set out and labelled; nil where it is not yet
	fits bool
}

// oversee draws the overview: with the pieces numbered where their numbers can be read.
func oversee(d *members.Drawing, ms []members.Member) *picture.Picture {
	d.Overview, d.Dense = true, len(ms) > members.MostOverview
	defer func() { d.Overview = false }()
	if d.Dense {
		return densely(d, ms)
	}
	p, _ := fitTo(d, ms)
	if larger := enlarged(d, p); larger != nil {
		return larger
	}
	d.Dense = true
	return densely(d, ms)
}

// densely draws an overview without numbers, small as it may be.
func densely(d *members.Drawing, ms []members.Member) *picture.Picture {
	p, _ := fitTo(d, ms)
	if !p.Labelled {
		labelIn(p, areaOf(d, p))
	}
	p.Finish()
	return p
}

// mostZoom is how much larger the labels of an overview are drawn: beyond that they need more
// room than the pipes, and the more the larger they are.
const mostZoom = 2.0

// enlarged draws a picture that is made smaller to fit its page with labels as much larger, so
// that they are placed at the size they are read. It is nil for an overview in which they would be
// too large.
func enlarged(d *members.Drawing, p *picture.Picture) *picture.Picture {
	defer func() { d.Zoom = 0 }()
	if p.Labelled {
		p.Finish()
	}
	for range 3 {
		area := areaOf(d, p)
		k := ontoOf(p, area).scale
		if p.Labelled && k*max(d.Zoom, 1) > 0.995 {
			break
		}
		if d.Zoom = max(1.02*d.Zoom, 1/k); d.Overview && d.Zoom > mostZoom {
			return nil
		}
		p = picture.LayOut(d, p.Ms, p.Scale)
		p.Paint()
		labelIn(p, scene.Box{MaxX: area.W() * d.Zoom, MaxY: area.H() * d.Zoom})
		p.Finish()
	}
	return p
}

// areaOf is what the sheet of a picture has free for it, whatever is still to be said beside it.
func areaOf(d *members.Drawing, p *picture.Picture) scene.Box {
	match := ""
	if g := (group{ms: p.Ms}); len(g.cuts()) > 0 {
		match = "Match lines: " + strings.Join(g.cuts(), " on sheet 99, ") // as long as it will be
	}
	return pageOf(d, p, 0, 2, d.Overview, match).Area().Grow(-inset)
}

// labelIn places the labels of a picture so that it goes into an area, and leaves a corner free for
// the triad, if the pipes do.
func labelIn(p *picture.Picture, area scene.Box) {
	if p.Bounds().IsEmpty() {
		p.Label(area)
		return
	}
	o := onto{p.Bounds().Centre(), area.Centre(), 1}
	back := onto{o.to, o.from, 1}
	frame := back.box(area).Union(p.Bounds())
	if at, ok := triadAt(p, area, o); ok {
		p.Label(frame, back.box(triadBox(at)))
		return
	}
	p.Label(frame)
}

// How many labels may be without room for another scale to help; and for all to go on one sheet all
// the same, those on leaders across the pipes.
const (
	mostCrowded   = 3
	mostOnLeaders = 2
)

// mostIdle is how many tries in a row may be no better than the best before no more are made.
const mostIdle = 2

// fitTo draws members as large as the page takes them and reports whether they fit it, with no
// label in the way. What does not fit it at any scale has no labels yet.
func fitTo(d *members.Drawing, ms []members.Member) (*picture.Picture, bool) {
	scale := scaleFor(d, ms)
	var best *picture.Picture
	idle := 0
	for range tries {
		if best != nil && best.Labelled && d.Work.Done() {
			break
		}
		p := picture.LayOut(d, ms, scale)
		if p.Most = members.MostSheetWork; d.Hope && (best == nil || best.Over == 0) {
			p.Most = members.MostWholeWork
		}
		p.Paint()
		area, b := areaOf(d, p), p.Bounds()
		if b.W() <= area.W() && b.H() <= area.H() {
			labelIn(p, area)
			if _, _, ok := seatOf(p, area); !ok {
				p.Over++
			}
		}
		switch {
		case best == nil || !best.Labelled || p.Labelled && p.Over < best.Over:
			best, idle = p, 0
		default:
			idle++
		}
		if p.Labelled && (p.Over == 0 || p.Over > mostCrowded) || idle >= mostIdle {
			break
		}
		scale *= math.Min(0.94, math.Max(0.7, math.Min(area.W()/b.W(), area.H()/b.H())))
		if scale < scaleFloor(d) && (p.Labelled || scale < leastScale/2) {
			break
		}
	}
	return best, best.Labelled && (best.Over == 0 || best.Over <= mostOnLeaders && finishes(d, best))
}

// finishes puts the labels of a picture that found no room on leaders across the pipes, and reports
// whether all of them have places on its page then.
func finishes(d *members.Drawing, p *picture.Picture) bool {
	p.Finish()
	area, b := areaOf(d, p), p.Bounds()
	_, _, ok := seatOf(p, area)
	return ok && p.KeyNote() == "" && b.W() <= area.W() && b.H() <= area.H()
}

// forceOn is fit for members that cannot be shared out any further: what fits no page is made
// smaller, its letters not.
func forceOn(d *members.Drawing, ms []members.Member) *picture.Picture {
	p, _ := fitTo(d, ms)
	return enlarged(d, p)
}

// scaleFloor is the smallest scale at which labels go on the pipes; an overview takes what it
// needs.
func scaleFloor(d *members.Drawing) float64 {
	if d.Overview {
		return leastScale / 12
	}
	return leastScale
}

// scaleFor is the greatest scale at which the pipes alone, with room for labels, fit the page.
func scaleFor(d *members.Drawing, ms []members.Member) float64 {
	room := d.Room()
	lo, hi := scaleFloor(d), mostScale
	for range tries {
		mid := (lo + hi) / 2
		f := picture.LayOut(d, ms, mid).Frame()
		if f.W() <= room.W() && f.H() <= room.H() {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// onto says how a picture is moved, and scaled if it must be, into the middle of an area.
type onto struct {
	from, to scene.Point
	scale    float64
}

func ontoOf(p *picture.Picture, area scene.Box) onto {
	b := p.Bounds()
	if b.IsEmpty() {
		return onto{scale: 1}
	}
	return onto{b.Centre(), area.Centre(), min(1, area.W()/b.W(), area.H()/b.H())}
}

// seatOf is where a picture and its triad go in an area: the picture in its middle, else where its
// labels were placed for the triad to have a corner; ok is false where neither leaves it one.
func seatOf(p *picture.Picture, area scene.Box) (o onto, triad scene.Point, ok bool) {
	o = ontoOf(p, area)
	triad, ok = triadAt(p, area, o)
	if ok || o.scale < 1 || p.Within.IsEmpty() {
		return o, triad, ok
	}
	as := onto{p.Within.Centre(), area.Centre(), 1}
	if at, free := triadAt(p, area, as); free && area.Contains(as.box(p.Bounds())) {
		return as, at, true
	}
	return o, triad, false
}

func (o onto) box(b scene.Box) scene.Box {
	lo, hi := o.point(scene.Point{X: b.MinX, Y: b.MinY}), o.point(scene.Point{X: b.MaxX, Y: b.MaxY})
	return scene.Box{MinX: lo.X, MinY: lo.Y, MaxX: hi.X, MaxY: hi.Y}
}

func (o onto) point(p scene.Point) scene.Point {
	return space.Add(o.to, space.Times(o.scale, space.Sub(p, o.from)))
}

// finish puts a group on its sheet.
func finish(d *members.Drawing, g group, k, n int, over bool, match string) *scene.Scene {
	s := pageOf(d, g.pic, k, n, over, match)
	area := s.Area().Grow(-inset)
	o, at, _ := seatOf(g.pic, area)
	s.Add(triad(at)...)
	for _, it := range append(append([]scene.Item{}, g.pic.Items...), g.pic.Labels...) {
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
