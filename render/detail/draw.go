package detail

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// Input is what the detail is drawn from.
type Input struct {
	Layout *route.Layout // after the work
	Names  *tag.Names    // of the parts
	Cuts   []string      // names of the cuts, two for each string in the way of the water
	NoCuts bool          // nothing is sawn: the place is ruled out
	Job    graph.Job
	Units  quantity.System
	Page   sheet.Page // zero: A4, upright where the line is
}

// Draw returns the sheets of each string of new parts in old pipe, one for each way it must
// be looked at; none where there is no string.
func Draw(in Input) []*scene.Scene {
	if in.Layout == nil {
		return nil
	}
	if in.Names == nil {
		in.Names = tag.Of(in.Layout.Circuit, in.Layout.Stage.Net())
	}
	var todo []*drawing
	for i, c := range chains(in.Layout) {
		for _, v := range c.viewsOf() {
			todo = append(todo, &drawing{in: in, names: in.Names, c: &c, view: v, first: cutName(in.Cuts, 2*i), last: cutName(in.Cuts, 2*i+1)})
		}
	}
	var out []*scene.Scene
	for i, d := range todo {
		out = append(out, d.sheet(i+1, len(todo)))
	}
	return out
}

func cutName(names []string, i int) string {
	if i < len(names) {
		return names[i]
	}
	return fmt.Sprintf("X%d", i+1)
}

// drawing is one sheet in the making.
type drawing struct {
	in          Input
	names       *tag.Names
	c           *chain
	view        view
	first, last string // names of the cuts

	per      float64
	line     frame
	items    []scene.Item
	fixed    []scene.Box // what no label may cover
	letters  []scene.Box // of these, texts: no leader may cross them
	requests []request
	over     []scene.Item // written on top of all
	listed   []string     // labels that found no free place: said in the notes
}

// scales are those of ISO 5455 (from memory) and some between: the scale bar serves for all.
var scales = []float64{1, 2, 2.5, 3, 4, 5, 7.5, 10, 15, 20, 50, 100, 200}

const (
	roomMM = 11.0 // round the figure for labels, mm on the sheet
	rowMM  = 7.5  // from one line of dimensions to the next
	footMM = 6.0  // for the scale bar
)

func (d *drawing) sheet(n, of int) *scene.Scene {
	h := sheet.HeadOf(d.in.Job, "Detail of the assembly")
	h.Sheet, h.Of = n, of
	p := d.in.Page
	d.line.set = d.in.Layout.Stage
	d.line.u = d.view.along(d.c.lineWay())
	d.line.v = scene.Point{X: math.Abs(d.line.u.Y), Y: -math.Abs(d.line.u.X)}
	if d.line.u.Y != 0 && !p.Fixed {
		p.Orientation = sheet.Portrait
	}
	var s *sheet.Sheet
	for range 2 { // again where labels have to be said in the notes
		*d = drawing{in: d.in, names: d.names, c: d.c, view: d.view, first: d.first, last: d.last,
			line: frame{u: d.line.u, v: d.line.v, per: 1, set: d.in.Layout.Stage}, per: 1, listed: d.listed}
		notes := d.notes()
		probe := sheet.New(p.Format, p.Orientation, h)
		probe.Notes(notes...)
		area := probe.Area()
		b := d.reach()
		left, right, up, down := d.rooms()
		d.per = scales[len(scales)-1]
		for _, s := range scales {
			if b.W()/s+left+right <= area.W() && b.H()/s+up+down <= area.H() {
				d.per = s
				break
			}
		}
		h.Scale = "1:" + quantity.Trim(d.per)
		s = sheet.New(p.Format, p.Orientation, h)
		s.Notes(notes...)
		// the figure in the middle of what the dimensions leave
		width, height := b.W()/d.per+left+right, b.H()/d.per+up+down
		d.line.per = d.per
		d.line.at = scene.Point{
			X: area.MinX + (area.W()-width)/2 + left - b.MinX/d.per,
			Y: area.MinY + (area.H()-height)/2 + up - b.MinY/d.per,
		}
		d.figure()
		d.dimensions(b)
		d.scaleBar(area)
		had := len(d.listed)
		d.place(area)
		d.items = append(d.items, d.over...)
		if len(d.listed) == had {
			break
		}
	}
	s.Add(d.items...)
	return s.Scene
}

