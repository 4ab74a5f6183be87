package detail

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
	"dryfit/render/tag"
)

// figure draws the string and its limbs, fittings first, pipes in them, then the cut lines.
func (d *drawing) figure() {
	c := d.c
	for i := range c.members {
		d.member(i)
	}
	for i := range c.limbs {
		if l := &c.limbs[i]; d.flat(l) {
			d.limb(l)
		} else {
			d.ring(c.members[l.tee].from, l)
		}
	}
	first, last := c.members[0], c.members[len(c.members)-1]
	before, after := c.before, c.after
	before.hubTo, after.hubFrom = d.outside(first.fit.Spec.V, first.fit.Size.V), d.outside(last.fit.Spec.V, last.fit.Size.V)
	d.sleeves(d.line, c.fitted)
	for _, t := range []tube{before, after} {
		d.solid(d.line.tube(t)...)
		d.joints(d.line, t)
	}
	for i, m := range c.members {
		for k, t := range m.tubes {
			if k == 0 {
				t.hubFrom = d.outside(m.fit.Spec.V, m.fit.Size.V)
			}
			if next := i + 1; k == len(m.tubes)-1 && next < len(c.members) {
				t.hubTo = d.outside(c.members[next].fit.Spec.V, c.members[next].fit.Size.V)
			}
			d.pipe(d.line, t)
		}
	}
	d.fitted(d.line, c.fitted)
	d.flow()
	if !d.in.NoCuts {
		first, last := d.first, d.last
		if !c.before.renewed {
			d.cutLine(c.before.to, c.before.outside, first)
		} else {
			last = first
		}
		if !c.after.renewed {
			d.cutLine(c.after.from, c.after.outside, last)
		}
	}
	for _, t := range []tube{c.before, c.after} {
		at := t.from + 0.4*t.outside
		if t.open > 0 {
			at = t.to - 0.4*t.outside
		}
		words := "old pipe"
		if t.over {
			words = "old hose"
		}
		lines := []string{words, d.names.Towards(d.in.Layout.Stage.Net(), t.run)}
		if t.renewed {
			lines = []string{fmt.Sprintf("piece %d,", t.number), "into the old adaptor"}
		}
		d.want(request{name: "old", lines: lines, at: d.sides(d.line, at, t.outside), em: sheet.LeastEm})
	}
}

// pipe draws a piece and asks for its number and its joints'.
func (d *drawing) pipe(f frame, t tube) {
	d.solid(f.tube(t)...)
	d.joints(f, t)
	if t.number > 0 && t.open == 0 {
		mid := (t.from + t.depthFrom + t.to - t.depthTo) / 2
		width := t.outside
		if (t.to-t.depthTo-t.from-t.depthFrom)/d.per < 4 { // seen only between two sockets
			width *= hubShare
		}
		d.want(request{name: fmt.Sprintf("piece:%d", t.number), ring: fmt.Sprint(t.number), at: d.sides(f, mid, width), em: 3.2})
	}
}

// joints asks for the numbers of a pipe's joints, at its sockets.
func (d *drawing) joints(f frame, t tube) {
	if t.over { // the hose itself is outside
		d.joint(f, t.joinFrom, t.from+t.depthFrom*0.55, t.outside/hubShare)
		d.joint(f, t.joinTo, t.to-t.depthTo*0.55, t.outside/hubShare)
		return
	}
	d.joint(f, t.joinFrom, t.from+t.depthFrom*jointShare(t.bushFrom), math.Max(t.outside, t.hubFrom))
	d.joint(f, t.joinTo, t.to-t.depthTo*jointShare(t.bushTo), math.Max(t.outside, t.hubTo))
}

// jointShare is where along its depth a pipe's joint is pointed at: in the middle of the socket it is in;
// of a bush at the face, where both are seen, for the socket round that is the bush's own.
func jointShare(bush bool) float64 {
	if bush {
		return 1
	}
	return 0.55
}

