package rule

import (
	"dryfit/graph"
)

// springTooStrong reports a spring in the bypass that the weakest speed of a pump which feeds the unit
// can't lift by itself, where no other way leads round the unit.
func springTooStrong(in *Input, b branch, pump *graph.Part, shut func(*graph.Part) bool, report Report) {
	v := in.ask()
	isCheck := func(p *graph.Part) bool { return p.Kind == graph.CheckValve }
	if v.net.WayToTub(pump, func(p *graph.Part) bool { return shut(p) || isCheck(p) }) != nil {
		return
	}
	weakest, ok := weakestShutOff(v.part(pump), v.set.Water)
	if !ok {
		return
	}
	for _, p := range b.BypassParts {
		if !isCheck(p) {
			continue
		}
		if crack := v.part(p).Cracking.V; crack >= weakest.pa() {
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: key(p, "cracking"), Severity: graph.Warning, Related: []graph.Related{here(pump), here(b.Unit)},
				Message: graph.Say("with the isolators of %q shut, pump %q at %q can't lift %q: shut-off %s, cracking %s", b.Unit.ID, pump.ID, weakest.speed, p.ID, v.pressure(weakest.pa()), v.pressure(crack)),
				Hint:    graph.Say("%s, or a weaker spring", besideHint(in, p)),
			})
		}
	}
}
