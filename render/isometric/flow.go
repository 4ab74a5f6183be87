package isometric

import (
	"dryfit/graph"
	"dryfit/render/scene"
)

// paintFlow draws an arrow on every run the water takes, on its longest leg.
func (p *picture) paintFlow() {
	longest := map[*graph.Run]int{}
	for i := range p.ms {
		m := &p.ms[i]
		if m.run == nil || m.noFlow || m.stub {
			continue
		}
		if k, ok := longest[m.run]; !ok || p.shown(i) > p.shown(k)+0.01 {
			longest[m.run] = i
		}
	}
	for i := range p.ms {
		if m := &p.ms[i]; m.run != nil && !m.noFlow && longest[m.run] == i && !m.stub {
			p.paintArrow(i)
		}
	}
}

func (p *picture) shown(i int) float64 { return p.b[i].Sub(p.a[i]).Len() }

// arrowMM is the length of a flow arrow, mm.
const arrowMM = 2.8

// paintArrow draws the arrow of a leg, clear of the piece's leader and of pipe that crosses.
func (p *picture) paintArrow(i int) {
	m := &p.ms[i]
	a, b := project(p.a[i]), project(p.b[i])
	t := p.freeShare(i, 0.62, append(p.crossings(i), p.leaderShare(i)))
	u := unit(sub(b, a))
	if m.against {
		u = times(-1, u)
	}
	tip := add(along(a, b, t), times(arrowMM/2, u))
	s := skewHead(tip, u, project(across(m.way()).unit()), arrowMM)
	p.block(0.3, s.Tagged("flow:"+m.run.ID))
}

// skewHead is a broad arrowhead on a pipe, in the plane of its bars.
func skewHead(tip, u, v scene.Point, l float64) scene.Shape {
	back := sub(tip, times(l, u))
	return scene.Polygon([]scene.Point{tip, add(back, times(0.42*l, v)), sub(back, times(0.42*l, v))}, scene.Filled(0))
}
