package rule

import (
	"slices"

	"dryfit/graph"
)

// suctionRules say what draws water from the tub, and how it can hold a bather.
func suctionRules() []*Rule {
	return []*Rule{
		{
			Name:     "two-suctions",
			Asks:     "Every pump draws from two openings of the tub: two suctions, or one and a skimmer.",
			Why:      "With one alone the whole pull stands on whoever covers it.",
			Source:   "EN 13451-3, ASME A112.19.8 (from memory); a controller maker's application note",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    twoSuctions,
		},
		{
			Name:     "cover-rating",
			Asks:     "The flow through each suction cover stays within its rating while the other suctions of its pump are blocked.",
			Why:      "That is how a bather is held: the other cover is blocked by a body, a towel or a lid, and this one takes all.",
			Source:   "EN 13451-3, ASME A112.19.8 (from memory); the cover's own mark",
			Severity: graph.Warning,
			Needs:    NeedsFlow,
			Check:    coverRating,
		},
		{
			Name:     "suction-valves-tagged",
			Asks:     "A hand valve between tub and pump carries a note that it is never shut.",
			Why:      "Shut by mistake it runs the pump dry and turns the whole pull on the other suction.",
			Source:   "common practice, no source",
			Severity: graph.Note,
			Anywhere: true,
			Check:    suctionValvesTagged,
		},
		{
			Name:     "all-water-filtered",
			Asks:     "Where the filter stands on the suction side, all the water that comes to the unit has passed it.",
			Why:      "A footwell that is joined after a filter in the skimmer brings sand and hair to the unit's exchanger.",
			Source:   "common practice, no source",
			Severity: graph.Note,
			Check:    allWaterFiltered,
		},
	}
}

// openings returns the runs by which a pump draws from a tub, one for each port.
func openings(v *view, pump *graph.Part) []*graph.Run {
	var out []*graph.Run
	for _, r := range v.net.Suction(pump).Runs {
		from, _ := v.net.Ends(r)
		if p := v.net.Part(from.Part); p != nil && p.Kind == graph.Tub {
			out = append(out, r)
		}
	}
	return out
}

func twoSuctions(in *Input, report Report) {
	v := in.ask()
	for _, pump := range v.c.Pumps() {
		from := openings(v, pump)
		if len(from) != 1 {
			continue
		}
		ours := false
		for _, b := range v.branches {
			ours = ours || slices.Contains(b.Feeds(), pump) && b.Unit.New()
		}
		report(!ours && pump.Existing, graph.Diagnostic{
			Pos: pump.Pos, Severity: graph.Warning, Related: []graph.Related{hereRun(from[0])},
			Message: graph.Say("pump %q draws from 1 opening of the tub, by run %q; it needs 2", pump.ID, from[0].ID),
			Hint:    "look for the other suction, or the skimmer, and describe it; where there is none, tell the owner and the tub's maker before anything is changed on this line",
		})
	}
}

func coverRating(in *Input, report Report) {
	v := in.ask()
	for _, tub := range v.c.OfKind(graph.Tub) {
		for _, port := range tub.Ports {
			for _, a := range in.Alone {
				if a.Port != tub.ID+"."+port.Name || a.Flow <= port.CoverRating {
					continue
				}
				got, limit := v.flow(a.Flow), v.flowLimit(port.CoverRating)
				d := graph.Diagnostic{
					Pos: or(port.Pos, tub.Pos), Severity: graph.Warning,
					Mode: a.Mode, Message: graph.Say("mode %q: with the other suctions of pump %q blocked %s goes through the cover at %q; it is rated %s", a.Mode, a.Pump, got, a.Port, limit),
					Hint: "a cover of a higher rating, or one more suction; where it was so before the work, tell the owner",
				}
				if p := v.net.Part(a.Pump); p != nil {
					d.Related = []graph.Related{here(p)}
				}
				report(!v.job, d)
			}
		}
	}
}

func suctionValvesTagged(in *Input, report Report) {
	v := in.ask()
	told := map[string]bool{}
	for _, pump := range v.c.Pumps() {
		for _, p := range v.net.Suction(pump).Parts {
			if !p.Kind.IsHandValve() || p.Note != "" || told[p.ID] {
				continue
			}
			told[p.ID] = true
			report(p.Existing && !v.job, graph.Diagnostic{
				Pos: p.Pos, Severity: graph.Note, Related: []graph.Related{here(pump)},
				Message: graph.Say("%s %q stands between the tub and pump %q: 0 notes say that it is never shut, needs 1", p.Kind, p.ID, pump.ID),
				Hint:    `hang a tag on it, and write note = "never shut"`,
			})
		}
	}
}

func allWaterFiltered(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		f := b.up.First(graph.Filter)
		drawn := func(pump *graph.Part) bool { return v.net.Suction(pump).HasPart(f.ID) }
		if f == nil || !slices.ContainsFunc(b.Feeds(), drawn) {
			continue
		}
		isFilter := func(p *graph.Part) bool { return p.Kind == graph.Filter }
		bare := v.net.UpstreamUntil(b.Unit, isFilter)
		var from []*graph.Run
		for _, pump := range b.Feeds() {
			from = append(from, openings(v, pump)...)
		}
		for i, r := range from {
			if !bare.HasRun(r.ID) || slices.Contains(from[:i], r) {
				continue
			}
			report(b.Unit.Existing, graph.Diagnostic{
				Pos: b.Unit.Pos, Severity: graph.Note, Related: []graph.Related{here(f), hereRun(r)},
				Message: graph.Say("the water of run %q comes to %q past filter %q: 0 filters on its way, needs 1", r.Said(), b.Unit.ID, f.ID),
				Hint:    "fit a strainer before the unit, or look that a screen stands in that suction, and clean both",
			})
		}
	}
}