func (d *drawing) member(i int) {
	m := &d.c.members[i]
	w := d.outside(m.fit.Spec.V, m.fit.Size.V)
	f := d.line
	if m.part.Kind == graph.Tee {
		branch := d.outside(m.fit.Spec.V, m.fit.Branch.V)
		l := d.limbOf(i)
		if l == nil || d.flat(l) {
			if l != nil {
				f.v = d.limbFrame(l).u
			}
			d.shape(f.tee(m.from, m.fit, w, branch), f, m.from, w)
			d.within(m.part, f, m.from, 2*m.fit.Row.V.TakeOffMM, w, f.p(m.from, -w*hubShare/2),
				f.p(m.from-m.fit.Row.V.TakeOffMM, w*hubShare/2), f.p(m.from+m.fit.Row.V.TakeOffMM, w*hubShare/2))
		} else {
			d.shape(f.teeFromBranch(m.from, m.fit, w), f, m.from, w)
			r := d.nameOf(m.part)
			r.lines = append(r.lines, "branch "+nearOrFar(l.way.Dot(d.view.towards)))
			r.at = d.sides(f, m.from, w*hubShare)
			d.want(r)
		}
		stop := m.fit.Row.V.TakeOffMM
		if d.c.before.bushTo && i == 0 {
			d.bush(f, m.from-stop, m.from-stop-m.fit.Row.V.SocketMM, w, m.fit.Size.V, &d.c.before)
		}
		if d.c.after.bushFrom && i == len(d.c.members)-1 {
			d.bush(f, m.from+stop, m.from+stop+m.fit.Row.V.SocketMM, w, m.fit.Size.V, &d.c.after)
		}
		for k, t := range m.tubes {
			if t.bushFrom && k == 0 {
				d.bush(f, m.from+stop, m.from+stop+m.fit.Row.V.SocketMM, w, m.fit.Size.V, &t)
			}
		}
		return
	}
	union := strings.Contains(m.fit.Row.V.Ends, "union")
	d.shape(f.inline(m.from, m.to, m.depthIn, m.depthTo, w, m.part, union), f, m.from, w)
	d.name(m.part, d.sides(f, (m.from+m.to)/2, w*bodyShare)...)
	d.nuts(m.part, f, m.from, m.to, w)
}

// nuts asks for the numbers of the joints that open in a part.
func (d *drawing) nuts(p *graph.Part, f frame, from, to, w float64) {
	list := d.c.nuts(p.ID)
	for k, n := range list {
		s := (from + to) / 2
		if len(list) == 2 {
			s = []float64{from + 0.12*(to-from), to - 0.12*(to-from)}[k]
		}
		d.want(request{name: fmt.Sprintf("joint:%d", n), lines: []string{tag.Joint(n)}, at: d.sides(f, s, w*nutShare), em: sheet.LeastEm})
	}
}

// bush draws a reducing bush in a socket, round the pipe that goes into it, and names it.
func (d *drawing) bush(f frame, stop, face, w float64, from catalog.Size, t *tube) {
	d.items = append(d.items, f.bush(stop, face, w))
	d.want(request{name: "name:bush", lines: []string{fittingName("reducing-bush", d.c.bushIn(t, from), t.size)}, at: d.sides(f, (stop+face)/2, w*hubShare), em: sheet.LeastEm})
	d.joint(f, t.bushJoint, (stop+face)/2, w)
}

// bushIn is the size of the socket that the bush round a pipe stands in: that of the fitting, or
// where two stand one in the other that of the bush it goes into.
func (c *chain) bushIn(t *tube, fitting catalog.Size) catalog.Size {
	if run := c.lay.Stage.Run(t.run); run != nil {
		for _, end := range run.Ends {
			if n := len(end.Adaptors); n > 1 && end.Adaptors[0].Size == fitting && end.Adaptors[n-1].Size2 == t.size {
				return end.Adaptors[n-1].Size
			}
		}
	}
	return fitting
}

// joint asks for a spot for the number of a joint, s along an axis at something w mm across.
func (d *drawing) joint(f frame, joint int, s, w float64) {
	if joint > 0 {
		d.want(request{name: fmt.Sprintf("joint:%d", joint), lines: []string{tag.Joint(joint)}, at: d.sides(f, s, w*hubShare), em: sheet.LeastEm})
	}
}

