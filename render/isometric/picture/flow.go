package picture

import (
	"slices"

	"dryfit/graph"
	"dryfit/render/isometric/space"
	"dryfit/render/scene"
)

// paintFlow draws an arrow on every run the water takes, on its longest leg.
func (p *Picture) paintFlow() {
	longest := map[*graph.Run]int{}
	for i := range p.Ms {
		m := &p.Ms[i]
		if m.Run == nil || m.NoFlow || m.Stub {
			continue
		}
		if k, ok := longest[m.Run]; !ok || p.shown(i) > p.shown(k)+0.01 {
			longest[m.Run] = i
		}
	}
	for i := range p.Ms {
		if m := &p.Ms[i]; m.Run != nil && !m.NoFlow && longest[m.Run] == i && !m.Stub {
			p.paintArrow(i)
		}
	}
}

func (p *Picture) shown(i int) float64 { return p.B[i].Sub(p.A[i]).Len() }

// sleeveWeight is how much rather an arrow stands beside a leader than on a coupling.
const sleeveWeight = 3

// arrowMM is the length of a flow arrow, mm.
const arrowMM = 2.8

// paintArrow draws the arrow of a leg, clear of the piece's leader and of pipe that crosses.
func (p *Picture) paintArrow(i int) {
	m := &p.Ms[i]
	a, b := space.Project(p.A[i]), space.Project(p.B[i])
	t := p.freeShare(i, 0.62, slices.Concat(p.crossings(i), slices.Repeat(p.sleeveShares(i), sleeveWeight), p.leaderShares(i)))
	u := space.Unit(space.Sub(b, a))
	if m.Against {
		u = space.Times(-1, u)
	}
	tip := space.Add(space.Along(a, b, t), space.Times(arrowMM/2, u))
	s := skewHead(tip, u, bars(m.Way(), u), arrowMM)
	p.block(0.3, s.Named("flow:"+m.Run.ID))
}

// skewHead is a broad arrowhead on a pipe, in the plane of its bars.
func skewHead(tip, u, v scene.Point, l float64) scene.Shape {
	back := space.Sub(tip, space.Times(l, u))
	return scene.Polygon([]scene.Point{tip, space.Add(back, space.Times(0.42*l, v)), space.Sub(back, space.Times(0.42*l, v))}, scene.Filled(0))
}
