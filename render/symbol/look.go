package symbol

import (
	"dryfit/graph"
	"dryfit/graph/settle"
)

// LookOf is how the sign of a part of a stage looks, but for its pen.
func LookOf(p *graph.Part, set *settle.Stage) Look {
	l := Look{Spring: !set.Part(p.ID).IsSwing(), HoseOut: p.Kind == graph.Barb && set.Net().HoseOut(p)}
	if p.Kind.IsHandValve() {
		l.Shut = !p.ByKv() && p.Opening() <= 0
		l.Throttle = p.ByKv() || p.Opening() > 0 && p.Opening() < 1
	}
	if in, out := set.Net().Between(p); in != nil && out != nil {
		l.Widens = p.Kind == graph.Reducer && out.Size.NominalMM() > in.Size.NominalMM()
		l.MetricIn = p.Kind == graph.Transition && in.Size.Metric
	}
	return l
}
