package detail

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/render/scene"
	"dryfit/render/sheet"
)

// Sides of the sheet the dimensions stand on.
const (
	toLeft = iota
	toRight
	toTop
	toFoot
)

// lineSide is where the dimensions of the line stand: below it or to its left, unless all the
// branches are there.
func (d *drawing) lineSide() int {
	plus, minus := 0, 0
	for i := range d.c.limbs {
		if l := &d.c.limbs[i]; d.flat(l) {
			if u := d.limbFrame(l).u; u.Y < -0.5 || u.X > 0.5 {
				plus++
			} else {
				minus++
			}
		}
	}
	other := minus > plus
	switch {
	case d.line.u.X != 0 && other:
		return toTop
	case d.line.u.X != 0:
		return toFoot
	case other:
		return toRight
	}
	return toLeft
}

// limbSide is where the dimensions of a branch stand: outwards.
func (d *drawing) limbSide(l *limb) int {
	out := -1.0
	if tee := d.c.members[l.tee]; l.tee > 0 && tee.from > (d.c.before.to+d.c.after.from)/2 {
		out = 1
	}
	switch {
	case d.line.u.X*out < 0:
		return toLeft
	case d.line.u.X*out > 0:
		return toRight
	case d.line.u.Y*out < 0:
		return toTop
	}
	return toFoot
}

// labelMM is the room for labels between the figure and the line's dimensions, mm.
const labelMM = 8.0

// measured reports whether a branch has lengths to write.
func (d *drawing) measured(l *limb) bool {
	return (len(l.tubes) > 0 || len(l.fitted.pieces) > 0) && d.flat(l)
}

// rooms is what labels and dimensions take on each side of the figure, mm of the sheet.
func (d *drawing) rooms() (left, right, up, down float64) {
	room := [4]float64{roomMM, roomMM, roomMM, roomMM + footMM}
	room[d.lineSide()] += 3*rowMM + labelMM
	for i := range d.c.limbs {
		if l := &d.c.limbs[i]; d.measured(l) {
			room[d.limbSide(l)] += 2*rowMM + 1
		}
	}
	return room[toLeft], room[toRight], room[toTop], room[toFoot]
}

// dimensions puts the lengths round the figure, whose reach is b: beside the line from cut to
// centre to centre, from stop to stop, and from cut to cut; beside each branch the same up to
// its next part.
func (d *drawing) dimensions(b scene.Box) {
	c := d.c
	corner := func(x, y float64) scene.Point {
		return scene.Point{X: d.line.at.X + x/d.per, Y: d.line.at.Y + y/d.per}
	}
	low, high := corner(b.MinX, b.MinY), corner(b.MaxX, b.MaxY)
	edge := [4]float64{low.X - 1, high.X + 1, low.Y - 1, high.Y + 1}
	out := [4]float64{-1, 1, -1, 1}

	side := d.lineSide()
	upright := side == toLeft || side == toRight
	axis := func(p scene.Point) (along, across float64) {
		if upright {
			return p.Y, p.X
		}
		return p.X, p.Y
	}
	across := func(s0, s1 float64, n int) {
		if math.Abs(s1-s0) < 0.5 {
			return
		}
		a, mid := axis(d.line.p(s0, 0))
		b, _ := axis(d.line.p(s1, 0))
		from := mid + out[side]*(0.5*c.before.outside/d.per+1.5)
		d.dimension(a, b, edge[side]+out[side]*(labelMM+float64(n)*rowMM+shift(side)), from, from, d.text(math.Abs(s1-s0)), upright)
	}
	stops := c.stops()
	for i := 1; i < len(stops); i++ {
		across(stops[i-1], stops[i], 1)
	}
	centres := c.centres()
	for i := 1; i < len(centres); i++ {
		across(centres[i-1], centres[i], 0)
	}
	across(c.before.to, c.after.from, 2)

	var used [4]int
	for i := range c.limbs {
		l := &c.limbs[i]
		if !d.measured(l) {
			continue
		}
		side := d.limbSide(l)
		d.branch(l, side, edge[side]+out[side]*(3+float64(used[side])*rowMM+shift(side)), out[side], edge[side])
		used[side] += 2
	}
	d.clearTexts()
}

