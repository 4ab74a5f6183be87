package rule

import (
	"fmt"
	"math"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
)

// joinRules say what can be glued to what.
func joinRules() []*Rule {
	return []*Rule{
		{
			Name:     "measured-diameter-fits-spec",
			Anywhere: true,
			Asks:     "The outside diameter measured on the old pipe is that of the spec and size the description gives it.",
			Why:      "Inch and metric pipe look alike and differ by 1 to 3 mm: ordered by the wrong table, nothing fits. Thin waste pipe swells and bursts at pump pressure.",
			Source:   "ASTM D1785, EN ISO 1452-2 and EN 1329 outside diameters; 0.5 mm for the calliper and the pipe is judgement",
			Severity: graph.Error,
			Check:    measuredDiameter,
		},
		{
			Name:     "inch-metric-transition",
			Asks:     "Where inch and metric pipe meet, a transition of those two sizes is made. The layout puts it there; this rule speaks where there is none.",
			Why:      "Solvent cement fills only the finest gap; 48.3 mm pipe in a 50 mm socket leaves 1.7 mm.",
			Source:   "ASTM D1785 against EN ISO 1452-2 outside diameters",
			Severity: graph.Error,
			Needs:    NeedsLayout,
			Check:    inchMetricTransition,
		},
		{
			Name:     "socket-used-once",
			Asks:     "No new pipe is cemented into the socket of an old part from which old pipe is taken out.",
			Why:      "Cemented pipe does not come out of its socket: what it is in is cut out with a stub of it, and a new part goes in.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Needs:    NeedsLayout,
			Check:    socketUsedOnce,
		},
		{
			Name:     "hose-on-barbs",
			Asks:     "Hose ends on a barb that fits it and what it is joined to. The layout puts it there; this rule speaks where there is none.",
			Why:      "Hose can't be cemented into a socket.",
			Source:   "common practice, no source",
			Severity: graph.Error,
			Needs:    NeedsLayout,
			Check:    hoseOnBarbs,
		},
		{
			Name:     "one-solvent-family",
			Asks:     "The new solvent-welded work is all inch or all metric.",
			Why:      "Two families in one van mean two sets of fittings that look alike, and a leak where one was taken for the other.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Check:    oneSolventFamily,
		},
	}
}

func measuredDiameter(in *Input, report Report) {
	v := in.ask()
	def := v.c.Pipe
	if def.MeasuredOutsideMM > 0 {
		judgeDiameter(v, def.MeasuredOutsideMM, def.Spec, def.Size, "[pipe]", or(def.KeyPos["measured-outside-diameter"], def.Pos), report)
	}
	measured := def.MeasuredOutsideMM > 0
	for _, r := range v.c.Runs {
		if r.MeasuredOutsideMM > 0 {
			measured = true
			judgeDiameter(v, r.MeasuredOutsideMM, r.Spec, r.Size, fmt.Sprintf("run %q", r.Said()), runKey(r, "measured-outside-diameter"), report)
		}
	}
	if old := joinsOld(v); !measured && old != nil && !old.Spec.IsHose() && !byBoreAlone(old) {
		report(false, graph.Diagnostic{
			Pos: old.Pos, Severity: graph.Note,
			Message: graph.Say("new work joins old pipe (run %q, %s %s) whose outside diameter nobody measured: 0 readings, needs 1", old.ID, old.Spec, old.Size),
			Hint:    "measure it with a calliper before ordering and write measured-outside-diameter: it decides between inch and metric",
		})
	}
}

// joinsOld returns the first old run that meets a new part, or nil.
func joinsOld(v *view) *graph.Run {
	for _, r := range v.c.Runs {
		if r.New() {
			continue
		}
		for _, end := range []graph.PortRef{r.From, r.To} {
			if p := v.net.Part(end.Part); p != nil && p.New() && p.Kind != graph.Tub {
				return r
			}
		}
	}
	return nil
}

// wastePipe is what to do where the calliper says thin waste pipe.
const wastePipe = "find out where that pipe leads: nothing of pressure pipe fits it, and it must not carry the pump's pressure"

func judgeDiameter(v *view, got float64, spec catalog.Spec, size catalog.Size, what string, pos graph.Pos, report Report) {
	if spec.IsHose() {
		return
	}
	stated := v.set.PipeRow(spec, size)
	if stated.OutsideMM == 0 || math.Abs(got-stated.OutsideMM) <= tables.CalliperMM {
		return
	}
	d := graph.Diagnostic{
		Pos: pos, Severity: graph.Error,
		Message: graph.Say("%s measures %s outside; %s %s has %s", what, quantity.Length.Finely(got), spec, size, quantity.Length.Finely(stated.OutsideMM)),
	}
	near := tables.ByOutside(v.set.Catalog(), got, tables.CalliperMM)
	switch {
	case len(near) == 0:
		d.Message += "; no pipe in the catalogue has that"
		d.Hint = "measure again, on clean round pipe, in two directions"
	case !near[0].Pressure:
		d.Message += graph.Say(", and %s is %s, which is not allowed under pressure", quantity.Length.Finely(got), near[0].Pipe)
		d.Hint = wastePipe
	default:
		d.Message += graph.Say(", while %s is %s", quantity.Length.Finely(got), near[0].Pipe)
		d.Hint = "correct spec and size, or measure again"
	}
	report(false, d)
}

