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
	Totals []Total // every run with flow, then the unit's branch
	TotalM float64 // of all runs
}

// EquivalentAt returns the equivalent lengths at the flows of a solution. Parts count with
// runs as in a bill's totals: an in-line part with the run by which the water comes to it, a tee with
// the runs in which it divides or comes together; equipment does not count. Runs without flow are left out. A tee that gives head back to one of its legs
// counts as less than nothing.
func EquivalentAt(lay *route.Layout, sol *hydraulic.Solution) Equivalent {
	var out Equivalent
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
			head += partHead(sol, end, (k == 1) == (r.Flow > 0)) / pa
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

// partHead is the drop (Pa) of a part that counts with a run at the end of which it stands; comes: the
// water comes to it by that run.
func partHead(sol *hydraulic.Solution, end graph.PortRef, comes bool) float64 {
	p := sol.Part(end.Part)
	if p == nil || isEquipment(p.Part.Kind) || p.Part.Kind.OnePort() {
		return 0
	}
	if p.Part.Kind == graph.Tee {
		return teeHead(p, end.Port)
	}
	if !comes {
		return 0
	}
	return p.Drop * math.Copysign(1, p.Flow)
}

// stands is the share of a tee's greatest flow below which the water of one of its runs stands: what is
// left of the solver's iteration, which ends far below.
const stands = 1e-6

// teeHead is the drop (Pa) between one port of a tee and that which all its water passes; of that one 0.
func teeHead(p *hydraulic.PartFlow, port string) float64 {
	most := 0.0
	for _, l := range p.Legs {
		most = max(most, math.Abs(l.Flow))
	}
	var in, out []string
	drop, flow := map[string]float64{}, 0.0
	for _, l := range p.Legs {
		drop[l.Port] = l.Drop
		if l.Port == port {
			flow = l.Flow
		}
		switch {
		case l.Flow > stands*most:
			in = append(in, l.Port)
		case l.Flow < -stands*most:
			out = append(out, l.Port)
		}
	}
	return (drop[port] - drop[oneOf(in, out)]) * math.Copysign(1, flow)
}