// reach is what the figure covers about the first member's centre, in mm of the pipe with Y
// down the sheet.
func (d *drawing) reach() scene.Box {
	f := d.line
	f.per = 1
	w := math.Max(d.c.before.outside, d.c.after.outside)
	for _, m := range d.c.members {
		w = math.Max(w, d.outside(m.fit.Spec.V, m.fit.Size.V))
	}
	b := scene.Empty()
	for _, s := range []float64{d.c.before.from, d.c.after.to} {
		b = b.Add(f.p(s, w*nutShare/2)).Add(f.p(s, -w*nutShare/2))
	}
	for i := range d.c.limbs {
		l := &d.c.limbs[i]
		if !d.flat(l) {
			continue
		}
		lf := d.limbFrame(l)
		lf.per = 1
		top, side := l.end, w*nutShare/2
		switch {
		case l.beyond != nil:
			top = l.beyond.to
		case l.part == nil:
			side = math.Max(side, l.bend.TakeOffMM+l.bend.DepthMM)
			top += l.bend.TakeOffMM + l.bend.DepthMM
		default:
			top += 1.5 * w
		}
		for _, t := range []float64{-side, side} {
			b = b.Add(lf.p(0, t)).Add(lf.p(top, t))
		}
	}
	return b
}

// limbFrame is the axis of a branch from its tee's centre, on the sheet.
func (d *drawing) limbFrame(l *limb) frame {
	side, _ := d.view.across(d.c.lineWay(), l.way)
	if d.c.lineWay().Len() == 0 || l.way.Len() == 0 {
		side = 1
	}
	v := d.line.u
	if l.tee == 0 { // what stands out sideways stands outwards
		v = scene.Point{X: -v.X, Y: -v.Y}
	}
	return frame{at: d.line.p(d.c.members[l.tee].from, 0), u: scene.Point{X: side * d.line.v.X, Y: side * d.line.v.Y}, v: v, per: d.per, set: d.in.Layout.Stage}
}

// limbOf returns the branch of a member; nil: none is known.
func (d *drawing) limbOf(i int) *limb {
	for k := range d.c.limbs {
		if d.c.limbs[k].tee == i {
			return &d.c.limbs[k]
		}
	}
	return nil
}

// outside is the outside diameter of pipe of a size, mm.
func (d *drawing) outside(spec catalog.Spec, size catalog.Size) float64 {
	if mm := d.in.Layout.Stage.PipeRow(spec, size).OutsideMM; mm > 0 {
		return mm
	}
	return size.NominalMM()
}

func (d *drawing) notes() []string {
	out := d.viewNotes()
	scale := "Lengths are true to scale and in mm, outlines across the pipe sketched."
	if d.in.Units != quantity.MetricSystem {
		scale = "Lengths are true to scale and in inches, outlines across the pipe sketched."
	}
	out = append(out, scale, "Dashed: pipe in its sockets. Second row: from stop to stop, on a pipe its cut length. Number in a ring: piece; J and a number: joint.")
	if note := d.roundedNote(); note != "" {
		out = append(out, note)
	}
	near, far, hidden, unsure := false, false, []string{}, []string{}
	ring := func(way graph.Vec) {
		toYou := way.Dot(d.view.towards) > 0
		near, far = near || toYou, far || !toYou
	}
	for i, m := range d.c.members {
		l := d.limbOf(i)
		switch {
		case m.part.Kind != graph.Tee:
		case l == nil:
			unsure = append(unsure, d.names.Tag(m.part.ID))
		case !d.flat(l):
			hidden = append(hidden, d.names.Tag(m.part.ID))
			ring(l.way)
		}
	}
	for i := range d.c.limbs {
		l := &d.c.limbs[i]
		if d.flat(l) && l.part == nil && math.Abs(l.next.Dot(d.view.towards)) > inPlane {
			ring(l.next)
		}
	}
	switch {
	case near && far:
		out = append(out, "Filled ring: comes towards you. Open ring: goes away from you.")
	case near:
		out = append(out, "Filled ring: comes towards you.")
	case far:
		out = append(out, "Open ring: goes away from you.")
	}
	if len(hidden) > 0 {
		words := "Drawn on another sheet of this detail: the branch of " + strings.Join(hidden, ", ") + "."
		out = append(out, words)
	}
	if len(unsure) > 0 {
		out = append(out, "Which way the branch points is not in the description: "+strings.Join(unsure, ", ")+".")
	}
	if measure := d.starred(); len(measure) > 0 {
		out = append(out, "Measure first, their lengths are a guess: "+strings.Join(measure, ", ")+".")
	}
	if len(d.listed) > 0 {
		out = append(out, "No room on the figure for: "+strings.Join(d.listed, "; ")+".")
	}
	return out
}

