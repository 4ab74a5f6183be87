package spread

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// A barb by hand, on the bore of its hose: into a bore d of the hose's D and out again, half of what a sharp
// edge costs and Borda's enlargement, 0.5·(1-b)/b² + (1/b-1)² with b = (d/D)². Of d/D 0.9 that is 0.20, of
// 0.83 it is 0.53, of 0.78 it is 0.94: nine in ten barbs of a hose lie in 0.15 to 1, half of them below 0.55.
func TestBarbsAreWhereBordaHasThem(t *testing.T) {
	byHand := func(ratio float64) float64 {
		b := ratio * ratio
		return 0.5*(1-b)/(b*b) + (1/b-1)*(1/b-1)
	}
	for _, size := range []string{"1 in", "32 mm", "38 mm"} {
		m := modelOf(t, strings.NewReplacer("TYPE", "circulation-pump-24h", "WATTS", "100 W",
			`spec = "pvc-sch40"`, `spec = "hose"`, `"1-1/2 in"`, `"`+size+`"`).Replace(labelText))
		u := unknownOf(m, "K of new barbs")
		if u == nil {
			t.Fatalf("%s: its barbs are taken for sure", size)
		}
		found := false
		for i := range m.Runs {
			for _, f := range m.Runs[i].Fittings {
				if !f.Barb {
					continue
				}
				found = true
				if got, want := u.used.value.String(), fmt.Sprintf("K %.2g on the barb's own bore", f.K); got != want || f.BoreM >= m.Runs[i].BoreM {
					t.Errorf("%s: %s, want %s", size, got, want)
				}
				k := f.K * math.Pow(m.Runs[i].BoreM/f.BoreM, 4)
				low, middle, high := k*(1+u.span.Low), k*(1+u.span.Middle), k*(1+u.span.High)
				if !(low > 0.15 && low < byHand(0.87) && middle > byHand(0.9) && middle < byHand(0.82) && high > byHand(0.82) && high < byHand(0.76)) {
					t.Errorf("%s: K %.2f, %.2f, %.2f on the hose", size, low, middle, high)
				}
			}
		}
		if !found {
			t.Errorf("%s: hose without barbs", size)
		}
	}
}
