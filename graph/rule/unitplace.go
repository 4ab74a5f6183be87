package rule

import (
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route/solid"
)

// standRules say where the unit stands, and that it can be emptied there.
func standRules() []*Rule {
	return []*Rule{
		{
			Name:     "unit-away-from-water",
			Asks:     "The unit stands 2 m from the rim, in North America 5 ft (1.52 m), or as far as the local code asks.",
			Why:      "Nearer it stands in a zone in which fixed equipment and its isolator may not stand, within a bather's reach.",
			Source:   "IEC 60364-7-702, BS 7671 section 702 (zone 1), NEC 680 (from memory)",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check:    unitAwayFromWater,
		},
		{
			Name:     "unit-breathes",
			Asks:     "The unit stands in the open, with 300 mm of free air behind it.",
			Why:      "In a shed, under a deck or against a wall it breathes its own cold air, ices, and gives a fraction of its heat.",
			Source:   "heat pump manuals; the 300 mm from memory",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    unitBreathes,
		},
		unitRoom,
		{
			Name:     "unit-drains",
			Asks:     "Where it may freeze, the unit can be emptied: by a drain plug of its own, or a drain on its pipes.",
			Why:      "Water that stays in the exchanger bursts it in the first hard night without power.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Warning,
			Check:    unitDrains,
		},
	}
}

// zoneMM is how far from the rim equipment stands, mm, by region. Source: see the rule.
func zoneMM(region string) float64 {
	if region == "us" {
		return 1524 // 5 ft
	}
	return 2000
}

func unitAwayFromWater(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		if u.Unit == nil {
			continue
		}
		limit, far, how := zoneMM(v.c.Site.Region), u.Unit.FromWaterMM, "as measured"
		if !u.Unit.FromWaterMeasured {
			var ok bool
			if far, ok = fromTub(in, v, u); !ok {
				continue
			}
			how = "level, from the nearest opening of the tub by the legs"
			if u.Box != nil {
				how = "level, from its case to the nearest opening of the tub by the legs"
			}
			for _, tub := range v.c.OfKind(graph.Tub) {
				if tub.Box != nil {
					how = "level, to the box of the tub"
				}
			}
		}
		if far >= limit {
			continue
		}
		report(u.Existing, graph.Diagnostic{
			Pos: key(u, "from-water"), Severity: graph.Warning,
			Message: graph.Say("%q stands %s from the water (%s); it needs %s", u.ID, v.length(far), how, v.length(limit)),
			Hint:    graph.Say(`move it away; or measure from the rim to its case and write from-water = "%s"; the electrician decides by the local code, by [site] region`, quantity.Length.About(2200)),
		})
	}
}

// fromTub returns the level distance between a unit and the nearest tub: of their boxes, and
// of their ports where the description gives no box.
func fromTub(in *Input, v *view, u *graph.Part) (mm float64, ok bool) {
	near := math.Inf(1)
	for _, tub := range v.c.OfKind(graph.Tub) {
		for _, a := range spans(in, tub) {
			for _, b := range spans(in, u) {
				near = min(near, math.Hypot(max(0, a[0].X-b[1].X, b[0].X-a[1].X), max(0, a[0].Y-b[1].Y, b[0].Y-a[1].Y)))
			}
		}
	}
	return near, !math.IsInf(near, 1)
}

// spans are what a part takes up, each by its lowest and highest corner: its box, else each of
// its ports that has a place.
func spans(in *Input, p *graph.Part) []graph.Span {
	var out []graph.Span
	for i, q := range p.Ports {
		at, placed := in.Layout.Positions[p.ID+"."+q.Name]
		if !placed {
			continue
		}
		if p.Box != nil && i == 0 {
			if q.At != nil {
				at = at.Sub(*q.At)
			}
			low, high := solid.Box(at.Add(p.Box[0]), at.Add(p.Box[1])).Bounds()
			return []graph.Span{{low, high}}
		}
		out = append(out, graph.Span{at, at})
	}
	return out
}

// leastBehindMM is the least free air behind a unit, mm. Source: from memory of manuals.
const leastBehindMM = 300

func unitBreathes(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		if u.Unit == nil {
			continue
		}
		d := graph.Diagnostic{Severity: graph.Warning}
		switch {
		case u.Unit.Outdoors != nil && !*u.Unit.Outdoors:
			d.Pos = key(u, "outside")
			d.Message = graph.Say("%q stands inside: 0 m2 of open air; it needs the open, or ducts of its maker's size", u.ID)
			d.Hint = "stand it outside, or follow its manual for ducted air; then write outside = true"
		case u.ClearMM >= 0 && u.ClearMM < leastBehindMM:
			d.Pos = key(u, "clear")
			d.Message = graph.Say("%q has %s of free air; it needs %s behind it, and more before its fan", u.ID, v.length(u.ClearMM), v.length(leastBehindMM))
			d.Hint = graph.Say("move it away from wall, fence or plants: %s to %s behind, %s at the service side, %s and more before the fan, or as its sheet says",
				quantity.Length.About(300), quantity.Length.About(500), quantity.Length.About(600), quantity.Length.About(1500))
		default:
			continue
		}
		report(u.Existing, d)
	}
}

func unitDrains(in *Input, report Report) {
	v := in.ask()
	if freezes, said := v.c.Site.Freezes(); said && !freezes {
		return
	}
	for _, b := range v.branches {
		u := b.Unit
		if u.Unit == nil || u.Unit.DrainPlug != nil && *u.Unit.DrainPlug || b.TeeIn == nil {
			continue
		}
		drains := 0
		for _, p := range b.StubParts {
			if p.Kind == graph.DrainValve {
				drains++
			}
		}
		if drains > 0 {
			continue
		}
		d := graph.Diagnostic{
			Pos: key(u, "drain-plug"), Severity: graph.Warning,
			Message: graph.Say("how %q is emptied is not said: 0 drains on its pipes and 0 plugs of its own, needs 1", u.ID),
			Hint:    "look for a drain plug on the unit and write drain-plug = true, or fit a drain at the lowest place of its pipes",
		}
		report(u.Existing, d)
	}
}