// shape adds a fitting; where the catalogue has no dimensions to draw it by, a plain box.
func (d *drawing) shape(items []scene.Item, f frame, at, w float64) {
	if items == nil {
		items = []scene.Item{f.rect(at-w, at+w, w*hubShare, scene.Outline(sheet.Thin)).Named("fitting")}
	}
	d.solid(items...)
}

// ring draws a branch that leaves the sheet, by its sign on the tee.
func (d *drawing) ring(at float64, l *limb) {
	row := d.c.members[l.tee].fit
	d.solid(outOfPlane(d.line.p(at, 0), d.outside(row.Spec.V, row.Branch.V)/2/d.per, l.way.Dot(d.view.towards) > 0, sheet.Thin)...)
}

// limb draws a branch: the bush in it, its first pipe and what comes next.
func (d *drawing) limb(l *limb) {
	tee := &d.c.members[l.tee]
	f := d.limbFrame(l)
	row := &tee.fit.Row.V
	stop := row.BranchTakeOffMM
	if stop == 0 {
		stop = row.TakeOffMM
	}
	if len(l.tubes) > 0 && l.tubes[0].bushFrom {
		d.bush(f, stop, stop+row.SocketMM, d.outside(tee.fit.Spec.V, tee.fit.Branch.V), tee.fit.Branch.V, &l.tubes[0])
	}
	w := d.outside(tee.fit.Spec.V, tee.fit.Branch.V)
	if n := len(l.tubes); n > 0 {
		w = l.tubes[n-1].outside
	}
	d.sleeves(f, l.fitted)
	switch {
	case l.part == nil && l.beyond != nil: // hose
	case l.part == nil:
		d.bend(l, f, w)
	case l.part.Kind == graph.Tee && l.port != graph.Branch:
		d.shape(f.tee(l.end, l.fit, w, d.outside(l.fit.Spec.V, l.fit.Branch.V)), f, l.end, w)
		d.name(l.part, d.sides(f, l.end, w*hubShare)...)
	case inLine(l.part.Kind):
		depth := 0.0
		if l.beyond != nil {
			depth = l.beyond.depthFrom
		}
		d.solid(f.inline(l.end, l.end+l.fit.Row.V.LengthMM, l.stop.DepthMM, depth, w, l.part, strings.Contains(l.fit.Row.V.Ends, "union"))...)
		d.name(l.part, d.sides(f, l.end+l.fit.Row.V.LengthMM/2, w*bodyShare)...)
		d.nuts(l.part, f, l.end, l.end+l.fit.Row.V.LengthMM, w)
	default:
		d.solid(f.rect(l.end-l.stop.DepthMM, l.end+w, w*hubShare, scene.Outline(sheet.Thin)).Named("fitting"))
		d.name(l.part, d.sides(f, l.end+w/2, w*hubShare)...)
	}
	for k, t := range l.tubes {
		if k == 0 {
			t.hubFrom = d.outside(tee.fit.Spec.V, tee.fit.Branch.V)
		}
		d.pipe(f, t)
	}
	d.fitted(f, l.fitted)
	if l.beyond != nil {
		b := *l.beyond
		d.solid(f.tube(b)...)
		d.joints(f, b)
		d.on(b.number, d.sides(f, b.to-0.35*b.outside, b.outside))
	}
}

