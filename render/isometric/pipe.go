package isometric

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/render/scene"
)

// gapMM is the gap in the rear of two crossing pipes, mm on each side.
const gapMM = 1.5

// blockPipe is kept free of labels on each side of a pipe's axis, mm.
const blockPipe = 0.5

// paintPipes draws the pipes, the rear of two that cross with a gap.
func (p *picture) paintPipes() {
	for _, isNew := range []bool{false, true} {
		for i := range p.ms {
			m := &p.ms[i]
			if m.isNew != isNew || m.run == nil {
				continue
			}
			p.paintPipe(i)
		}
	}
	p.paintElbows()
}

// paintPipe draws one leg, from sign to sign.
func (p *picture) paintPipe(i int) {
	m := &p.ms[i]
	a, b := project(p.a[i]), project(p.b[i])
	pen := penOld
	if m.isNew {
		pen = penNew
	}
	from := 0.0
	for _, g := range append(p.gaps(i), [2]float64{1, 1}) {
		if g[0] > from {
			p.block(blockPipe, scene.Line(along(a, b, from), along(a, b, g[0]), scene.Stroke(pen)).Tagged("run:"+m.run.ID))
		}
		from = math.Max(from, g[1])
	}
	if !m.isNew {
		p.paintArms(i)
	}
}

// paintElbows rounds the corners where legs of one run meet off: a dab of the pen's width,
// so that two lines make one corner.
func (p *picture) paintElbows() {
	for i := range p.ms {
		for j := range i {
			m, n := &p.ms[i], &p.ms[j]
			if m.run != nil && m.run == n.run && m.leg == n.leg+1 && m.cutA == "" && n.cutB == "" {
				pen := penOld
				if m.isNew {
					pen = penNew
				}
				p.items = append(p.items, scene.Circle(project(p.a[i]), pen/2, scene.Filled(0)).Tagged("elbow"))
			}
		}
	}
}

// paintArms draws the sockets of a new tee thick where old pipe goes in.
func (p *picture) paintArms(i int) {
	m := &p.ms[i]
	for _, far := range []bool{false, true} {
		s := p.d.stack(m, far)
		if len(s.joints) == 0 || s.base == 0 {
			continue
		}
		at := p.onLeg(i, far, s.base+nextSpot*float64(len(s.joints)-1))
		end := p.a[i]
		if far {
			end = p.b[i]
		}
		p.items = append(p.items, scene.Line(project(end), project(at), scene.Stroke(penNew)).Tagged("socket"))
	}
}

// onLeg is the display point a way from the end of a member, inwards.
func (p *picture) onLeg(i int, far bool, mm float64) graph.Vec {
	a, b := p.a[i], p.b[i]
	if far {
		a, b = b, a
	}
	return a.Add(b.Sub(a).Unit().Scale(mm))
}

// gaps lists the shares of a member that are left out where another passes before it.
func (p *picture) gaps(i int) [][2]float64 {
	a, b := project(p.a[i]), project(p.b[i])
	var out [][2]float64
	for j := range p.ms {
		if j == i || meet(&p.ms[i], &p.ms[j]) {
			continue
		}
		c, d := project(p.a[j]), project(p.b[j])
		s, t, ok := crossing(a, b, c, d)
		if !ok {
			continue
		}
		mine := depth(p.a[i].Add(p.b[i].Sub(p.a[i]).Scale(s)))
		other := depth(p.a[j].Add(p.b[j].Sub(p.a[j]).Scale(t)))
		if mine >= other {
			continue
		}
		u, v := sub(b, a), sub(d, c)
		half := gapMM / math.Max(0.3, math.Abs(cross(unit(u), unit(v)))) / length(u)
		out = append(out, [2]float64{s - half, s + half})
	}
	slices.SortFunc(out, func(x, y [2]float64) int {
		if x[0] < y[0] {
			return -1
		}
		return 1
	})
	return out
}
