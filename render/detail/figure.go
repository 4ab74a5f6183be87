package detail

import (
	"fmt"
	"math"
	"strings"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// figure draws the string and its limbs, fittings first, pipes in them, then the cut lines.
func (d *drawing) figure() {
	c := d.c
	for i := range c.members {
		d.member(&c.members[i])
	}
	for i := range c.limbs {
		d.limb(&c.limbs[i])
	}
	d.solid(d.line.tube(c.before)...)
	d.solid(d.line.tube(c.after)...)
	for _, m := range c.members {
		for _, t := range m.tubes {
			d.pipe(d.line, t)
		}
	}
	d.flow()
	d.cutLine(c.before.to, d.first)
	d.cutLine(c.after.from, d.last)
	d.want(request{tag: "old", lines: []string{"old pipe"}, at: d.sides(d.line, c.before.from+0.4*c.before.outside, c.before.outside), em: 2.4})
}

// pipe draws a piece and asks for its number.
func (d *drawing) pipe(f frame, t tube) {
	d.solid(f.tube(t)...)
	if t.number > 0 && t.open == 0 {
		mid := (t.from + t.depthFrom + t.to - t.depthTo) / 2
		width := t.outside
		if (t.to-t.depthTo-t.from-t.depthFrom)/d.per < 4 { // seen only between two sockets
			width *= hubShare
		}
		d.want(request{tag: fmt.Sprintf("piece:%d", t.number), number: t.number, at: d.sides(f, mid, width), em: 3.2})
	}
}

func (d *drawing) member(m *member) {
	w := d.outside(m.fit.Spec, m.fit.Size)
	f := d.line
	if m.part.Kind == graph.Tee {
		branch := d.outside(m.fit.Spec, m.fit.Branch)
		d.shape(f.tee(m.from, m.fit, w, branch), f, m.from, w)
		d.within(m.part, f, m.from, 2*m.fit.Row.TakeOffMM, w, f.p(m.from, -w*hubShare/2))
		if d.c.before.bushTo && m == &d.c.members[0] {
			d.items = append(d.items, f.bush(m.from-m.fit.Row.TakeOffMM, m.from-m.fit.Row.TakeOffMM-m.fit.Row.SocketMM, w))
		}
		if d.c.after.bushFrom && m == &d.c.members[len(d.c.members)-1] {
			d.items = append(d.items, f.bush(m.from+m.fit.Row.TakeOffMM, m.from+m.fit.Row.TakeOffMM+m.fit.Row.SocketMM, w))
		}
		return
	}
	union := strings.Contains(m.fit.Row.Ends, "union")
	d.shape(f.inline(m.from, m.to, m.depthIn, m.depthTo, w, m.part, union), f, m.from, w)
	d.name(m.part, d.sides(f, (m.from+m.to)/2, w*bodyShare)...)
}

// shape adds a fitting; where the catalogue has no dimensions to draw it by, a plain box.
func (d *drawing) shape(items []scene.Item, f frame, at, w float64) {
	if items == nil {
		items = []scene.Item{f.rect(at-w, at+w, w*hubShare, scene.Outline(sheet.Thin)).Tagged("fitting")}
	}
	for _, it := range items {
		d.solid(it)
	}
}

// limb draws a branch: the bush in it, its first pipe and what comes next.
func (d *drawing) limb(l *limb) {
	tee := &d.c.members[l.tee]
	f := frame{at: d.line.p(tee.from, 0), up: true, per: d.per, side: 1}
	if l.tee == 0 {
		f.side = -1 // what stands out sideways stands outwards
	}
	row := tee.fit.Row
	stop := row.BranchTakeOffMM
	if stop == 0 {
		stop = row.TakeOffMM
	}
	if len(l.tubes) > 0 && l.tubes[0].bushFrom {
		d.items = append(d.items, f.bush(stop, stop+row.SocketMM, d.outside(tee.fit.Spec, tee.fit.Branch)))
	}
	w := d.outside(tee.fit.Spec, tee.fit.Branch)
	if n := len(l.tubes); n > 0 {
		w = l.tubes[n-1].outside
	}
	switch {
	case l.part == nil:
		k := l.turn
		if k != 0 && f.side < 0 {
			k = -k
		}
		d.solid(f.elbow(l.end, l.bend, w, k)...)
		d.want(request{tag: "name:bend", lines: []string{strings.ReplaceAll(l.bend.Kind, "-", " ")}, at: d.sides(f, l.end, w*hubShare), em: 2.6})
	case l.part.Kind == graph.Tee && l.port != graph.Branch:
		d.shape(f.tee(l.end, l.fit, w, d.outside(l.fit.Spec, l.fit.Branch)), f, l.end, w)
		d.name(l.part, d.sides(f, l.end, w*hubShare)...)
	case inLine(l.part.Kind):
		depth := 0.0
		if l.beyond != nil {
			depth = l.beyond.depthFrom
		}
		d.solid(f.inline(l.end, l.end+l.fit.Row.LengthMM, l.stop.DepthMM, depth, w, l.part, strings.Contains(l.fit.Row.Ends, "union"))...)
		d.name(l.part, d.sides(f, l.end+l.fit.Row.LengthMM/2, w*bodyShare)...)
	default:
		d.solid(f.rect(l.end-l.stop.DepthMM, l.end+w, w*hubShare, scene.Outline(sheet.Thin)).Tagged("fitting"))
		d.name(l.part, d.sides(f, l.end+w/2, w*hubShare)...)
	}
	for _, t := range l.tubes {
		d.pipe(f, t)
	}
	if l.beyond != nil {
		d.solid(f.tube(*l.beyond)...)
		if l.beyond.number > 0 {
			b := *l.beyond
			d.want(request{tag: fmt.Sprintf("on:%d", b.number), lines: []string{fmt.Sprintf("to piece %d", b.number)}, at: d.sides(f, b.to-0.35*b.outside, b.outside), em: 2.4})
		}
	}
}

// sides are the two points on the outside of something w mm across, at s along the axis.
func (d *drawing) sides(f frame, s, w float64) []scene.Point {
	return []scene.Point{f.p(s, w/2), f.p(s, -w/2)}
}

// within writes a part's name on its body, long mm by w mm about s, where it fits; else it
// asks for a place beside it.
func (d *drawing) within(p *graph.Part, f frame, s, long, w float64, beside ...scene.Point) {
	r := d.nameOf(p)
	a, b := f.p(s-long/2, w/2), f.p(s+long/2, -w/2)
	box := scene.Empty().Add(a).Add(b).Grow(-0.8)
	if rw, rh := r.size(); rw > box.W() || rh > box.H() {
		r.at = beside
		d.want(r)
		return
	}
	d.over = append(d.over, r.draw(middle(box, r))...)
}

// name asks for a place for a part's name.
func (d *drawing) name(p *graph.Part, at ...scene.Point) {
	r := d.nameOf(p)
	r.at = at
	d.want(r)
}

func (d *drawing) nameOf(p *graph.Part) request {
	words := strings.ReplaceAll(string(p.Kind), "-", " ")
	if p.Kind == graph.CheckValve && (p.Check == nil || p.Check.Style != "swing") {
		words = "spring check"
	}
	tag := d.tag(p)
	first := tag + "  " + words
	fit := d.in.Layout.Fits[p.ID]
	size := fit.Size.String()
	if p.Kind == graph.Tee && fit.Branch != fit.Size && !fit.Branch.IsZero() {
		size += " x " + fit.Branch.String()
	}
	return request{tag: "name:" + p.ID, lines: []string{first, size}, em: 2.6}
}

// middle is the box of a label in the middle of another.
func middle(b scene.Box, r request) scene.Box {
	w, h := r.size()
	c := b.Centre()
	return scene.Box{MinX: c.X - w/2, MinY: c.Y - h/2, MaxX: c.X + w/2, MaxY: c.Y + h/2}
}

// flow puts an arrow on the old pipe where the water comes in, and one where it leaves.
func (d *drawing) flow() {
	for _, t := range []tube{d.c.before, d.c.after} {
		mid := (t.from + t.to - t.depthTo) / 2
		if t.open > 0 {
			mid = (t.from + t.depthFrom + t.to) / 2
		}
		tip := d.line.p(mid, 0)
		tip.X += 4
		d.items = append(d.items, scene.Rect(tip.X-9, tip.Y-1.8, 10, 3.6, scene.Filled(1)),
			scene.Line(scene.Point{X: tip.X - 8, Y: tip.Y}, scene.Point{X: tip.X - 3, Y: tip.Y}, scene.Stroke(0.5)),
			scene.Arrow(tip, scene.Point{X: 1}, 4, 2.8, scene.Filled(0)).Tagged("flow"))
	}
}

// cutLine marks a cut: across the old pipe and up to its name in a circle.
func (d *drawing) cutLine(s float64, name string) {
	w := math.Max(d.c.before.outside, d.c.after.outside)
	low, high := d.line.p(s, -w*hubShare/2-2*d.per), d.line.p(s, w*hubShare/2+3*d.per)
	d.solid(scene.Line(low, high, scene.Dashed(0.5, 5, 1, 0.8, 1)).Tagged("cut-line:" + name))
	const r, out = 3.6, 8.0
	c := scene.Point{X: high.X + out, Y: high.Y - 1}
	if s <= d.c.members[0].from {
		c.X = high.X - out
	}
	d.solid(scene.Line(high, scene.Point{X: c.X, Y: c.Y}, scene.Stroke(sheet.Hair)), scene.Circle(c, r, scene.Outline(sheet.Thin)),
		scene.Text{At: c, Text: name, SizeMM: 3.2, Bold: true, Anchor: scene.Centre, Middle: true, Tag: "cut"})
}
