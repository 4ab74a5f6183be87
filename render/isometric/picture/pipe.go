package picture

import (
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/render/isometric/members"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
)

// gapMM is the gap in the rear of two crossing pipes, mm on each side.
const gapMM = 1.5

// blockPipe is kept free of labels on each side of a pipe's axis, mm.
const blockPipe = 0.5

// paintPipes draws the pipes, the rear of two that cross with a gap.
func (p *Picture) paintPipes() {
	for _, isNew := range []bool{false, true} {
		for i := range p.Ms {
			m := &p.Ms[i]
			if m.IsNew != isNew || m.Run == nil {
				continue
			}
			p.paintPipe(i)
		}
	}
	p.paintElbows()
}

// paintPipe draws one leg, from sign to sign.
func (p *Picture) paintPipe(i int) {
	m := &p.Ms[i]
	a, b := space.Project(p.A[i]), space.Project(p.B[i])
	pen := PenOld
	if m.IsNew {
		pen = PenNew
	}
	from := 0.0
	for _, g := range append(p.Gaps(i), [2]float64{1, 1}) {
		if g[0] > from {
			p.block(blockPipe, scene.Line(space.Along(a, b, from), space.Along(a, b, g[0]), scene.Stroke(pen)).Named("run:"+m.Run.ID))
		}
		from = math.Max(from, g[1])
	}
	if !m.IsNew {
		p.paintArms(i)
	}
}

// paintElbows rounds the corners where legs of one run meet off: a dab of the pen's width,
// so that two lines make one corner.
func (p *Picture) paintElbows() {
	for i := range p.Ms {
		for j := range i {
			m, n := &p.Ms[i], &p.Ms[j]
			if m.Run != nil && m.Run == n.Run && m.Leg == n.Last+1 && m.CutA == "" && n.CutB == "" {
				pen := PenOld
				if m.IsNew {
					pen = PenNew
				}
				p.Items = append(p.Items, scene.Circle(space.Project(p.A[i]), pen/2, scene.Filled(0)).Named("elbow"))
			}
		}
	}
}

// paintArms draws the sockets of a new tee thick where old pipe goes in.
func (p *Picture) paintArms(i int) {
	m := &p.Ms[i]
	for _, far := range []bool{false, true} {
		s := p.D.Stack(m, far)
		if len(s.Joints) == 0 || s.Base == 0 {
			continue
		}
		at := p.onLeg(i, far, s.Base+members.NextSpot*float64(len(s.Joints)-1))
		end := p.A[i]
		if far {
			end = p.B[i]
		}
		p.Items = append(p.Items, scene.Line(space.Project(end), space.Project(at), scene.Stroke(PenNew)).Named("socket"))
	}
}

// onLeg is the display point a way from the end of a member, inwards.
func (p *Picture) onLeg(i int, far bool, mm float64) graph.Vec {
	a, b := p.A[i], p.B[i]
	if far {
		a, b = b, a
	}
	return a.Add(b.Sub(a).Unit().Scale(mm))
}

// Gaps lists the shares of a member that are left out where another passes before it.
func (p *Picture) Gaps(i int) [][2]float64 {
	a, b := space.Project(p.A[i]), space.Project(p.B[i])
	var out [][2]float64
	for j := range p.Ms {
		if j == i || members.Meet(&p.Ms[i], &p.Ms[j]) {
			continue
		}
		c, d := space.Project(p.A[j]), space.Project(p.B[j])
		s, t, ok := members.Crossing(a, b, c, d)
		if !ok {
			continue
		}
		mine := space.Depth(p.A[i].Add(p.B[i].Sub(p.A[i]).Scale(s)))
		other := space.Depth(p.A[j].Add(p.B[j].Sub(p.A[j]).Scale(t)))
		if mine >= other {
			continue
		}
		u, v := space.Sub(b, a), space.Sub(d, c)
		half := gapMM / math.Max(0.3, math.Abs(space.Cross(space.Unit(u), space.Unit(v)))) / space.Length(u)
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
