package rule

import (
	"cmp"
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// geometryRules say what follows from where the pipes lie.
func geometryRules() []*Rule {
	return []*Rule{
		{
			Name:     "drain-at-low-points",
			Asks:     "The new pipe has a drain at every low point from which the water can't run back into the line, on both sides of a check valve.",
			Why:      "Water that stays in a laid-up branch freezes and cracks unions and exchanger first.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check: func(in *Input, report Report) {
				trapped(in, report, -1, graph.DrainValve, "low point", "drain", "water stays")
			},
		},
		{
			Name:     "bleed-at-high-points",
			Asks:     "The new pipe has an air bleed at every high point from which the air can't rise back into the line.",
			Why:      "Air that collects there is heard, trips the unit's flow switch, and locks a weak pump.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check: func(in *Input, report Report) {
				trapped(in, report, 1, graph.AirBleed, "high point", "air bleed", "air stays")
			},
		},
		{
			Name:     "legs-plausible",
			Asks:     "A leg is longer than 5 mm.",
			Why:      "No pipe and no fitting is that short: a point between thousands was read as a decimal one, or the unit is wrong.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Check:    legsPlausible,
		},
		{
			Name:     "support-spacing",
			Asks:     "Rigid new pipe that is longer than the table's distance between supports is clipped.",
			Why:      "Warm PVC creeps: a pipe that sags strains its joints and holds water.",
			Source:   "a pipe maker's installation table by size and temperature (catalogue, support.csv)",
			Severity: graph.Note,
			Needs:    NeedsLayout,
			Check:    supportSpacing,
		},
		{
			Name:     "insulate-outside",
			Asks:     "New pipe that runs outside is insulated.",
			Why:      "30 m of bare pipe lose more than half a kilowatt for every 5 K, and bare pipe freezes first.",
			Source:   "heat pump manuals; thickness from memory",
			Severity: graph.Warning,
			Check:    insulateOutside,
		},
		{
			Name:     "unit-below-water",
			Asks:     "Whoever opens a unit that stands below the water line knows it.",
			Why:      "An open union there drains the tub.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Note,
			Needs:    NeedsLayout,
			Check:    unitBelowWater,
		},
		waterLevelAgrees,
	}
}

func supportSpacing(in *Input, report Report) {
	v := in.ask()
	type group struct {
		first *graph.Run
		runs  []*graph.Run
		most  float64
		apart float64
		src   string
	}
	var order []string
	groups := map[string]*group{}
	for i := range in.Layout.Paths {
		path := &in.Layout.Paths[i]
		if !path.Run.New() || v.net.Run(path.Run.ID) == nil {
			continue
		}
		apart, source, ok := tables.SupportSpacing(path.Run.Spec, path.Run.Size, v.waterC())
		apart = tables.Apart(apart, quantity.SystemOf(v.c.Job.Units)) // as the parts list says it
		long := longestStraight(path.Points)
		if !ok || long <= apart {
			continue
		}
		name := fmt.Sprintf("%s %s", path.Run.Spec, path.Run.Size)
		g := groups[name]
		if g == nil {
			g = &group{first: path.Run, apart: apart, src: source}
			groups[name] = g
			order = append(order, name)
		}
		g.runs = append(g.runs, path.Run)
		g.most = max(g.most, long)
	}
	for _, name := range order {
		g := groups[name]
		report(false, graph.Diagnostic{
			Pos: g.first.Pos, Severity: graph.Note,
			Message: graph.Say("%s (%s, %s) goes up to %s without a bend; at %s it needs a support every %s (%s)", name, quantity.Counted(len(g.runs), "run"), runNames(g.runs), v.length(g.most), v.celsius(v.waterC()), v.length(g.apart), g.src),
			Hint:    "clip it so that it can slide, and carry valves and the last piece before the unit on supports of their own",
		})
	}
}

func longestStraight(points []graph.Vec) float64 {
	most, sum := 0.0, 0.0
	var way graph.Vec
	for i := 1; i < len(points); i++ {
		step := points[i].Sub(points[i-1])
		if way.Len() > 0 && way.AngleTo(step) > 1 {
			sum = 0
		}
		way = step
		sum += step.Len()
		most = max(most, sum)
	}
	return most
}

func insulateOutside(in *Input, report Report) {
	v := in.ask()
	var bare []*graph.Run
	for _, r := range v.c.Runs {
		if r.New() && r.Outside && !r.Insulated && !v.net.IsAir(r) {
			bare = append(bare, r)
		}
	}
	if len(bare) == 0 {
		return
	}
	sum := lengthOf(in, bare)
	severity := graph.Note
	if freezes, _ := v.c.Site.Freezes(); freezes {
		severity = graph.Warning
	}
	report(false, graph.Diagnostic{
		Pos: bare[0].Pos, Severity: severity,
		Message: graph.Say("%s of new pipe (%s) runs outside without insulation: %s of it, needs %s to %s", v.length(sum), runNames(bare), v.length(0), v.length(19), v.length(25)),
		Hint:    graph.Say("closed cell under a jacket that stands the sun; %s where it freezes; then write insulated = true", v.length(32)),
	})
}

func unitBelowWater(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		below, ok := in.Layout.Below(u)
		if !ok || below <= 0 {
			continue
		}
		report(u.Existing, graph.Diagnostic{
			Pos: key(u, "below-water"), Severity: graph.Note,
			Message: graph.Say("%q stands %s below the water line; at 0 or above nothing would run out when it is opened", u.ID, v.length(below)),
			Hint:    "shut both isolators before any union is opened, and hang a tag there that says so",
		})
	}
}

// shortestLegMM is the longest leg nobody means, mm. Common practice, no source.
const shortestLegMM = 5

func legsPlausible(in *Input, report Report) {
	for _, r := range in.Circuit.Runs {
		for i, l := range r.Legs {
			if mm := l.By.Len(); mm > 0 && mm <= shortestLegMM {
				report(r.Existing, graph.Diagnostic{
					Pos: cmp.Or(l.Pos, r.Pos), Severity: graph.Warning,
					Message: graph.Say("leg %d of run %q is %s long; a leg is longer than %s", i+1, r.Said(), quantity.Closely(mm), quantity.Length.Of(shortestLegMM)),
					Hint:    graph.Say("is the unit right? the point of \"1.250 mm\" stands before decimals: for one and a quarter metres write \"1250 mm\" or \"1.25 m\""),
				})
			}
		}
	}
}