// bend draws the fitting at the end of a branch's first leg as it turns, and names it.
func (d *drawing) bend(l *limb, f frame, w float64) {
	turn := d.sheetWay(l.next)
	e := scene.Point{X: turn.X*f.u.X + turn.Y*f.u.Y, Y: turn.X*f.v.X + turn.Y*f.v.Y} // along and across the axis
	words := tag.FittingWord(l.bend.Kind)
	towards := l.next.Dot(d.view.towards)
	lines := []string{words}
	if math.Abs(towards) > inPlane || l.next.Len() == 0 {
		d.solid(f.stubElbow(l.end, l.bend, w)...)
		if l.next.Len() > 0 {
			d.solid(outOfPlane(f.p(l.end, 0), w/2/d.per, towards > 0, sheet.Thin)...)
			lines = []string{words + ", " + nearOrFar(towards)}
		}
		if l.piece > 0 {
			lines = append(lines, strings.TrimSuffix(fmt.Sprintf("%s to piece %d", tag.Joint(l.joint), l.piece), "J0 "))
		}
	} else {
		n := math.Hypot(e.X, e.Y)
		e = scene.Point{X: e.X / n, Y: e.Y / n}
		d.solid(f.elbow(l.end, l.bend, w, e)...)
		face := l.bend.TakeOffMM + l.bend.DepthMM
		exit := []scene.Point{f.p(l.end+face*e.X, face*e.Y)}
		if math.Abs(towards) > 1-level {
			lines = []string{words + ", leans " + nearOrFar(towards)}
		}
		if l.joint > 0 {
			d.want(request{name: fmt.Sprintf("joint:%d", l.joint), lines: []string{tag.Joint(l.joint)}, at: exit, em: sheet.LeastEm})
		}
		d.on(l.piece, exit)
	}
	d.want(request{name: "name:bend", lines: lines, at: d.sides(f, l.end, w*hubShare), em: 2.6})
}

// on names the piece with which the pipe goes on.
func (d *drawing) on(piece int, at []scene.Point) {
	if piece > 0 {
		d.want(request{name: fmt.Sprintf("on:%d", piece), lines: []string{fmt.Sprintf("to piece %d", piece)}, at: at, em: sheet.LeastEm})
	}
}

// sheetWay is a way in space as it lies on the sheet, Y down.
func (d *drawing) sheetWay(way graph.Vec) scene.Point {
	if d.view.right.Len() == 0 { // not known from where: as if from the front
		return scene.Point{X: way.X, Y: -way.Z}
	}
	return scene.Point{X: way.Dot(d.view.right), Y: -way.Dot(d.view.up)}
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
		if r.at = beside; !d.inList(r.words()) {
			d.want(r)
			return
		}
		r.lines = []string{d.names.Tag(p.ID)} // the whole of it is in the notes
	}
	for _, it := range r.draw(middle(box, r)) {
		d.over = append(d.over, it)
		d.letters = append(d.letters, scene.Bounds(it))
	}
}

// name asks for a spot for a part's name.
func (d *drawing) name(p *graph.Part, at ...scene.Point) {
	r := d.nameOf(p)
	r.at = at
	d.want(r)
}

func (d *drawing) nameOf(p *graph.Part) request {
	fit := d.in.Layout.Stage.Part(p.ID)
	size := fit.Size.V.String()
	if fit.Reducing() {
		size += " x " + fit.Branch.V.String()
	}
	r := request{name: "name:" + p.ID, lines: []string{d.names.Short(p.ID), size}, em: 2.6}
	if p.Kind.IsHandValve() {
		r.lines = append(r.lines, tag.Position(p))
	}
	return r
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
		f := d.line
		mm := func(v float64) float64 { return v * d.per } // of the sheet
		d.items = append(d.items, f.rect(mid-mm(5), mid+mm(5), mm(3.6), scene.Filled(1)),
			f.line(mid-mm(4), 0, mid+mm(1), 0, scene.Stroke(0.5)),
			scene.Arrow(f.p(mid+mm(4), 0), f.u, 4, 2.8, scene.Filled(0)).Named("flow"))
	}
}

// cutLine marks a cut across the old pipe and asks for a spot for its name.
func (d *drawing) cutLine(s, w float64, name string) {
	out := w*hubShare/2 + 2.5*d.per
	d.solid(d.line.line(s, -out, s, out, scene.Dashed(0.5, 5, 1, 0.8, 1)).Named("cut-line:" + name))
	d.want(request{name: "cut", ring: name, at: []scene.Point{d.line.p(s, out), d.line.p(s, -out)}, em: 3.2})
}
