package rule

import (
	"dryfit/graph"
)

// mostJetsLoss is the share of their flow the jets may lose. Common practice, no source.
const mostJetsLoss = 0.10

func jetsKeepFlow(in *Input, report Report) {
	v := in.ask()
	var mode string
	var was float64
	for i := range in.BeforeSolutions {
		s := &in.BeforeSolutions[i]
		if q, _ := s.JetsFlow(); q > was {
			mode, was = s.Mode.Name, q
		}
	}
	after := sameMode(in.Solutions, mode)
	if was < standing || after == nil || !v.job {
		return
	}
	now, _ := after.JetsFlow()
	loss := 1 - now/was
	if loss <= mostJetsLoss {
		return
	}
	pos := graph.Pos{File: v.c.File}
	for _, u := range v.c.Units() {
		pos = or(pos, u.Pos)
	}
	if jets := v.c.OfKind(graph.JetGroup); len(jets) > 0 {
		pos = jets[0].Pos
	}
	report(false, graph.Diagnostic{
		Pos: pos, Severity: graph.Warning,
		Message: graph.Say("mode %q: the jets get %s, %.0f %% less than today's %s; %.0f %% is the most a customer puts up with", mode, v.flow(now), 100*loss, v.flow(was), 100*mostJetsLoss),
		Hint:    "a weaker spring, a bypass a size larger, or a circulation pump for the unit so that this one only drives the jets",
	})
}
