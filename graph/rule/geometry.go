package rule

import (
	"fmt"
	"math"
	"slices"

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
			Why:      "Thirty metres of bare pipe lose more than half a kilowatt for every 5 K, and bare pipe freezes first.",
			Source:   "heat pump manuals; thickness from memory",
			Severity: graph.Note,
			Check:    insulateOutside,
		},
		{
			Name:     "unit-below-water",
			Asks:     "Whoever opens a unit that stands below the water line knows it.",
			Why:      "An open union there drains the tub.",
			Source:   "heat pump manuals agree; no standard",
			Severity: graph.Note,
			Check:    unitBelowWater,
		},
	}
}

// levelMM is how far two points may differ in height and still count as level, mm.
const levelMM = 1

// nearMM is how far above a low point a drain may stand, mm: as near as a tee on an upright
// pipe gets to the bend below it. Common practice, no source.
const nearMM = 200

// spot is one point of new pipe.
type spot struct {
	z    float64
	run  *graph.Run
	end  *graph.PortRef // where it is the end of a run
	open bool           // meets old pipe, by which water or air gets away
	next []int
}

// trapped reports the low (sign -1) or high (sign 1) points of the new pipe that have
// neither a way into old pipe nor a tap of the kind. A check valve is passed by neither
// water nor air that is left to itself.
func trapped(in *Input, report Report, sign float64, tap graph.Kind, what, fitting, stays string) {
	v := in.ask()
	spots := profile(in, v)
	seen := make([]bool, len(spots))
	for i := range spots {
		if seen[i] {
			continue
		}
		level, extreme := plateau(spots, i, sign, seen)
		if !extreme || tapped(v, spots, level, sign, tap) {
			continue
		}
		at := spots[level[0]]
		for _, k := range level {
			if spots[k].end != nil {
				at = spots[k]
				break
			}
		}
		where := fmt.Sprintf("in run %q", at.run.ID)
		if at.end != nil {
			where = fmt.Sprintf("at %q", at.end.String())
		}
		report(false, graph.Diagnostic{
			Pos: at.run.Pos, Severity: graph.Warning,
			Message: fmt.Sprintf("%s %s of the new pipe: 0 %ss within %s of it, needs 1; %s there", what, where, fitting, v.length(nearMM), stays),
			Hint:    fmt.Sprintf("add a tee with a %s there, or lead the pipe so that it falls all the way to the line; a plug of the unit's own does as well if it is reached", fitting),
		})
	}
}

// profile returns the points of the new water pipes whose place is known, joined along the
// pipes and through the parts.
func profile(in *Input, v *view) []spot {
	var spots []spot
	ends := map[string][]int{} // part id -> spots at its ports
	for i := range in.Layout.Paths {
		path := &in.Layout.Paths[i]
		if !path.Located || !path.Run.New() || v.net.IsAir(path.Run) || v.net.Run(path.Run.ID) == nil {
			continue
		}
		for k, at := range path.Points {
			s := spot{z: at.Z, run: path.Run}
			id := len(spots)
			if k > 0 {
				s.next = append(s.next, id-1)
				spots[id-1].next = append(spots[id-1].next, id)
			}
			if k == 0 {
				s.end = &path.Run.From
			} else if k == len(path.Points)-1 {
				s.end = &path.Run.To
			}
			if s.end != nil {
				ends[s.end.Part] = append(ends[s.end.Part], id)
			}
			spots = append(spots, s)
		}
	}
	for _, p := range v.c.Parts {
		old := p.Kind == graph.Tub
		for _, r := range v.net.At(p) {
			old = old || !r.New()
		}
		here := ends[p.ID]
		for i, a := range here {
			spots[a].open = spots[a].open || old
			if i > 0 && p.Kind != graph.CheckValve {
				spots[a].next = append(spots[a].next, here[i-1])
				spots[here[i-1]].next = append(spots[here[i-1]].next, a)
			}
		}
	}
	return spots
}

// plateau returns the level spots that hang together with the first, and whether all that
// lead away from them rise (sign -1) or fall (sign 1) and none is open.
func plateau(spots []spot, first int, sign float64, seen []bool) (level []int, extreme bool) {
	level, extreme = []int{first}, true
	seen[first] = true
	ways := 0
	for k := 0; k < len(level); k++ {
		s := spots[level[k]]
		extreme = extreme && !s.open
		for _, n := range s.next {
			switch {
			case math.Abs(spots[n].z-spots[first].z) <= levelMM:
				if !seen[n] {
					seen[n] = true
					level = append(level, n)
				}
			case sign*(spots[n].z-spots[first].z) > 0:
				extreme = false
			default:
				ways++
			}
		}
	}
	return level, extreme && ways > 0
}

// tapped reports whether a part of the kind stands on the level or near it.
func tapped(v *view, spots []spot, level []int, sign float64, tap graph.Kind) bool {
	seen := map[int]bool{}
	queue := slices.Clone(level)
	for k := 0; k < len(queue); k++ {
		s := spots[queue[k]]
		if seen[queue[k]] || math.Abs(s.z-spots[level[0]].z) > nearMM {
			continue
		}
		seen[queue[k]] = true
		if s.end != nil {
			if p := v.net.Part(s.end.Part); p != nil && p.Kind == tap {
				return true
			}
		}
		queue = append(queue, s.next...)
	}
	return false
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
		apart, source, ok := supportOf(v, path.Run)
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
			Message: fmt.Sprintf("%s of %s is %s long without a bend; at %s it needs a support every %s (%s)", runNames(g.runs), name, v.length(g.most), v.celsius(waterC(v.c)), v.length(g.apart), g.src),
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
	sum := 0.0
	for _, r := range bare {
		sum += pathLength(in, r)
	}
	report(false, graph.Diagnostic{
		Pos: bare[0].Pos, Severity: graph.Note,
		Message: fmt.Sprintf("%s of new pipe (%s) runs outside without insulation: 0 mm of it, needs 19 to 25 mm", v.length(sum), runNames(bare)),
		Hint:    "closed cell under a jacket that stands the sun; 32 mm where it freezes; then write insulated = true",
	})
}

func unitBelowWater(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		if !u.BelowWaterSet || u.BelowWaterMM <= 0 {
			continue
		}
		report(u.Existing, graph.Diagnostic{
			Pos: key(u, "below-water"), Severity: graph.Note,
			Message: fmt.Sprintf("%q stands %s below the water line; at 0 or above nothing would run out when it is opened", u.ID, v.length(u.BelowWaterMM)),
			Hint:    "shut both isolators before any union is opened, and hang a tag there that says so",
		})
	}
}