// stops is where the line has the face of the old pipe, every stop and every end of a tube, in
// order: mm along it.
func (c *chain) stops() []float64 {
	stops := []float64{c.before.to - c.before.depthTo, c.before.to}
	for i, m := range c.members {
		if i > 0 && m.part.Kind != graph.Tee {
			stops = append(stops, m.from)
		}
		if m.part.Kind != graph.Tee && i < len(c.members)-1 {
			stops = append(stops, m.to)
		}
		for _, t := range m.tubes {
			stops = append(stops, t.from, t.to)
		}
	}
	return inOrder(append(append(stops, c.fitted.stops()...), c.after.from, c.after.from+c.after.depthFrom))
}

// centres is where the line has its first cut, the centres of its tees and its second cut, mm
// along it.
func (c *chain) centres() []float64 {
	centres := []float64{c.before.to}
	for _, m := range c.members {
		if m.part.Kind == graph.Tee {
			centres = append(centres, m.from)
		}
	}
	return append(centres, c.after.from)
}

// clearTexts gives lengths through which an extension line of others runs a place of their
// own.
func (d *drawing) clearTexts() {
	var lines []scene.Box
	for _, it := range d.items {
		if s, ok := it.(scene.Shape); ok && (s.Name == "extension" || s.Name == "dimension") {
			lines = append(lines, scene.Bounds(s))
		}
	}
	d.items = slices.DeleteFunc(d.items, func(it scene.Item) bool {
		t, ok := it.(scene.Text)
		if !ok || t.Name != "dim" {
			return false
		}
		b := scene.Bounds(t)
		if !slices.ContainsFunc(lines, b.Grow(-0.1).Overlaps) {
			return false
		}
		same := func(o scene.Box) bool { return o == b }
		d.fixed, d.letters = slices.DeleteFunc(d.fixed, same), slices.DeleteFunc(d.letters, same)
		at := scene.Point{X: t.At.X, Y: t.At.Y + dimLift}
		if t.TurnDeg != 0 {
			at = scene.Point{X: t.At.X + dimLift, Y: t.At.Y}
		}
		d.want(request{name: "dim", lines: []string{t.Text}, plain: true, at: []scene.Point{at}, em: sheet.LeastEm})
		return true
	})
}

// shift moves dimension lines out where their texts stand towards the figure.
func shift(side int) float64 {
	if side == toFoot || side == toRight {
		return 3
	}
	return 0
}

// stops are where short pieces start and end, and where the pipe behind an adaptor does.
func (f *fitted) stops() []float64 {
	var out []float64
	for _, t := range f.pieces {
		out = append(out, t.from, t.to)
	}
	for _, a := range f.adaptors {
		out = append(out, a.stop, a.end)
	}
	return out
}

// inOrder sorts numbers and drops what repeats.
func inOrder(list []float64) []float64 {
	slices.Sort(list)
	out := list[:1]
	for _, v := range list[1:] {
		if v-out[len(out)-1] > 0.2 {
			out = append(out, v)
		}
	}
	return out
}

// stops is where a branch has every stop and every end of a tube, in order: mm from the middle of its tee.
func (l *limb) stops() []float64 {
	stops := []float64{0}
	for _, t := range l.tubes {
		stops = append(stops, t.from, t.to)
	}
	if l.part != nil && inLine(l.part.Kind) && l.fit.Row.V.LengthMM > 0 {
		stops = append(stops, l.end, l.end+l.fit.Row.V.LengthMM)
	}
	return inOrder(append(stops, l.fitted.stops()...))
}

// branch puts the lengths of a branch beside it.
func (d *drawing) branch(l *limb, side int, at, way, edge float64) {
	f := d.limbFrame(l)
	upright := side == toLeft || side == toRight
	axis := func(s float64) (along, across float64) {
		p := f.p(s, 0)
		if upright {
			return p.Y, p.X
		}
		return p.X, p.Y
	}
	stops := l.stops()
	start := func(s float64) float64 {
		if s == 0 {
			return edge
		}
		_, across := axis(s)
		return across + way*(l.first().outside*hubShare/2/d.per+0.8)
	}
	line := func(s0, s1, at float64) {
		a, _ := axis(s0)
		b, _ := axis(s1)
		d.dimension(a, b, at, start(s0), start(s1), d.text(s1-s0), upright)
	}
	for i := 1; i < len(stops); i++ {
		line(stops[i-1], stops[i], at)
	}
	line(0, l.end, at+way*rowMM)
}

// first is the first pipe of a branch that has any.
func (l *limb) first() *tube {
	if len(l.tubes) > 0 {
		return &l.tubes[0]
	}
	return &l.fitted.pieces[0]
}
