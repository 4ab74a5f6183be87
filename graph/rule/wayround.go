package rule

import (
	"slices"

	"dryfit/graph"
)

func wayRoundWhenIsolated(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		to, from := b.Isolators()
		if b.problem != "" || b.Pump == nil || len(to)+len(from) == 0 {
			continue
		}
		shut := func(p *graph.Part) bool { return slices.Contains(to, p) || slices.Contains(from, p) || p == b.Unit }
		if v.net.WayToTub(b.Pump, shut) == nil {
			continue // a matter of the arrows or of other rules
		}
		drawnShut := func(p *graph.Part) bool {
			return shut(p) || (p.Kind.IsHandValve() && p.Valve != nil && p.Valve.PositionSet && p.Valve.Position == 0)
		}
		d := graph.Diagnostic{Severity: graph.Warning}
		if e := b.Element(); v.net.WayToTub(b.Pump, drawnShut) == nil && e != nil {
			d.Pos, d.Related = key(e, "position"), []graph.Related{here(b.Unit)}
			d.Message = graph.Say("with the isolators of %q (%s) shut pump %q has no way to the tub: %q stands at 0 %%, and has to be opened first", b.Unit.ID, partNames(slices.Concat(to, from)), b.Pump.ID, e.ID)
			d.Hint = graph.Say("hang a tag on the isolators: open %q before either is shut", e.ID)
			report(b.Unit.Existing && e.Existing, d)
			continue
		}
		springTooStrong(in, b, shut, report)
	}
}

// springTooStrong reports a spring in the bypass that the pump's weakest speed can't lift
// by itself, where no other way leads round the unit.
func springTooStrong(in *Input, b branch, shut func(*graph.Part) bool, report Report) {
	v := in.ask()
	isCheck := func(p *graph.Part) bool { return p.Kind == graph.CheckValve }
	if v.net.WayToTub(b.Pump, func(p *graph.Part) bool { return shut(p) || isCheck(p) }) != nil {
		return
	}
	weakest, ok := weakestShutOff(v.part(b.Pump), v.set.Water)
	if !ok {
		return
	}
	for _, p := range b.BypassParts {
		if !isCheck(p) {
			continue
		}
		if crack := v.part(p).Cracking.V; crack >= weakest.pa() {
			report(b.Unit.Existing && p.Existing, graph.Diagnostic{
				Pos: key(p, "cracking"), Severity: graph.Warning, Related: []graph.Related{here(b.Pump), here(b.Unit)},
				Message: graph.Say("with the isolators of %q shut, pump %q at %q can't lift %q: shut-off %s, cracking %s", b.Unit.ID, b.Pump.ID, weakest.speed, p.ID, v.pressure(weakest.pa()), v.pressure(crack)),
				Hint:    graph.Say("%s, or a weaker spring", besideHint(in, p)),
			})
		}
	}
}
