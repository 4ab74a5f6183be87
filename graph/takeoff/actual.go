package takeoff

import (
	"math"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/route"
)

// Equivalent is what the fittings of a layout count for at the flows of one mode: the head a
// fitting loses over the head a metre of its run's pipe loses at that flow. It differs from
// the handbook's length, which holds at full turbulence in commercial pipe.
type Equivalent struct {
	Mode   string
	Stage  graph.Stage
	Totals []Total // every run with flow, then the unit's branch
	TotalM float64 // of all runs
}

// EquivalentAt returns the equivalent lengths at the flows of a solution. Parts count with
// runs as in a bill's totals: an in-line part with the run that leads to it, a tee through
// with the run at its run-in and round the corner with the run at its branch; equipment does
// not count. Runs without flow are left out. A tee that gives head back to one of its legs
// counts as less than nothing.
func EquivalentAt(lay *route.Layout, sol *hydraulic.Solution) Equivalent {
	out := Equivalent{Mode: sol.Mode.Name, Stage: sol.Stage}
	pa := sol.Water.Density * formula.Gravity
	at := map[string]int{}
	for i := range sol.Runs {
		r := &sol.Runs[i]
		metre := headPerMetre(r)
		if metre <= 0 {
			continue
		}
		head := (r.Drop - r.PipeDrop) * math.Copysign(1, r.Flow) / pa
		for k, end := range []graph.PortRef{r.Run.From, r.Run.To} {
			head += partHead(sol, end, k == 1) / pa
		}
		t := Total{Name: r.Run.ID, FittingsM: head / metre}
		if path := lay.Path(r.Run.ID); path != nil {
			t.PipeM = path.LengthMM / 1000
		}
		at[t.Name] = len(out.Totals)
		out.Totals = append(out.Totals, t)
		out.TotalM += t.PipeM + t.FittingsM
	}
	branch, _ := lay.Stage.Branch()
	if branch == nil || branch.TeeIn == nil {
		return out
	}
	total, found := Total{Name: UnitBranch}, false
	for _, runs := range [][]*graph.Run{branch.ToUnitRuns, branch.FromUnitRuns} {
		for _, r := range runs {
			if i, ok := at[r.ID]; ok {
				found = true
				total.PipeM += out.Totals[i].PipeM
				total.FittingsM += out.Totals[i].FittingsM
			}
		}
	}
	if found {
		out.Totals = append(out.Totals, total)
	}
	return out
}

// headPerMetre is what a metre of a run's pipe loses at its flow: f/D·v²/2g, m.
func headPerMetre(r *hydraulic.RunFlow) float64 {
	if r.BoreMM <= 0 || r.Flow == 0 {
		return 0
	}
	return r.Friction / (r.BoreMM / 1000) * r.Velocity * r.Velocity / (2 * formula.Gravity)
}

// partHead is the drop (Pa) of a part that counts with a run that ends at it.
func partHead(sol *hydraulic.Solution, end graph.PortRef, last bool) float64 {
	p := sol.Part(end.Part)
	if p == nil || isEquipment(p.Part.Kind) || p.Part.Kind.OnePort() {
		return 0
	}
	if p.Part.Kind != graph.Tee {
		if !last {
			return 0
		}
		return p.Drop * math.Copysign(1, p.Flow)
	}
	for _, leg := range p.Legs {
		if leg.Port != end.Port || end.Port == graph.RunOut {
			continue
		}
		if end.Port == graph.RunIn {
			return p.Drop * math.Copysign(1, leg.Flow)
		}
		if leg.Flow < 0 { // it leaves by the branch: from the run's inlet round the corner
			return inletDrop(p) - leg.Drop
		}
		return leg.Drop - outletDrop(p)
	}
	return 0
}

// inletDrop is the drop of the greatest flow into a tee, outletDrop of the greatest out of it.
func inletDrop(p *hydraulic.PartFlow) float64 {
	most, drop := 0.0, 0.0
	for _, l := range p.Legs {
		if l.Flow > most {
			most, drop = l.Flow, l.Drop
		}
	}
	return drop
}

func outletDrop(p *hydraulic.PartFlow) float64 {
	most, drop := 0.0, 0.0
	for _, l := range p.Legs {
		if -l.Flow > most {
			most, drop = -l.Flow, l.Drop
		}
	}
	return drop
}
