package drawing

import (
	"slices"
	"strings"

	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/rule"
	"dryfit/graph/stream"
	"dryfit/render/sticker"
	"dryfit/render/tag"
)

// warnings is what the tag of a valve says beside its positions, by its id: that a valve on the
// suction side is never shut, that one way past or through the unit stays open, how a valve
// beside a check stands while the unit is shut off, and what comes before a check or a union that
// lies below the water is opened. Common practice, no source.
func warnings(p *plan.Plan, names *tag.Names) map[string][]sticker.Setting {
	out := map[string][]sticker.Setting{}
	say := func(v *graph.Part, mode, words string) {
		out[v.ID] = append(out[v.ID], sticker.Setting{Mode: mode, Position: words})
	}
	net := p.After.Layout.Stage.Net()
	for _, pump := range p.After.Circuit.Pumps() {
		for _, v := range net.Suction(pump).Parts {
			if v.Kind.IsHandValve() && out[v.ID] == nil {
				say(v, "while a pump can start", "NEVER SHUT")
			}
		}
	}
	branches := net.InnerFirst()
	for _, branch := range branches {
		b := branch.UnitBranch
		beforeOpened(p, b, names, func(v *graph.Part, words, said string) {
			if out[v.ID] == nil {
				say(v, words, said)
			}
		})
		e := b.Element()
		if e == nil || b.TeeIn == nil {
			continue
		}
		for _, v := range b.BypassParts {
			if e.Kind == graph.CheckValve && v.Kind.IsHandValve() && rule.BesideCheck(b, v, e) && out[v.ID] == nil {
				say(v, "unit shut off", "OPEN")
			}
		}
		to, from := b.Isolators()
		if !e.Kind.IsHandValve() || len(to)+len(from) == 0 {
			continue
		}
		left, before := "left ", "before left shut" // the flow switch is tried with a throttle as it is set
		if len(p.After.Solutions) == 0 || p.After.StandsShut(e.ID) {
			left, before = "", "before it is shut"
		}
		if out[e.ID] == nil {
			say(e, "while "+practice.OneOf(tagsOf(shutOffPast(branches, e), names))+" is "+left+"shut", "OPEN")
		}
		for _, v := range slices.Concat(to, from) {
			if out[v.ID] == nil {
				say(v, before, names.Tag(e.ID)+" OPEN")
			}
		}
	}
	return out
}

// shutOffPast are the isolators of all units that a valve leads past.
func shutOffPast(branches []stream.Branch, past *graph.Part) []*graph.Part {
	var out []*graph.Part
	for _, b := range branches {
		if b.TeeIn == nil || b.Element() != past {
			continue
		}
		to, from := b.Isolators()
		for _, v := range slices.Concat(to, from) {
			if !slices.Contains(out, v) {
				out = append(out, v)
			}
		}
	}
	return out
}

// beforeOpened says what comes before a union of a unit is undone, and a check in its bypass that
// nothing shuts off, which empty the tub otherwise; of what is known to stand above the water nothing.
func beforeOpened(p *plan.Plan, b *stream.UnitBranch, names *tag.Names, say func(v *graph.Part, words, said string)) {
	below := func(part *graph.Part) bool {
		mm, known := p.After.Layout.Below(part)
		return !known || mm > 0
	}
	for _, v := range b.BypassParts {
		if v.Kind == graph.CheckValve && below(v) && !rule.CheckIsolated(b, v) {
			say(v, toOpen, "EMPTY THE TUB")
		}
	}
	if !below(b.Unit) {
		return
	}
	to, from := b.Isolators()
	backwards := slices.Clone(b.FromUnitParts)
	slices.Reverse(backwards)
	for _, way := range [][]*graph.Part{b.ToUnitParts, backwards} { // from the line to the unit
		shut := false
		for _, u := range way {
			shut = shut || slices.Contains(to, u) || slices.Contains(from, u)
			switch {
			case u.Kind != graph.Union:
			case shut && len(to) > 0 && len(from) > 0:
				say(u, toOpen+": "+strings.Join(tagsOf(slices.Concat(to, from), names), ", "), "SHUT")
			default:
				say(u, toOpen, "EMPTY THE TUB")
			}
		}
	}
}

// toOpen is when what a label says of a union or a check is done.
const toOpen = "before opening"

// tagsOf are the tags of parts, in the order in which one looks for them.
func tagsOf(parts []*graph.Part, names *tag.Names) []string {
	var tags []string
	for _, p := range parts {
		tags = append(tags, names.Tag(p.ID))
	}
	return practice.ByNumber(tags)
}
