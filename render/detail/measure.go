package detail

import (
	"math"

	"dryfit/graph"
)

// dimensions puts the lengths round the figure: under the string from centre to centre, from
// stop to stop, and from cut to cut; beside each branch the same up to its next part.
func (d *drawing) dimensions(left, right, down float64) {
	c := d.c
	base := d.line.p(0, -down).Y
	row := func(n int) float64 { return base + 4 + float64(n)*rowMM }
	under := false // texts too wide for their places stand over and under the line in turn
	across := func(s0, s1 float64, n int) {
		if math.Abs(s1-s0) < 0.5 {
			return
		}
		w := d.line.p(0, -0.5*c.before.outside).Y + 1.5
		text, x0, x1 := d.text(math.Abs(s1-s0)), d.line.p(s0, 0).X, d.line.p(s1, 0).X
		under = !under && !fits(text, math.Abs(x1-x0))
		d.solid(dimension(x0, x1, row(n), w, w, text, false, under)...)
	}
	// from face to stop, and on from stop to stop
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
	stops = append(stops, c.after.from, c.after.from+c.after.depthFrom)
	stops = inOrder(stops)
	for i := 1; i < len(stops); i++ {
		across(stops[i-1], stops[i], 1)
	}
	// from cut to centre to centre to cut
	centres := []float64{c.before.to}
	for _, m := range c.members {
		if m.part.Kind == graph.Tee {
			centres = append(centres, m.from)
		}
	}
	centres = append(centres, c.after.from)
	for i := 1; i < len(centres); i++ {
		across(centres[i-1], centres[i], 0)
	}
	across(c.before.to, c.after.from, 2)
	for i := range c.limbs {
		d.upright(&c.limbs[i], left, right)
	}
}

// inOrder drops what repeats of rising numbers.
func inOrder(list []float64) []float64 {
	out := list[:1]
	for _, v := range list[1:] {
		if v-out[len(out)-1] > 0.2 {
			out = append(out, v)
		}
	}
	return out
}

// upright puts the lengths of a branch on its outer side.
func (d *drawing) upright(l *limb, left, right float64) {
	tee := d.c.members[l.tee]
	if len(l.tubes) == 0 {
		return
	}
	y := func(s float64) float64 { return d.line.p(0, s).Y }
	x, way := d.line.p(left, 0).X-5, -1.0
	if l.tee > 0 && tee.from > (d.c.before.to+d.c.after.from)/2 {
		x, way = d.line.p(right, 0).X+8, 1 // its figures stand to the left of it
	}
	from := d.line.p(tee.from, 0).X + way*(l.tubes[0].outside*hubShare/2/d.per+0.8)
	edge := d.line.p(left, 0).X - 1
	if way > 0 {
		edge = d.line.p(right, 0).X + 1
	}
	stops := []float64{0}
	for _, t := range l.tubes {
		stops = append(stops, t.from, t.to)
	}
	if l.part != nil && inLine(l.part.Kind) && l.fit.Row.LengthMM > 0 {
		stops = append(stops, l.end, l.end+l.fit.Row.LengthMM)
	}
	stops = inOrder(stops)
	start := func(s float64) float64 {
		if s == 0 {
			return edge
		}
		return from
	}
	under := false
	for i := 1; i < len(stops); i++ {
		text := d.text(stops[i] - stops[i-1])
		under = !under && !fits(text, math.Abs(y(stops[i])-y(stops[i-1])))
		d.solid(dimension(y(stops[i-1]), y(stops[i]), x, start(stops[i-1]), start(stops[i]), text, true, under)...)
	}
	d.solid(dimension(y(0), y(l.end), x+way*rowMM, edge, from, d.text(l.end), true, false)...)
}
