package twin

import (
	"math"

	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
)

// newTees has the two new tees of a tub lose what a law of their own says, where the solver has the handbook's: by
// a K that is added to a run of each of the ways between them, at the split that is found.
type newTees struct {
	unit, bypass string // runs
	law          teeLaw // nil: the handbook's
}

// teeLaw is K of branch and run on the velocity head of the whole flow, at a share q of the branch, of a branch of a
// share of the run's area.
type teeLaw interface {
	dividing(q, area float64) (branch, run float64)
	joining(q, area float64) (branch, run float64)
}

// gardel are tees by Gardel's formulas (1957, from memory).
type gardel struct {
	edge [2]float64 // radius of the edge, of the bore
}

func (g gardel) dividing(q, area float64) (branch, run float64) {
	r := g.edge[0]
	branch = 0.95*(1-q)*(1-q) + q*q*(1+(0.4-0.1*area)/(area*area))*(1-0.9*math.Sqrt(r/area)) + 0.4*q*(1-q)*(1+area)/area
	return branch, 0.03*(1-q)*(1-q) + 0.35*q*q - 0.2*q*(1-q)
}

func (g gardel) joining(q, area float64) (branch, run float64) {
	r := math.Sqrt(g.edge[1])
	mixed := (2 - area) * q * (1 - q)
	branch = -0.92*(1-q)*(1-q) + q*q*(1.2-r-0.8*(1-1/(area*area))) + mixed
	return branch, 0.03*(1-q)*(1-q) + q*q*(0.62-r+0.38*(1-area)) + mixed
}

// extra returns what is to be added to K of the two runs, each on its own bore, so that a solution with what was
// added so far has the losses of their law.
func (u *tub) extra(m *hydraulic.Model, s *hydraulic.Solution) map[string]float64 {
	g := u.newTees
	flows := map[string]float64{g.unit: math.Abs(s.Part("unit").Flow), g.bypass: math.Abs(s.Part("bypass").Flow)}
	all := flows[g.unit] + flows[g.bypass]
	q := flows[g.unit] / all
	head := map[string]float64{}
	for i, id := range []string{"t1", "t2"} {
		tee := m.Parts[m.PartAt[id]].Tee
		area := tee.Beta * tee.Beta
		sign, k := -1.0, g.law.dividing
		at := [3]float64{all, -flows[g.bypass], -flows[g.unit]}
		if i == 1 {
			sign, k = 1, g.law.joining
			at = [3]float64{flows[g.bypass], -all, flows[g.unit]}
		}
		has, _ := tee.Loss(at)
		small := 1 - i // the leg of the bypass
		branch, run := k(q, area)
		head[g.unit] += u.tee[id] * (branch*tee.Run*all*all - sign*has[2]/tee.Times)
		head[g.bypass] += u.tee[id] * (run*tee.Run*all*all - sign*has[small]/tee.Times)
	}
	out := map[string]float64{}
	for id, h := range head {
		if flow := flows[id]; flow > 1e-3*all {
			out[id] = h / (formula.HeadPerFlow2(m.Runs[m.RunAt[id]].BoreM) * flow * flow)
		}
	}
	return out
}
