package takeoff

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// turned writes every run the other way round, and calls each tee's run-in its run-out: the same
// circuit.
func turned(c *graph.Circuit) {
	other := map[string]string{graph.RunIn: graph.RunOut, graph.RunOut: graph.RunIn}
	for _, r := range c.Runs {
		r.From, r.To, r.Legs = r.To, r.From, graph.Reversed(r.Legs)
		for _, end := range []*graph.PortRef{&r.From, &r.To} {
			if name := other[end.Port]; name != "" && c.Part(end.Part).Kind == graph.Tee {
				end.Port = name
			}
		}
	}
}

// What a length is equivalent to is nobody's way of writing it down: a run from its end to its
// beginning, a tee from its other side.
func TestEquivalentLengthsHoweverWritten(t *testing.T) {
	for _, file := range []string{"plug-in", "circulation"} {
		answer := func(turn bool) ([]Total, []Equivalent) {
			c := demo(t, "../../testdata/"+file+".toml")
			if turn {
				turned(c)
			}
			var out []Equivalent
			lay := laying.Of(c.At(graph.After))
			for _, m := range c.AllModes() {
				sol, err := hydraulic.Solve(lay, m, graph.After)
				if err != nil {
					t.Fatal(err)
				}
				out = append(out, EquivalentAt(lay, sol))
			}
			return bill(t, c).Totals, out
		}
		totals, modes := answer(false)
		turnedTotals, turnedModes := answer(true)
		same := func(where string, a, b []Total) {
			if len(a) < 5 || len(a) != len(b) {
				t.Fatalf("%s, %s: %d lengths, turned %d", file, where, len(a), len(b))
			}
			for i := range a {
				if a[i].Name != b[i].Name || !near(a[i].PipeM, b[i].PipeM, 1e-9) || !near(a[i].FittingsM, b[i].FittingsM, 1e-3) {
					t.Errorf("%s, %s: %+v, turned %+v", file, where, a[i], b[i])
				}
			}
		}
		same("handbook", totals, turnedTotals)
		for i, m := range modes {
			same(fmt.Sprint("case ", i+1), m.Totals, turnedModes[i].Totals)
		}
	}
}

// Two ways from one tee to the other lose the same: what the lengths of their runs come to, with what
// the equipment in them loses. A tee that also counted with the run all its water passes would count twice
// in one of them.
func TestEquivalentLengthsOfTwoWaysAgree(t *testing.T) {
	c := demo(t, "../../testdata/plug-in.toml")
	lay := laying.Of(c.At(graph.After))
	sol, err := hydraulic.Solve(lay, c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	branch, _ := lay.Stage.Branch()
	totals := EquivalentAt(lay, sol).Totals
	head := func(runs ...*graph.Run) float64 { // Pa
		sum := 0.0
		for _, r := range runs {
			at := slices.IndexFunc(totals, func(x Total) bool { return x.Name == r.ID })
			f := sol.Run(r.ID)
			if at < 0 || totals[at].PipeM <= 0 {
				t.Fatalf("run %q has no water or no length", r.ID)
			}
			sum += (totals[at].PipeM + totals[at].FittingsM) * math.Abs(f.PipeDrop) / totals[at].PipeM
		}
		return sum
	}
	unit := head(slices.Concat(branch.ToUnitRuns, branch.FromUnitRuns)...) + sol.Part("unit").Drop
	past := head(branch.BypassRuns...)
	if len(branch.BypassRuns) < 2 || past < 100 || !near(unit, past, 1e-3*past) {
		t.Errorf("by the unit %.1f Pa are lost, past it %.1f Pa (%d runs)", unit, past, len(branch.BypassRuns))
	}
}
