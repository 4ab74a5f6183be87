package hydraulic

import (
	"math"
	"slices"

	"dryfit/graph/hydraulic/formula"
)

// Gauge is what a gauge at a part reads in a solution of the model, Pa: at the port, where one is
// named, else at the part's first. It is the head there less the velocity head on the part's bore,
// with the depth of that port below the water where it is known, which level tells; ok is false
// where no water stands at the port, or there is none of that name. Of a solution by Sampled it holds
// until the model is solved again.
func (m *Model) Gauge(s *Solution, part int, port string) (pa float64, level, ok bool) {
	p, k := &m.Parts[part], 0
	if port != "" {
		if k = slices.Index(p.ports, port); k < 0 {
			return 0, false, false
		}
	}
	if s.flow == nil || k >= len(p.nodes) || !s.flow.Known[p.nodes[k]] {
		return 0, false, false
	}
	head, flow := s.flow.Head[p.nodes[k]], math.Abs(s.Parts[part].Flow)
	if legs := s.Parts[part].Legs; k < len(legs) {
		flow = math.Abs(legs[k].Flow)
	}
	if p.BoreM > 0 {
		w := flow / formula.Area(p.BoreM)
		head -= w * w / (2 * formula.Gravity)
	}
	below, level := m.Layout.Levels().Port(p.Part, p.ports[k])
	if level {
		head += below / 1000
	}
	return m.Water.Density * formula.Gravity * head, level, true
}
