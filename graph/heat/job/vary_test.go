package job

import (
	"strings"
	"testing"

	"dryfit/graph"
)

// How many bathe and how cold the tap is move the year where nobody says them, and are no longer told where somebody
// does. By hand: a bather takes 2 kg by 28 K and 75 kg by 1 K, 0.138 kWh a time, 208 times a year 28.7 kWh of heat, so
// that one to four of them are some 86 kWh apart, a tenth to a half of that of electricity.
func TestBathersAndTapMoveTheYear(t *testing.T) {
	q := with(func(c *graph.Circuit) {
		c.Use.Bathers = graph.Amount{}
		c.Site.FillC = graph.Amount{}
	})
	moves := map[string]float64{}
	for _, a := range answer(q).Assumed {
		moves[a.What.String()] = a.MovesKWh
	}
	if b := moves["bathers each time"]; !(2*b > 8.6 && 2*b < 43) {
		t.Errorf("bathers move the year by %.1f kWh", b)
	}
	if tap := moves["temperature of the tap"]; !(tap < -1) {
		t.Errorf("a warmer tap moves the year by %.1f kWh", tap)
	}
	for _, a := range plain().Assumed {
		if w := a.What.String(); strings.Contains(w, "bathers") || strings.Contains(w, "tap") {
			t.Errorf("assumed though given: %s", w)
		}
	}
}
