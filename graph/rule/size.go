package rule

import (
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
)

// sizeRules say how wide the pipes are.
func sizeRules() []*Rule {
	return []*Rule{
		{
			Name:     "branch-not-below-ports",
			Asks:     "The unit's two pipes are never smaller than its ports.",
			Why:      "The unit's loss was measured on pipe of its ports' size; smaller pipe takes the little head that low speed has.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Check:    branchNotBelowPorts,
		},
		{
			Name:     "line-not-narrowed",
			Asks:     "The line through the tees and the bypass are never smaller than the pipe that is cut.",
			Why:      "At high speed nearly all the water goes through them: a size less costs the jets two to three times the loss.",
			Source:   "common practice, no source; the loss follows from Darcy-Weisbach, about the fifth power of the bore",
			Severity: graph.Error,
			Check:    lineNotNarrowed,
		},
	}
}

func branchNotBelowPorts(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		var thin []narrow // by the key that makes them so
		for _, s := range b.sides() {
			ports := v.set.PortSize(b.Unit, s.port)
			if s.tee == nil || ports.IsZero() {
				continue
			}
			for _, r := range s.runs {
				if !catalog.Narrower(catalog.NominalInch(r.Spec, r.Size), catalog.NominalInch("", ports)) {
					continue
				}
				at := slices.IndexFunc(thin, func(n narrow) bool { return n.pos == runKey(r, "size") && n.run.Size == r.Size && n.ports == ports })
				if at >= 0 {
					thin[at].more++
					continue
				}
				thin = append(thin, narrow{run: r, pos: runKey(r, "size"), side: s.name, ports: ports})
			}
		}
		for _, n := range thin {
			d := graph.Diagnostic{
				Pos: n.pos, Severity: graph.Error, Unit: b.Unit.ID, Related: []graph.Related{here(b.Unit)},
				Message: graph.Say("run %q, on the way %s %q, is %s; it needs %s, the size of the unit's ports", n.run.Said(), n.side, b.Unit.ID, n.run.Size, n.ports),
				Hint:    "take the ports' size or the next one up all the way between the tees and the unit",
			}
			if n.more > 0 {
				d.Message = graph.Say("the pipe between the tees and %q is %s; it needs %s, the size of the unit's ports", b.Unit.ID, n.run.Size, n.ports)
			}
			report(!n.run.New(), d)
		}
	}
}

// narrow is pipe of the unit that is narrower than its ports, and how many more runs are so for the
// same key.
type narrow struct {
	run   *graph.Run
	pos   graph.Pos
	side  string
	ports catalog.Size
	more  int
}

func lineNotNarrowed(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		if b.problem != "" {
			continue
		}
		cut := cutPipe(b)
		if cut == nil {
			continue
		}
		need := catalog.NominalInch(cut.Spec, cut.Size)
		for _, r := range slices.Concat(newBefore(b), b.BypassRuns) {
			if !catalog.Narrower(catalog.NominalInch(r.Spec, r.Size), need) {
				continue
			}
			report(!r.New(), graph.Diagnostic{
				Pos: runKey(r, "size"), Severity: graph.Error, Unit: b.Unit.ID, Related: []graph.Related{hereRun(cut), here(b.Unit)},
				Message: graph.Say("run %q between the tees of %q is %s; it needs %s, as the pipe that is cut (%q)", r.Said(), b.Unit.ID, r.Size, cut.Size, cut.Said()),
				Hint:    "keep the line's size through both tees and the bypass; only the branch to the unit may be smaller",
			})
		}
		for _, p := range slices.Concat([]*graph.Part{b.TeeIn, b.TeeOut}, b.BypassParts) {
			if p.Size.IsZero() || !catalog.Narrower(catalog.NominalInch(p.Spec, p.Size), need) {
				continue
			}
			report(p.Existing, graph.Diagnostic{
				Pos: key(p, "size"), Severity: graph.Error, Unit: b.Unit.ID, Related: []graph.Related{hereRun(cut), here(b.Unit)},
				Message: graph.Say("%s %q in the line past %q is %s; it needs %s, as the pipe that is cut (%q)", p.Kind, p.ID, b.Unit.ID, p.Size, cut.Size, cut.Said()),
				Hint:    "take the line's size, or a size larger",
			})
		}
	}
}

// cutPipe returns the pipe the tees were cut into: the nearest old run of the main line
// before the first tee, or after the second; where nothing is old the run at the first tee.
func cutPipe(b branch) *graph.Run {
	in, out := -1, -1
	for i, p := range b.Line.Parts {
		if p == b.TeeIn && in < 0 {
			in = i
		}
		if p == b.TeeOut {
			out = i
		}
	}
	if in < 1 || out < 0 {
		return nil
	}
	for _, list := range [][]*graph.Run{reversed(b.Line.Runs[:in]), b.Line.Runs[out:]} {
		for _, r := range list {
			if !r.New() && len(r.Legs)+int(math.Ceil(r.LengthMM)) > 0 {
				return r
			}
		}
	}
	return b.Line.Runs[in-1]
}

// newBefore returns the new runs of the main line that lead up to the first tee and on from
// the second: the pieces that join the tees to the old pipe.
func newBefore(b branch) []*graph.Run {
	var out []*graph.Run
	for i, p := range b.Line.Parts {
		if p == b.TeeIn {
			for k := i - 1; k >= 0 && b.Line.Runs[k].New(); k-- {
				out = append(out, b.Line.Runs[k])
			}
		}
		if p == b.TeeOut {
			for k := i; k < len(b.Line.Runs) && b.Line.Runs[k].New(); k++ {
				out = append(out, b.Line.Runs[k])
			}
		}
	}
	return out
}

func reversed(runs []*graph.Run) []*graph.Run {
	out := slices.Clone(runs)
	slices.Reverse(out)
	return out
}
