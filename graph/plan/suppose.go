package plan

import (
	"dryfit/graph"
	"dryfit/graph/plan/search"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
)

// Supposed is what comes of the work where nothing but a measure can tell whether it fits: what the
// unit would get there hangs on the pump and the line far more than on where the pipes lie.
type Supposed struct {
	Place retrofit.Place // of a run known only by its length
	*Plan                // with that run taken as straight, and the unit beside it
}

// Against are the errors by which the work would not do there either, wherever its pipes lie: those of
// rules on the flows. That the unit gets too little or too much its flow says already.
func (s *Supposed) Against() (out []graph.Diagnostic) {
	flows := map[string]bool{}
	for _, r := range rule.All() {
		flows[r.Name] = r.Needs == rule.NeedsFlow && r.Name != "unit-least-flow" && r.Name != "unit-most-flow"
	}
	for _, d := range graph.Errors(s.Findings) {
		if flows[d.Rule] {
			out = append(out, d)
		}
	}
	return out
}

// suppose works out the flows as if the work fitted into the run that comes nearest of those known
// only by their length.
func (p *Plan) suppose(want Want) {
	if p.measure == nil || want&Flows == 0 || p.searched == nil || p.searched.Layout == nil {
		return
	}
	run := p.searched.Layout.Stage.Run(p.measure.Run)
	if run == nil {
		return
	}
	c := search.Straight(p.Asked, *p.measure, run.Bore.V)
	asked := *c.Retrofit
	asked.Cut = &graph.Cut{Run: p.measure.Run, Leg: 1, AtMM: -1, Pos: asked.Pos}
	asked.Stand, asked.ToUnit, asked.FromUnit = nil, nil, nil // nothing ties that to the run
	c.Retrofit = &asked
	inner, err := Make(c, want&(Flows|Ranges)|Swift)
	if err != nil || inner.Proposal == nil {
		return
	}
	p.Supposed = &Supposed{*p.measure, inner}
}
