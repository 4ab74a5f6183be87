package takeoff

import (
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/route"
)

// UnitBranch is the name of the total of a unit's branch.
const UnitBranch = "unit's branch"

// totals returns the equivalent length of every run that water flows in (of every run with
// water where there is no pump), and of the unit's branch, by the handbook; and the sum of all runs. Where pipe leaves or enters the tub,
// that loss is among the fittings.
//
// A part that stands in line counts with the run by which the water comes to it, and a tee with the
// runs in which it divides or comes together (see common). The
// unit's branch is everything between its two tees, corners included, without the unit.
func (b *biller) totals() ([]Total, float64) {
	var out []Total
	sum := 0.0
	at := map[string]int{}
	net := b.lay.Stage.Net()
	still := len(b.lay.Circuit.Pumps()) == 0
	for i := range b.lay.Paths {
		path := &b.lay.Paths[i]
		if net.IsAir(path.Run) || !still && !net.Flows(path.Run) {
			continue
		}
		t := Total{Name: path.Run.ID, PipeM: path.LengthMM / 1000, FittingsM: b.fittingsLength(path)}
		at[t.Name] = len(out)
		out = append(out, t)
		sum += t.PipeM + t.FittingsM
	}
	branch, _ := b.lay.Stage.Branch()
	if branch == nil || branch.TeeIn == nil {
		return out, sum
	}
	total := Total{Name: UnitBranch}
	for _, runs := range [][]*graph.Run{branch.ToUnitRuns, branch.FromUnitRuns} {
		for _, r := range runs {
			if i, ok := at[r.ID]; ok {
				total.PipeM += out[i].PipeM
				total.FittingsM += out[i].FittingsM
			}
		}
	}
	return append(out, total), sum
}

func (b *biller) part(id string) *graph.Part { return b.lay.Circuit.Part(id) }

// fittingsLength is the equivalent length of a run's fittings and of the parts that count with it.
func (b *biller) fittingsLength(path *route.Path) float64 {
	sum := 0.0
	for k := range path.Fittings {
		f := &path.Fittings[k]
		sum += b.bores.ofFitting(path, f).times(float64(max(f.Count, 1))).lengthM
	}
	if path.Run.K > 0 {
		sum += fromK(path.Run.K, b.bores.ofRun(path)).lengthM
	}
	from, to := b.lay.Stage.Net().Ends(path.Run)
	for i, end := range []graph.PortRef{from, to} {
		p := b.part(end.Part)
		if p == nil {
			continue
		}
		fit := b.lay.Stage.Part(p.ID)
		through, corner := b.bores.asSet(p, fit)
		switch {
		case p.Kind == graph.Tub && path.LengthMM > 0 && (p.Loss == nil || !p.Loss.None):
			k := formula.Entrance
			if i == 1 {
				k = formula.Exit
			}
			sum += fromK(k, b.bores.ofRun(path)).lengthM
		case p.Kind == graph.Tee:
			switch all := b.common(p); {
			case end.Port == all:
			case end.Port == graph.Branch || all == graph.Branch:
				sum += corner.lengthM
			default:
				sum += through.lengthM
			}
		case i == 1:
			sum += through.lengthM
		}
	}
	return sum
}

// common is the port of a tee that all its water passes: nothing of the tee counts with the run there.
// The other ways in or out cost what it takes to turn into or out of that one. Where the water goes
// straight on past a run in which it stands, it is the way out.
func (b *biller) common(tee *graph.Part) string {
	net := b.lay.Stage.Net()
	still := len(b.lay.Circuit.Pumps()) == 0
	var in, out []string
	for _, r := range net.At(tee) {
		if net.IsAir(r) || !still && !net.Flows(r) {
			continue
		}
		from, to := net.Ends(r)
		if from.Part == tee.ID {
			out = append(out, from.Port)
		}
		if to.Part == tee.ID {
			in = append(in, to.Port)
		}
	}
	return oneOf(in, out)
}

// oneOf returns the only way out, or else the only way in; a tee that is the end of its runs alone, or
// the beginning of them, is passed from its run-in.
func oneOf(in, out []string) string {
	switch {
	case len(out) == 1:
		return out[0]
	case len(in) == 1:
		return in[0]
	}
	return graph.RunOut
}