func oneSolventFamily(in *Input, report Report) {
	v := in.ask()
	first := map[catalog.Family]*graph.Run{}
	runs := map[catalog.Family]int{}
	for _, r := range v.c.Runs {
		f := r.Spec.Family()
		if !r.New() || v.net.IsAir(r) || (f != catalog.Inch && f != catalog.Metric) {
			continue
		}
		runs[f]++
		if first[f] == nil {
			first[f] = r
		}
	}
	inch, metric := first[catalog.Inch], first[catalog.Metric]
	if inch == nil || metric == nil {
		return
	}
	few, many := inch, metric
	if runs[catalog.Inch] > runs[catalog.Metric] {
		few, many = metric, inch
	}
	report(false, graph.Diagnostic{
		Pos: few.Pos, Severity: graph.Warning, Related: []graph.Related{hereRun(many)},
		Message: graph.Say("the new work has %s in inch and %s in metric pipe; it needs one family", quantity.Counted(runs[catalog.Inch], "run"), quantity.Counted(runs[catalog.Metric], "run")),
		Hint:    graph.Say("take the family of the pipe that is cut, and cross over once, at the unit's unions; %q is the first of the fewer", few.ID),
	})
}

func inchMetricTransition(in *Input, report Report) {
	noAdaptor(in, report, "transition", "go through a size of which a transition is made, or keep to one family up to the unit")
}

func hoseOnBarbs(in *Input, report Report) {
	noAdaptor(in, report, "barb", "take hose of a size for which there is a barb")
	pipeOntoTails(in, report)
}

// pipeOntoTails warns of pipe that ends where a part has tails for hose: nothing glues to them.
func pipeOntoTails(in *Input, report Report) {
	v := in.ask()
	for _, r := range v.c.Runs {
		set := v.run(r)
		if set == nil || v.net.IsAir(r) || r.Spec == "" || r.Spec.IsHose() {
			continue
		}
		for k := range set.Ends {
			e := &set.Ends[k]
			if e.Part == nil || e.Part.Kind == graph.Barb || e.Socket.Ends != "barb" {
				continue
			}
			report(!r.New(), graph.Diagnostic{
				Pos: runKey(r, "size"), Severity: graph.Warning, Related: []graph.Related{here(e.Part.Part)},
				Message: graph.Say("run %q is %s %s and ends at the tails of %s, which are for hose: 0 ways to glue it there, needs 1", r.Said(), r.Spec, r.Size, e.Ref),
				Hint:    graph.Say("give this run spec = \"hose\" and its size, in the plan that cutin --write-plan writes where the tool led it; or say in ends what %q really has: \"thread\", \"union\", \"socket\"", e.Ref.Part),
			})
		}
	}
}

// socketUsedOnce looks at the joints of new pipe on old parts, which old pipe that goes was joined to.
func socketUsedOnce(in *Input, report Report) {
	v := in.ask()
	if in.Before == nil {
		return
	}
	was := map[string]*graph.Run{} // what goes, by the port it ends at
	for _, r := range in.Before.Runs {
		if v.c.Run(r.ID) == nil && !r.Spec.IsHose() {
			was[r.From.String()], was[r.To.String()] = r, r
		}
	}
	for _, j := range in.Layout.Joints {
		r := v.c.Run(j.Run)
		if j.Kind != "cement" || r == nil || !r.New() {
			continue
		}
		for _, end := range []graph.PortRef{r.From, r.To} {
			p, old := v.c.Part(end.Part), was[end.String()]
			if p == nil || !p.Existing || old == nil || j.A != end.String() && j.B != end.String() {
				continue
			}
			d := graph.Diagnostic{
				Pos: r.Pos, Severity: graph.Warning, Related: []graph.Related{here(p), hereRun(old)},
				Message: graph.Say("run %q goes into the socket %q that the old pipe of run %q is cemented into: 1 pipe is in it, needs 0", r.Said(), end.String(), old.Said()),
				Hint:    graph.Say("%s %q goes out with a stub of that pipe, and a new one goes in: write removed = true on it and draw the new part with its pipe", p.Kind, p.ID),
			}
			if v.part(p).Opens() {
				d.Hint = graph.Say("a new one of the same make for %q: its tail takes the new pipe, and the old nut or the new one holds it; or cut the old pipe and leave a stub with a coupling on it", p.ID)
			}
			report(false, d)
		}
	}
}
