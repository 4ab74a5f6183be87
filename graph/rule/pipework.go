package rule

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// pipeworkRules say what new pipe outside and joints on old pipe need.
func pipeworkRules() []*Rule {
	return []*Rule{
		{
			Name:     "pipe-falls",
			Asks:     "New pipe outside that runs level for more than 1 m falls a little, so that it can be emptied.",
			Why:      "Level pipe sags between its clips and holds water, which freezes, and air, which trips the unit.",
			Source:   "common practice, no source",
			Severity: graph.Note,
			Needs:    NeedsLayout,
			Check:    pipeFalls,
		},
		{
			Name:     "pipe-can-expand",
			Asks:     "A straight of more than 3 m of rigid pipe to the unit can move, or its last 500 mm are flexible.",
			Why:      "PVC grows some six times as much as steel: 3 m that go from a winter's night to 40 °C push 8 mm against the unit's ports.",
			Source:   "expansion of PVC-U 0.06 to 0.08 mm/(m·K), from memory; computed",
			Severity: graph.Note,
			Needs:    NeedsLayout,
			Check:    pipeCanExpand,
		},
		{
			Name:     "old-material-known",
			Asks:     "What the old pipe is made of is read from its print before new pipe is cemented to it, and the two can be cemented.",
			Why:      "ABS and CPVC look like PVC, and PVC cement does not hold them: the joint lets go when it is warm.",
			Source:   "solvent cement makers' guides agree; no standard",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    oldMaterialKnown,
		},
		{
			Name:     "old-pipe-known",
			Asks:     "Of old pipe that new work is cemented to the spec and the size are known, not its bore alone.",
			Why:      "A bore is enough for the water, and fits no socket: tees, adaptors and every length of the cut go by what the pipe measures outside.",
			Source:   "follows from the description",
			Severity: graph.Error,
			Check:    oldPipeKnown,
		},
		{
			Name:     "bypass-serviceable",
			Asks:     "A check in the bypass that lies below the water can be shut off on both sides.",
			Why:      "It seizes and wants cleaning; opened where nothing shuts it off, it empties the tub into the cabinet.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check:    bypassServiceable,
		},
	}
}

// longLevelMM is how much level pipe outside is let pass, mm. Common practice, no source.
const longLevelMM = 1000

func pipeFalls(in *Input, report Report) {
	v := in.ask()
	var level []*graph.Run
	most := 0.0
	for i := range in.Layout.Paths {
		path := &in.Layout.Paths[i]
		if r := path.Run; !r.New() || !r.Outside || v.net.Run(r.ID) == nil || v.net.IsAir(r) {
			continue
		}
		long := 0.0
		for k := 1; k < len(path.Points); k++ {
			if step := path.Points[k].Sub(path.Points[k-1]); math.Abs(step.Z) < 1 {
				long = max(long, step.Len())
			}
		}
		if long > longLevelMM {
			level = append(level, path.Run)
			most = max(most, long)
		}
	}
	if len(level) == 0 {
		return
	}
	report(false, graph.Diagnostic{
		Pos: level[0].Pos, Severity: graph.Note,
		Message: graph.Say("new pipe outside (%s) runs level for up to %s; from %s on it needs a fall of about %s", runNames(level), v.length(most), v.about(longLevelMM), v.length(most/100)),
		Hint:    "clip it with a fall of 1 in 100 towards its drain or the tub; the joints give that much",
	})
}

// How long a rigid straight may be, and by how much it grows. Sources: the rule's.
const (
	rigidMM = 3000    // mm
	growth  = 0.07e-3 // of its length for each kelvin: the middle of PVC-U's 0.06 to 0.08 mm/(m·K)
	warmUpK = 40      // from a winter's night to a tub
)

func pipeCanExpand(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.TeeIn == nil {
			continue
		}
		for _, s := range b.sides() {
			var long *graph.Run
			most, flexible := 0.0, false
			for _, r := range s.runs {
				near := r.From.Part == b.Unit.ID || r.To.Part == b.Unit.ID
				soft := r.Spec.Flexible() || r.Spec == "hose"
				flexible = flexible || near && soft
				for i := range in.Layout.Paths {
					if path := &in.Layout.Paths[i]; path.Run == r && r.New() && !soft {
						if l := longestStraight(path.Points); l > most {
							most, long = l, r
						}
					}
				}
			}
			if long == nil || most <= rigidMM || flexible {
				continue
			}
			report(false, graph.Diagnostic{
				Pos: long.Pos, Severity: graph.Note, Related: []graph.Related{here(b.Unit)},
				Message: graph.Say("run %q, on the way %s %q, is %s of rigid pipe in one straight: it grows by %s over %s; up to %s needs nothing", long.ID, s.name, b.Unit.ID, v.length(most), v.length(most*growth*warmUpK), v.kelvin(warmUpK), v.length(rigidMM)),
				Hint:    graph.Say("clip it so that it slides, and make the last %[1]s to the unit flexible, or go round a corner with %[1]s behind it", v.about(500)),
			})
		}
	}
}

