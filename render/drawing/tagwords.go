package drawing

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/rule"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// warnings is what the tag of a valve says beside its positions, by its id: that a valve on the
// suction side is never shut, that one way past or through the unit stays open, and how a valve
// beside a check stands while the unit is shut off. Common practice, no source.
func warnings(p *plan.Plan, names *tag.Names) map[string][]sticker.Setting {
	out := map[string][]sticker.Setting{}
	say := func(v *graph.Part, mode, words string) {
		out[v.ID] = append(out[v.ID], sticker.Setting{Mode: mode, Position: words})
	}
	net := p.After.Layout.Stage.Net()
	for _, pump := range p.After.Circuit.Pumps() {
		for _, v := range net.Suction(pump).Parts {
			if v.Kind.IsHandValve() && out[v.ID] == nil {
				say(v, "pump can start", "NEVER SHUT")
			}
		}
	}
	for _, branch := range p.After.Layout.Stage.Branches() {
		b := branch.UnitBranch
		e := b.Element()
		if e == nil || b.TeeIn == nil {
			continue
		}
		to, from := b.Isolators()
		isolators := slices.Concat(to, from)
		for _, v := range b.BypassParts {
			if e.Kind == graph.CheckValve && v.Kind.IsHandValve() && rule.BesideCheck(b, v, e) && out[v.ID] == nil {
				say(v, "unit shut off", "OPEN")
			}
		}
		if !e.Kind.IsHandValve() || len(isolators) == 0 {
			continue
		}
		if out[e.ID] == nil {
			say(e, "unit shut off", "OPEN first")
			say(e, "one way stays open", tagsOf(isolators, names)+" or this")
		}
		for _, v := range isolators {
			if out[v.ID] == nil {
				say(v, "before it is shut", names.Tag(e.ID)+" OPEN")
			}
		}
	}
	return out
}

func tagsOf(parts []*graph.Part, names *tag.Names) string {
	var tags []string
	for _, p := range parts {
		tags = append(tags, names.Tag(p.ID))
	}
	return strings.Join(tags, "+")
}
