package tables

import (
	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph/agree"
	"math"
	"slices"
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

// The drop of a sand filter by the law of its bed (Ergun 1952, 150 and 1.75) with what goes by the square in series,
// between half its flow and the whole. Clean sand sold as 0.45 to 0.85 mm, a surface mean of 0.5 to 0.72, of sharp to
// round grains (sphericity 0.72 to 0.88) with voids of 0.38 to 0.45, 0.2 to 0.4 m of it, at the 25 to 50 m/h of a pool's
// filter and 20 to 36 °C; its multiport valve, diffuser and laterals 6 to 25 kPa at 45 m/h (common practice, no source).
// Each is even between its ends and taken at the middles of its thirds. Nine in ten of all combinations are to lie
// between the ends of the row, and fewer once those are drawn in by a tenth.
func TestSandByErgun(t *testing.T) {
	var bends []float64
	const thirds = 3
	for i := range 2187 { // 3^7
		of := func(low, high float64) float64 {
			v := low + (high-low)*(float64(i%thirds)+0.5)/thirds
			i /= thirds
			return v
		}
		grain, sphericity, voids := of(0.5e-3, 0.72e-3), of(0.72, 0.88), of(0.38, 0.45)
		deep, rate, mu := of(0.2, 0.4), of(25, 50), of(0.705e-3, 1.0e-3)
		square := math.Exp(of(math.Log(6e3), math.Log(25e3)))
		u, d, solid := rate/3600, grain*sphericity, 1-voids
		straight := 150 * mu * solid * solid / (voids * voids * voids * d * d) * u * deep
		bent := 1.75*996*solid/(voids*voids*voids*d)*u*u*deep + square*rate*rate/(45*45)
		bends = append(bends, math.Log2((straight+bent)/(straight/2+bent/4)))
	}
	slices.Sort(bends)
	e := ExponentOf("sand-filter", "filter")
	inside := func(low, high float64) int {
		n := 0
		for _, b := range bends {
			if b >= low && b <= high {
				n++
			}
		}
		return 100 * n / len(bends)
	}
	if n := inside(e.Low, e.High); n < 90 {
		t.Errorf("%d of 100 lie between %g and %g", n, e.Low, e.High)
	}
	if n := inside(e.Low+0.1, e.High-0.1); n > 90 {
		t.Errorf("%d of 100 lie between %g and %g: the row is too wide", n, e.Low+0.1, e.High-0.1)
	}
	if middle := bends[len(bends)/2]; !agree.Within(middle, e.Likely, 0.05) {
		t.Errorf("half bend less than %.3f, the row says %g", middle, e.Likely)
	}
}

// How much of its bore a ball bored through leaves open half turned, and a third and two thirds, is geometry: the part
// of the pipe's circle on the sphere that the turned bore covers. The water passes two such openings one behind the
// other, each a contraction to 0.62 + 0.38 a³ of it (Weisbach) and a sudden enlargement (Borda); of the first's the
// second gets some back. So K lies between that of one and of two: of balls 1.44 to 1.7 bores thick. The span of
// ball-kv is to reach over all of them and no further than twice or half the K beyond; its middle is to lie between
// one opening and two of a ball 1.56 bores thick (from memory: 40 mm bored 25, 63 bored 40, 80 bored 50).
func TestBallByItsOpenings(t *testing.T) {
	span := Spread(SpreadBallKv, "assumed")
	for _, open := range []float64{1. / 3, 0.5, 2. / 3} {
		table, _ := OpeningK("ball-valve", open, 0.06)
		at := func(share float64) float64 { return table / ((1 + share) * (1 + share)) } // K at a Kv so much more
		one := func(thick float64) float64 {
			a := ballLeaves(open, thick/2)
			c := 1/((0.62+0.38*a*a*a)*a) - 1
			return c * c
		}
		if least := one(1.44); at(span.High) > least || at(span.High) < least/4 {
			t.Errorf("%.2f open: the span ends at K %.1f, one opening of a thin ball costs %.1f", open, at(span.High), least)
		}
		if usual := one(1.56); at(span.Middle) < usual || at(span.Middle) > 2*usual {
			t.Errorf("%.2f open: the middle is K %.1f, openings of the usual ball cost %.1f to %.1f", open, at(span.Middle), usual, 2*usual)
		}
	}
}

// ballLeaves is the share of a bore of 1 that a ball of a radius leaves open, its handle so far from shut.
func ballLeaves(open, radius float64) float64 {
	const steps = 200
	sin, cos := math.Sincos(math.Pi / 2 * (1 - open))
	all, left := 0, 0
	for i := range steps {
		for j := range steps {
			y, z := (float64(i)+0.5)/steps-0.5, (float64(j)+0.5)/steps-0.5
			if y*y+z*z > 0.25 {
				continue
			}
			all++
			x := math.Sqrt(radius*radius - y*y - z*z)
			if v := y*cos - x*sin; x*cos+y*sin > 0 && v*v+z*z <= 0.25 {
				left++
			}
		}
	}
	return float64(left) / float64(all)
}

// A row of exponents that names neither a kind nor a style of the catalogue would bend nothing.
func TestExponentsAreOfSomething(t *testing.T) {
	for name := range exponents() {
		found := false
		for r := range catalog.Embedded().All() {
			found = found || r.Kind == name || r.Style == name
		}
		if !found {
			t.Errorf("%s is neither a kind nor a style", name)
		}
	}
}