// oldEnds returns the runs of old rigid pipe that new work is cemented to.
func oldEnds(v *view) []*graph.Run {
	var out []*graph.Run
	for _, r := range v.c.Runs {
		if r.New() || r.Spec == "hose" || v.net.IsAir(r) || r.LengthMM == 0 && len(r.Legs) == 0 {
			continue
		}
		for _, end := range []graph.PortRef{r.From, r.To} {
			if p := v.net.Part(end.Part); p != nil && p.New() && p.Kind != graph.Union {
				out = append(out, r)
				break
			}
		}
	}
	return out
}

func oldMaterialKnown(in *Input, report Report) {
	v := in.ask()
	if !v.job {
		return
	}
	for _, r := range oldEnds(v) {
		if byBoreAlone(r) {
			continue // no fitting can be chosen for it, and that is told
		}
		d := graph.Diagnostic{Pos: or(v.c.Pipe.KeyPos["material"], v.c.Pipe.Pos), Severity: graph.Warning, Related: []graph.Related{hereRun(r)}}
		if !d.Pos.IsValid() || r.Material != "" {
			d.Pos = r.Pos
		}
		switch m := cmp.Or(r.Material, v.c.Pipe.Material); m {
		case "":
			d.Message = graph.Say("what the old pipe of %q is made of is not said: 0 of 1 given, and new pipe is cemented to it", r.Said())
			d.Hint = `read the print on the pipe and write it in [pipe], or on the run: material = "pvc-u", "flexible-pvc", "abs" or "cpvc"`
		case "abs", "cpvc":
			d.Message = graph.Say("the old pipe of %q is %s and the new is PVC: 0 cements of the usual tin hold both, needs 1 that is rated for the pair", r.Said(), m)
			d.Hint = "join them by a union or coupling with seals, or by a transition cement rated for just this pair where the local code lets you"
		default:
			continue
		}
		report(false, d)
		return // one is told: the others are of the same pipe
	}
}

// byBoreAlone reports whether of a pipe spec and size are not both said, so that its bore alone tells of it: it is in no
// table.
func byBoreAlone(r *graph.Run) bool { return r.Spec == "" || r.Size.IsZero() }

func oldPipeKnown(in *Input, report Report) {
	v := in.ask()
	ends := oldEnds(v)
	i := slices.IndexFunc(ends, byBoreAlone)
	if i < 0 {
		return
	}
	r := ends[i]
	said := "bore alone is"
	switch {
	case r.Spec != "":
		said = "bore and the spec are"
	case !r.Size.IsZero():
		said = "bore and the size are"
	}
	const changes = "it takes tees of its own kind, and the pipes to the unit change over at a thread or a union: put those in, and let the cut be in pipe that has a spec"
	d := graph.Diagnostic{
		Pos: runKey(r, "bore"), Severity: graph.Error,
		Message: graph.Say("of the old pipe of %q, which new work is cemented to, the %s said: 0 sockets are made by that, needs 1 by its spec and size", r.Said(), said),
		Hint:    "measure its outside, and write its spec and size; where it is no plastic pipe, such as copper, nothing is cemented to it: " + changes,
	}
	outside := cmp.Or(r.MeasuredOutsideMM, v.c.Pipe.MeasuredOutsideMM)
	switch near := tables.ByOutside(v.set.Catalog(), outside, tables.CalliperMM); {
	case outside == 0:
	case len(near) == 0:
		d.Message += graph.Say("; it measures %s outside, as no pipe in the catalogue does", quantity.Length.Finely(outside))
		d.Hint = "measure again, on clean round pipe, in two directions; where that is what it has nothing is cemented to it: " + changes
	case !near[0].Pressure:
		d.Message += graph.Say("; it measures %s outside, which is %s", quantity.Length.Finely(outside), near[0].Pipe)
		d.Hint = wastePipe
	default:
		d.Hint = graph.Say("%s outside is %s: read its print, and write spec = \"%s\" and size = \"%s\" where it says so; copper of nearly that size is none", quantity.Length.Finely(outside), near[0].Pipe, near[0].Spec, near[0].Size)
	}
	report(false, d)
}

func bypassServiceable(in *Input, report Report) {
	v := in.ask()
	told := map[string]bool{}
	for _, b := range v.branches {
		for _, p := range b.BypassParts {
			if p.Kind != graph.CheckValve || told[p.ID] || CheckIsolated(b.UnitBranch, p) {
				continue
			}
			below, ok := in.Layout.Below(p)
			if !ok || below <= 0 {
				continue
			}
			told[p.ID] = true
			d := graph.Diagnostic{
				Pos: p.Pos, Severity: graph.Warning, Related: []graph.Related{here(b.Unit)},
				Message: graph.Say("check %q lies %s below the water and 0 hand valves on both sides of it shut it off; opened there it empties the tub; it needs 2", p.ID, v.length(below)),
				Hint:    "a hand valve before and after it inside the bypass, or a place above the water; else it is only opened with the tub emptied below it, and its tag says so",
			}
			if valve, other := oneSide(b.UnitBranch, p); valve != nil {
				d.Message = graph.Say("check %q lies %s below the water and %q alone shuts it off, on one side; opened there it empties the tub from the other; it needs a hand valve on both", p.ID, v.length(below), valve.ID)
				d.Hint = graph.Say("a hand valve %s it too inside the bypass, or a place above the water; else it is only opened with the tub emptied below it, and its tag says so", other)
			}
			report(p.Existing, d)
		}
	}
}
