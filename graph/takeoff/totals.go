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
// A part that stands in line counts with the run that leads to it. A tee counts through its
// run with the run at its run-in, and round its corner with the run at its branch. The
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
	for i, end := range []graph.PortRef{path.Run.From, path.Run.To} {
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
		case p.Kind == graph.Tee && end.Port == graph.Branch:
			sum += corner.lengthM
		case p.Kind == graph.Tee && end.Port == graph.RunIn:
			sum += through.lengthM
		case p.Kind != graph.Tee && i == 1:
			sum += through.lengthM
		}
	}
	return sum
}
