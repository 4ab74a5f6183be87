package tables

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"math"
	"testing"
)

func TestByOutside(t *testing.T) {
	found := ByOutside(catalog.Embedded(), 60.3, CalliperMM)
	if len(found) < 3 || found[0].Size != (catalog.Size{Nominal: 2}) || !agree.Within(found[0].DifferenceMM, 0, 0.03) {
		t.Errorf("60.3 mm: %+v", found)
	}
	if found := ByOutside(catalog.Embedded(), 43, CalliperMM); len(found) != 1 || found[0].Pressure || found[0].Pipe != "waste pipe 1-1/2 in" {
		t.Errorf("43 mm: %+v", found)
	}
	if found := ByOutside(catalog.Embedded(), 56.5, 0.2); len(found) != 0 {
		t.Errorf("56.5 mm: %+v", found)
	}
}

// K of hand valves partly open on their bore. Ball (a cock in a round pipe) 10, 20, 40 and 60
// degrees from open 0.29, 1.56, 17.3, 206; gate a quarter, half and three quarters open 24,
// 4.5, 0.9; butterfly 0.52, 1.54, 10.8, 118. Source: a table that repeats Perry's Chemical
// Engineers' Handbook. A ball half open, between its points: 31 (handbooks, from memory).
func TestOpeningK(t *testing.T) {
	for kind, c := range map[string]struct {
		full   float64
		points [][2]float64
	}{
		"ball-valve":      {0.06, [][2]float64{{8. / 9, 0.29}, {7. / 9, 1.56}, {5. / 9, 17.3}, {3. / 9, 206}, {1, 0.06}}},
		"gate-valve":      {0.17, [][2]float64{{0.75, 0.9}, {0.5, 4.5}, {0.25, 24}, {1, 0.17}}},
		"butterfly-valve": {0.24, [][2]float64{{8. / 9, 0.52}, {7. / 9, 1.54}, {5. / 9, 10.8}, {3. / 9, 118}, {1, 0.24}}},
	} {
		last := math.Inf(1)
		for _, p := range c.points {
			got, source := OpeningK(kind, p[0], c.full)
			if !agree.Within(got/p[1], 1, 0.01) || source == "" {
				t.Errorf("%s %.2f open: K %g, want %g", kind, p[0], got, p[1])
			}
		}
		for share := 0.01; share <= 1; share += 0.01 {
			k, _ := OpeningK(kind, share, c.full)
			if !(k <= last) {
				t.Errorf("%s: K rises to %g as it opens to %.2f", kind, k, share)
			}
			last = k
		}
		if k, _ := OpeningK(kind, 0, c.full); !math.IsInf(k, 1) {
			t.Errorf("%s shut: K %g", kind, k)
		}
	}
	if k, _ := OpeningK("ball-valve", 0.5, 0.06); !agree.Within(k/31, 1, 0.05) {
		t.Errorf("ball half open: %g, want 31", k)
	}
	if k, _ := OpeningK("cap", 0.5, 1); k != 4 {
		t.Errorf("without a table: %g, want 4", k)
	}
}

// No valve loses more for being opened, also one whose loss fully open is above what the table
// has for a better valve a little shut: a butterfly by its L/D of 45 loses 0.85 at 2 in.
func TestOpeningNeverRaisesTheLoss(t *testing.T) {
	for _, kind := range []string{"ball-valve", "gate-valve", "butterfly-valve", "cap"} {
		for _, full := range []float64{0.01, 0.3, 0.85, 1.54, 3, 50, 500} {
			last := math.Inf(1)
			for i := 1; i <= 200; i++ {
				k, source := OpeningK(kind, float64(i)/200, full)
				if !(k <= last) || !(k >= full) || source == "" && i < 200 {
					t.Fatalf("%s, %g fully open: K %g at %d of 200, %g before", kind, full, k, i, last)
				}
				last = k
			}
			if !agree.Within(last, full, 1e-12) {
				t.Errorf("%s fully open: K %g, want %g", kind, last, full)
			}
		}
	}
}

func TestSpread(t *testing.T) {
	seen := map[string]float64{}
	for _, c := range Spreads() {
		if !(c.Low <= c.Middle && c.Middle <= c.High && c.Low > -1) || c.Source == "" {
			t.Errorf("%s, %s: %g, %g, %g, %q", c.What, c.Known, c.Low, c.Middle, c.High, c.Source)
		}
		width := c.High - c.Low
		if before, ok := seen[c.What]; ok && width < before-1e-12 { // in the file the best known stands first
			t.Errorf("%s is known worse than as %s", c.What, c.Known)
		}
		seen[c.What] = width
		if got := Spread(c.What, c.Known); got != c.Span {
			t.Errorf("%s, %s: %v", c.What, c.Known, got)
		}
	}
	if s := Spread(SpreadPumpHead, "data-sheet"); s != (Span{-0.14, -0.035, 0.06}) {
		t.Errorf("the head of a fitted pump with a sheet: %v", s)
	}
	defer func() {
		if recover() == nil {
			t.Error("an unknown class has a spread")
		}
	}()
	Spread("luck", "assumed")
}

// A diverter's way opens between a window, whose Kv goes with its turn, and a cock in a round pipe: with
// the K of 2 a diverter has fully open, the cock of Perry's table (10 to 60 degrees from open) passes by
// the power 1.2 to 2.1 of its turn, and the spread reaches from below 1 to 2.
func TestWaysOpenBetweenWindowAndCock(t *testing.T) {
	const full = 2
	span := Spread(SpreadWayOpening, "assumed")
	for _, c := range []struct{ degrees, k float64 }{{20, 1.56}, {40, 17.3}, {60, 206}} {
		open := 1 - c.degrees/90
		power := math.Log(math.Sqrt(full/(full+c.k))) / math.Log(open)
		if !(power > 1+span.Low && power < 1.1*(1+span.High)) {
			t.Errorf("%g degrees from open: the power is %.2f, the spread %.2f to %.2f", c.degrees, power, 1+span.Low, 1+span.High)
		}
	}
	if !(span.Low < 0 && span.Middle > 0) {
		t.Errorf("%+v", span)
	}
}

// A spacing is never said larger than the table has it: 1 1/2 in pipe at 38 °C is carried every 5 ft
// (support.csv), that of 37 °C lies between 5 ft and 5 ft 1 in.
func TestSpacingIsNotExceeded(t *testing.T) {
	for _, c := range []struct {
		mm         float64
		system     quantity.System
		said, unit float64
	}{{1524, quantity.InchSystem, 60, 25.4}, {1530.9, quantity.InchSystem, 60, 25.4}, {1549.4, quantity.InchSystem, 61, 25.4}, {1377, quantity.InchSystem, 54, 25.4}, {1520, quantity.InchSystem, 59, 25.4}, {1377, quantity.MetricSystem, 137, 10}, {1538, quantity.MetricSystem, 153, 10}, {1530, quantity.MetricSystem, 153, 10}} {
		if got := Apart(c.mm, c.system); !agree.Within(got, c.said*c.unit, 1e-6) {
			t.Errorf("%.1f mm is said as %.1f, want %.1f", c.mm, got, c.said*c.unit)
		}
	}
}
