package twin

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"dryfit/graph"
	"dryfit/graph/lots"
)

// readFlow writes what a meter on the line shows before the work, as the depot's fitters read it: off by 4 %, of
// one in ten by twice that. What he writes it is good for is what its maker says: nine in ten within 6.6 %.
func (u *tub) readFlow(t *testing.T) {
	t.Helper()
	is := read(t, u.is.String())
	mode := is.AllModes()[0]
	s, ok := u.solveStage(t, is, mode, graph.Before)
	if !ok {
		return
	}
	off := 0.04 * u.d.cut()
	if u.d.in(0.1) {
		off *= 2
	}
	fmt.Fprintf(&u.survey, "[[reading]]\nat = \"pump\"\nmode = %q\nflow = \"%.3g m3/h\"\nplus-minus = \"6.6 %%\"\n", mode.Name, 3600*s.Part("pump").Flow*(1+off))
}

// readGauge writes what a gauge after the pump shows: off by 1.7 kPa and by 0.1 m of its height.
func (u *tub) readGauge(t *testing.T) {
	t.Helper()
	is := read(t, u.is.String())
	mode := is.AllModes()[0]
	m, s, ok := u.stage(t, is, mode, graph.Before)
	if !ok {
		return
	}
	pa, _, ok := m.Gauge(s, m.PartAt["pump"], "out")
	if !ok {
		t.Fatal("no water stands at the gauge")
	}
	pa += 1700*u.d.cut() + 974*u.d.cut()
	fmt.Fprintf(&u.survey, "[[reading]]\nat = \"pump.out\"\nmode = %q\npressure = \"%.3g kPa\"\nplus-minus = \"4 kPa\"\n", mode.Name, pa/1000)
}

// TestDepotsReadings reads the flow of each tub's pump today, the pressure after it, or both, and demands that the
// truth lies in the ranges as often as without.
func TestDepotsReadings(t *testing.T) {
	for wi, who := range []surveyor{depotCareful, depotHurried} {
		var by table
		for fi, f := range depot.families {
			for i := range max(*twins, lots.Count(6, 1)) {
				for what := range 4 {
					u := newTub(depot, f, levels[(i+fi)%len(levels)], who, uint64(9_000_000+100_000*wi+1000*fi+i))
					truth, ok := u.solve(t)
					if !ok {
						continue
					}
					if what&1 != 0 {
						u.readFlow(t)
					}
					if what&2 != 0 {
						u.readGauge(t)
					}
					r, c := u.ranges(t)
					for mode, a := range truth {
						for _, name := range []string{"unit", "pump", "bypass", "jets"} {
							v := a[name]
							if name != "jets" {
								v *= 3600
							}
							low, middle, high := valueOf(r.Of(mode, graph.After), c, name)
							by.at("%-7s %s, %s", name, []string{"nothing", "flow", "gauge", "both"}[what], who.name).add(low, middle, high, v)
							by.at("%-7s %s, %s, %s %s", name, []string{"nothing", "flow", "gauge", "both"}[what], who.name, f, mode).add(low, middle, high, v)
						}
					}
				}
			}
		}
		slices.Sort(by.keys)
		for _, k := range by.keys {
			y := by.of[k]
			t.Logf("%-70s %4d inside %3.0f, below %3.0f above %3.0f, width %.2f, middle %+.1f %%", k, y.n, y.cover(), 100*float64(y.below)/float64(y.n), 100*float64(y.above)/float64(y.n), median(y.width), 100*(math.Exp(median(y.bias))-1))
			if y.n < 10 {
				continue // of so few a share says nothing
			}
			if least := 85 - 200*math.Sqrt(0.85*0.15/float64(y.n)); !(y.cover() >= least) {
				t.Errorf("%s: %.0f of 100 inside, want %.0f", k, y.cover(), least)
			}
		}
	}
}
