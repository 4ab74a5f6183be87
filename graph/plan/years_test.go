package plan_test

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// Whole years against a second program: written in another language from the sources that the formulas name, with
// another equation for the pressure of the vapour (A. L. Buck, Journal of Applied Meteorology 20, 1981), in steps of
// six minutes and, heating up, of twenty seconds. kWh and money within a hundredth, hours of heating up too.
func TestYearsOfASecondProgram(t *testing.T) {
	for name, want := range map[string]struct {
		kWh, cost, today, upH float64 // today, upH: 0 where there is none
		first                 float64 // share of the first of two units
	}{
		"two-in-line":       {2066.7, 729.27, 4236.2, 9.339, 0.5065},
		"pool-in-the-south": {5055.7, 1634.73, 0, 33.494, 0},
		"twenty-below":      {2748.6, 921.03, 6280.3, 0, 0},
		"old-unit-replaced": {1901.6, 683.14, 2102.3, 10.156, 0},
		"one-set-lower":     {4249.3, 1303.35, 0, 0, 0.9965},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			r := likelyHeat(work(t, readFile(t, "testdata/years/"+name+".toml"), plan.Flows))
			if r.Year == nil || r.Year.Planned == nil {
				t.Fatal("no year")
			}
			got := r.Year.Planned
			if !agree.Within(got.KWh, want.kWh, 0.01*want.kWh) || !agree.Within(got.Cost, want.cost, 0.01*want.cost) {
				t.Errorf("%.1f kWh, %.2f; want %.1f, %.2f", got.KWh, got.Cost, want.kWh, want.cost)
			}
			if today := r.Year.Today; (today != nil) != (want.today > 0) || today != nil && !agree.Within(today.KWh, want.today, 0.01*want.today) {
				t.Errorf("today %+v, want %.1f kWh", today, want.today)
			}
			if up := r.HeatUp.Warmed; up.Reached != (want.upH > 0) || up.Reached && !agree.Within(up.Hours, want.upH, 0.01*want.upH) {
				t.Errorf("heating up takes %.3f h, want %.3f", up.Hours, want.upH)
			}
			if len(r.Unit.Each) > 0 && !agree.Within(r.Unit.Each[0].Share, want.first, 0.005) {
				t.Errorf("the first carries %.4f, want %.4f", r.Unit.Each[0].Share, want.first)
			}
		})
	}
}