// text writes a length without its unit, which a note says.
func (d *drawing) text(mm float64) string {
	if d.in.Units == quantity.MetricSystem {
		return quantity.Trim(quantity.Round(mm, 0))
	}
	text := quantity.Format(mm, quantity.Length, d.in.Units)
	if strings.Contains(text, "ft") {
		return text
	}
	return strings.TrimSuffix(text, " in")
}

// solid adds items no label may cover.
func (d *drawing) solid(items ...scene.Item) {
	for _, it := range items {
		d.items = append(d.items, it)
		d.bar(it)
	}
}

// bar keeps labels off an item: off what it covers in upright strips, so that the corners
// beside a tee's branch stay free.
func (d *drawing) bar(it scene.Item) {
	b := scene.Bounds(it)
	if b.IsEmpty() {
		return
	}
	if _, ok := it.(scene.Text); ok {
		d.letters = append(d.letters, b)
	}
	sh, ok := it.(scene.Shape)
	if !ok || sh.Name != "fitting" || len(sh.Paths) != 1 {
		d.fixed = append(d.fixed, b)
		return
	}
	pts := []scene.Point{sh.Paths[0].Start}
	xs := []float64{pts[0].X}
	for _, g := range sh.Paths[0].Segments {
		pts, xs = append(pts, g.To), append(xs, g.To.X)
	}
	slices.Sort(xs)
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] < 0.1 {
			continue
		}
		mid, strip := (xs[i]+xs[i-1])/2, scene.Empty()
		for k, a := range pts {
			z := pts[(k+1)%len(pts)]
			if (a.X-mid)*(z.X-mid) < 0 {
				y := a.Y + (z.Y-a.Y)*(mid-a.X)/(z.X-a.X)
				strip = strip.Add(scene.Point{X: xs[i-1], Y: y}).Add(scene.Point{X: xs[i], Y: y})
			}
		}
		if !strip.IsEmpty() {
			d.fixed = append(d.fixed, strip.Grow(sh.Style.StrokeMM/2))
		}
	}
}

// scaleBar draws a bar of 100 mm on the pipe, or of 4 in, or of as many as make it well seen.
func (d *drawing) scaleBar(area scene.Box) {
	step := 50.0
	if d.in.Units == quantity.InchSystem {
		step = 2 * 25.4
	}
	for step/d.per < 15 {
		step *= 2
	}
	x, y := area.MinX+1, area.MaxY-3
	for i := range 2 {
		st := scene.Stroke(sheet.Fine)
		if i == 0 {
			st = scene.Solid(sheet.Fine)
		}
		d.solid(scene.Rect(x+float64(i)*step/d.per, y, step/d.per, 1.6, st).Named("scale-bar"))
	}
	for i := range 3 {
		mm := float64(i) * step
		t := scene.Text{At: scene.Point{X: x + mm/d.per, Y: y - 0.9}, Text: d.text(mm), SizeMM: sheet.LeastEm, Anchor: scene.Centre, Name: "scale"}
		if i == 0 {
			t.Anchor = scene.Start
		}
		d.solid(t)
	}
}

// inList reports whether a label is said in the notes.
func (d *drawing) inList(words string) bool { return slices.Contains(d.listed, words) }
