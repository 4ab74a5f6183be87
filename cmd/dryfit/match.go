package main

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/cmd/dryfit/world"
	"dryfit/graph"
	"dryfit/graph/match"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
)

func matchVerb() *verb {
	return &verb{
		name: "match", args: "FILE...",
		does:    "which heat pump suits which tub",
		more:    "Holds every heat pump of the catalogue, and the job's own, against each tub: the coldest air it\nholds, the time to heat up, its water at every speed against what it asks for, its supply, and\nwith [climate] and [tariff] what a year takes and costs. The best stands first.",
		example: "dryfit match job.toml\ndryfit match --catalog units.toml large.toml small.toml\ndryfit match --format csv -o match.csv job.toml",
		run:     runMatch,
	}
}

// mostTubs is how many descriptions are matched at once.
const mostTubs = 50

func runMatch(v *verb, args []string, w *world.World) int {
	var shared job
	f := v.flags()
	formats := []string{"text", "csv", "json"}
	shared.add(f, formats...)
	if code, done := shared.start(v, f, formats, args, w); done {
		return code
	}
	switch {
	case f.NArg() > mostTubs:
		return world.Complain(w, fmt.Errorf("match takes up to %d descriptions, not %d", mostTubs, f.NArg()))
	case len(slices.Compact(slices.Sorted(slices.Values(f.Args())))) < f.NArg():
		return world.Complain(w, fmt.Errorf("match wants each description once: %s", strings.Join(f.Args(), " ")))
	}
	var tubs []*match.Tub
	var found []graph.Diagnostic
	files := f.Args()
	if len(files) == 0 {
		_, _ = shared.read(f, v, w) // says what is wanted
		return world.WrongUse
	}
	var styles []form.Style // each tub is printed in its own units
	for _, file := range files {
		one := shared
		one.file, one.sources = file, shared.sources
		if code, ok := one.readFile(v, w); !ok {
			return code
		}
		shared.sources = one.sources
		if code := one.readWeather(w); code != world.Done {
			return code
		}
		p, err := one.make(plan.Flows)
		if err != nil {
			return world.Complain(w, err)
		}
		tub, problems, ok := match.Of(p)
		if !ok {
			return world.Complain(w, fmt.Errorf("%s describes no heat pump in whose place another could stand: write it as a [[part]], and [retrofit] unit = with its id", one.file))
		}
		styles = append(styles, one.style(w))
		tubs, found = append(tubs, tub), append(found, problems...)
		found = append(found, graph.Errors(p.Findings)...) // the rest is said by check
	}
	var out []byte
	var err error
	switch shared.format {
	case "json":
		out, err = heating.MatchJSON(tubs)
	case "csv":
		out = heating.MatchCSV(tubs)
	default:
		out = heating.MatchText(tubs, styles)
	}
	if err != nil {
		return world.Complain(w, err)
	}
	if code := w.Write(shared.output, out); code != world.Done {
		return code
	}
	return shared.say(graph.SortDiagnostics(found), w)
}
