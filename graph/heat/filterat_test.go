package heat

import (
	"testing"

	"dryfit/graph/agree"
)

// However a pump's hours lie over the day they are as many as were set, and heat is made in no hour for longer
// than it may be and, where the pump runs by hours, than the pump runs.
func TestFilterHoursOverTheDay(t *testing.T) {
	for _, runs := range []PumpRuns{PumpHours, PumpOnCall} {
		for _, filter := range []float64{0, 1.5, 8, 13, 24} {
			for _, windows := range [][]Window{{{0, 24}}, {{22, 6}}, {{0.5, 4.5}, {12, 13}}} {
				p := Plant{Runs: runs, FilterH: filter, Heating: Shares(windows)}
				sum := 0.0
				for hour := range p.Heating {
					on, may := p.filterAt(hour)
					sum += on
					if may > p.Heating[hour]+1e-12 || on > 1+1e-12 || runs == PumpHours && may > on+1e-12 {
						t.Errorf("%s, %g h, %v, hour %d: on %g, may heat %g of %g", runs, filter, windows, hour, on, may, p.Heating[hour])
					}
				}
				if !agree.Within(sum, filter, 1e-9) {
					t.Errorf("%s, %v: %g h of %g", runs, windows, sum, filter)
				}
			}
		}
	}
}
