package laws

import (
	"math"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/network"
)

// Slopes of every law against differences of its own heads.
func TestSlopes(t *testing.T) {
	table, _ := NewLossTable([]float64{1e-3, 2e-3, 4e-3}, []float64{0.1, 0.5, 1.2})
	curve, err := NewPumpCurve([]float64{0.5e-3, 2e-3, 4e-3, 6e-3}, []float64{9, 9.5, 7, 2})
	if err != nil {
		t.Fatal(err)
	}
	run := NewRunLaw(10, 0.04, 2e-6, 7e-7)
	run.Ahead, run.Aback = 1e5, 3e5
	for name, law := range map[string]network.Law{
		"run": run, "square": &PartLaw{Square: 1e5, Times: 2}, "table": &PartLaw{Table: table, Times: 3}, "wide table": &PartLaw{Table: table, Times: 3, Wide: 1.3},
		"power": PowerLaw(2e-3, 1.5, 1.4), "wide power": &PartLaw{Square: 1e5, Exponent: 1.6, Ref: 1e-3, Times: 2, Wide: 0.7}, "wide square": &PartLaw{Square: 1e5, Times: 2, Wide: 1.4},
		"swing": &CheckLaw{Open: PartLaw{Square: 1e5, Times: 1}, Hold: 1e-3},
		"check": &CheckLaw{Cracking: 1, Open: PartLaw{Square: 1e5, Times: 1}}, "pump": &PumpLaw{curve, 1.1, 0.9},
		"highest": (*HighestPump)(&RisingPump{PumpLaw{curve, 1, 1}}), "lowest": (*LowestPump)(&RisingPump{PumpLaw{curve, 1, 1}}),
	} {
		for q := 1.3e-5; q < 8e-3; q *= 1.13 {
			_, slope := law.Loss(q)
			a, _ := law.Loss(q * (1 - 1e-7))
			b, _ := law.Loss(q * (1 + 1e-7))
			if want := (b - a) / (2e-7 * q); !agree.Within(slope, want, 1e-4*math.Abs(want)+1e-2) {
				t.Errorf("%s: slope at %g = %g, want %g", name, q, slope, want)
			}
		}
	}
}

// A table gives its points back; from the last on a square law; below the first the first line of
// logarithmic paper goes on, from 1 to 2 steep: this sheet's is 2.3, so a square law.
func TestLossTable(t *testing.T) {
	table, falls := NewLossTable([]float64{0, 1e-3, 2e-3, 4e-3}, []float64{0, 0.1, 0.5, 0.4})
	if !falls {
		t.Error("0.5 m, then 0.4: falls must say so")
	}
	for _, c := range []struct{ q, want float64 }{
		{0.5e-3, 0.025}, {1e-3, 0.1}, {2e-3, 0.5}, {3e-3, 0.5}, {4e-3, 0.5}, {8e-3, 2},
		{math.Sqrt2 * 1e-3, math.Sqrt(0.1 * 0.5)}, // half way on logarithmic paper
	} {
		if got, _ := table.At(c.q); !agree.Within(got, c.want, 1e-12) {
			t.Errorf("at %g: %g, want %g", c.q, got, c.want)
		}
	}
}

// Of the loss of a bed of sand 20 kPa at 10 m³/h and 36 at 15 are given: exponent ln 1.8 / ln 1.5 =
// 1.4497, so 20 / 2^1.4497 = 7.322 at 5 m³/h, by hand. A line flatter than a straight one is none of a
// loss from nothing; a table of one point is a square law.
func TestLossTableBelowItsFirstPoint(t *testing.T) {
	for _, c := range []struct {
		q, h            []float64
		at, want, slope float64
	}{
		{[]float64{10, 15}, []float64{20, 36}, 5, 7.322, 1.4497 * 7.322 / 5},
		{[]float64{10, 15}, []float64{20, 36}, 0, 0, 0},
		{[]float64{10, 15}, []float64{20, 24}, 5, 10, 2},
		{[]float64{10}, []float64{20}, 5, 5, 2},
	} {
		table, _ := NewLossTable(c.q, c.h)
		if h, slope := table.At(c.at); !agree.Within(h, c.want, 1e-3) || !agree.Within(slope, c.slope, 1e-3) {
			t.Errorf("%v %v at %g: %g, slope %g; want %g, %g", c.q, c.h, c.at, h, slope, c.want, c.slope)
		}
	}
}

// The flow of the most water power of a parabola, head 9 (1 - (q/6)²): 6/√3, with two thirds of
// the shut-off head (the derivative of q times head by hand), to a hundredth of the last flow.
func TestBestOfAParabola(t *testing.T) {
	var q, h []float64
	for i := range 25 {
		x := float64(i) / 4
		q, h = append(q, x), append(h, 9*(1-x*x/36))
	}
	c, err := NewPumpCurve(q, h)
	if err != nil {
		t.Fatal(err)
	}
	if flow, head := c.Best(); !agree.Within(flow, 6/math.Sqrt(3), 0.06) || !agree.Within(head, 6, 0.2) {
		t.Errorf("best at %g with %g", flow, head)
	}
}

// Before its first point a curve is a parabola that starts level: from (2, 9), slope -1 per
// unit there, head at no flow 9 + 1·2/2 = 10.
func TestCurveStart(t *testing.T) {
	c, err := NewPumpCurve([]float64{2, 3}, []float64{9, 8})
	if err != nil {
		t.Fatal(err)
	}
	if c.ShutOff() != 10 {
		t.Errorf("ShutOff = %g, want 10", c.ShutOff())
	}
	if h, s := c.Head(1); h != 9.75 || s != -0.5 {
		t.Errorf("Head(1) = %g, %g, want 9.75, -0.5", h, s)
	}
	for _, bad := range [][2][]float64{{{0}, {1}}, {{0, 0}, {2, 1}}, {{1, 0.5}, {2, 1}}, {{0, math.NaN()}, {2, 1}}, {{0, 1}, {math.Inf(1), 1}}} {
		if _, err := NewPumpCurve(bad[0], bad[1]); err == nil {
			t.Errorf("%v was taken", bad)
		}
	}
	half := c.of(0.5, 0.25)
	if h, _ := half.Head(0.5); half.Last() != 1.5 || h != 9.75/4 {
		t.Errorf("at half speed: last %g, head %g", half.Last(), h)
	}
}

// A tee's losses have no jump wherever its flows turn round, and its slopes are those of its
// heads along flows that add up to nothing.
func TestTeeLaw(t *testing.T) {
	for _, branch := range []float64{0.0525, 0.0409, 0.03, 0.02} {
		l := NewTeeLaw(0.0525, branch)
		at := func(angle float64) [3]float64 { // all splits of flow are met on the way round
			a, b := math.Cos(angle), math.Cos(angle+2*math.Pi/3)
			return [3]float64{4e-3 * a, 4e-3 * b, -4e-3 * (a + b)}
		}
		most := 0.0
		for i := range 3600 {
			h, _ := l.Loss(at(float64(i) * math.Pi / 1800))
			most = max(most, math.Abs(h[0]), math.Abs(h[1]), math.Abs(h[2]))
		}
		const step = 1e-6
		for i := range 20000 {
			angle := (float64(i) + 0.37) * 2 * math.Pi / 20000
			q, next := at(angle), at(angle+step)
			h, slope := l.Loss(q)
			g, _ := l.Loss(next)
			for leg := range 3 {
				jump := g[leg] - h[leg]
				if !agree.Within(jump, 0, 1e-3*most) {
					t.Fatalf("branch %g: leg %d jumps by %g m of %g at %v", branch, leg, jump, most, q)
				}
				want := 0.0
				for k := range 3 {
					want += slope[leg][k] * (next[k] - q[k])
				}
				if !agree.Within(jump, want, 1e-4*math.Abs(jump)+2e-5*most*step*50) && !nearKink(q) {
					t.Errorf("branch %g: leg %d at %v: change %g, by its slopes %g", branch, leg, q, jump, want)
				}
			}
		}
	}
}

// nearKink reports splits at which a formula passes from one piece to the next.
func nearKink(q [3]float64) bool {
	all := max(math.Abs(q[0]), math.Abs(q[1]), math.Abs(q[2]))
	r := math.Abs(q[2]) / all
	s := min(math.Abs(q[0]), math.Abs(q[1])) / all
	for _, k := range []float64{0, BranchBlend, 0.3888888889, 0.5, 1} {
		if math.Abs(r-k) < 1e-5 {
			return true
		}
	}
	return s < 1e-5 || math.Abs(s-RunBlend) < 1e-5 || math.Abs(math.Abs(q[0])-math.Abs(q[1])) < 1e-5*all
}

// The legs' K are the handbook's: half the flow turned off, all of it, and none.
func TestTeeLegs(t *testing.T) {
	l := NewTeeLaw(0.05, 0.05)
	v := l.Run * 16e-6 // velocity head of 4e-3 m³/s
	for _, c := range []struct {
		q             [3]float64
		run0, run1, b float64 // K lost from each leg to the middle
	}{
		{[3]float64{4e-3, -2e-3, -2e-3}, 0, 0, -1.156},
		{[3]float64{4e-3, 0, -4e-3}, 0, -0.3, -1.69},
		{[3]float64{4e-3, -4e-3, 0}, 0, 0, -1},
		{[3]float64{2e-3, -4e-3, 2e-3}, 0.525, 0, 0.4125},
		{[3]float64{0, -4e-3, 4e-3}, 0.55, 0, 1.1},
		{[3]float64{-2e-3, 4e-3, -2e-3}, 0, 0, -1.156},
	} { // Source: Crane TP-410, 2009, table in formula/testdata/tees.csv
		h, _ := l.Loss(c.q)
		for i, want := range []float64{c.run0, c.run1, c.b} {
			if got := h[i] / v; !agree.Within(got, want, 1e-3) {
				t.Errorf("%v leg %d: K %.4f, want %.4f", c.q, i, got, want)
			}
		}
	}
}

// Where the branch carries the whole flow and the lesser leg a twentieth of it or more, it costs the
// handbook's fixed K of a turn: 1.13 in 2 in (60·f_T, Crane TP-410 2009). With that leg at rest it is
// the 1.1 of its formula for all the flow by the branch, and half-way between them halves.
func TestTeeTurned(t *testing.T) {
	l := NewTeeLaw(0.0525, 0.0525)
	const turn, rest, all = 1.13, 1.1, 4e-3
	for _, c := range []struct{ share, want float64 }{
		{0, rest}, {0.025, (turn + rest) / 2}, {0.06, turn}, {0.5, turn},
	} {
		h, _ := l.Loss([3]float64{-all * (1 - c.share), -all * c.share, all})
		if k := h[2] / (l.Run * all * all); !agree.Within(k, c.want, 0.004) {
			t.Errorf("%g of the flow by the lesser leg: K %.4f of the branch, want %.4f", c.share, k, c.want)
		}
	}
}

// A sheet that says only the greatest head and the greatest flow is a parabola between them: half the
// flow at three quarters of the head, six tenths at 0.64 (by hand, within a hundredth of the head). A
// curve that says anything of what lies between, or ends above no head, is taken at its word.
func TestCurveOfTwoEnds(t *testing.T) {
	head := func(q, h []float64, at float64) float64 {
		c, err := NewPumpCurve(q, h)
		if err != nil {
			t.Fatal(err)
		}
		got, _ := c.Head(at)
		return got
	}
	for _, p := range [][2]float64{{0, 4}, {0.4, 4 * 0.96}, {1, 3}, {1.2, 2.56}, {1.8, 4 * 0.19}, {2, 0}} {
		if got := head([]float64{0, 2}, []float64{4, 0}, p[0]); !agree.Within(got, p[1], 0.04) {
			t.Errorf("at %g: %g, want %g", p[0], got, p[1])
		}
	}
	if got := head([]float64{0, 1, 2}, []float64{4, 2, 0}, 1.5); !agree.Within(got, 1, 1e-12) {
		t.Errorf("three points in a line: %g, want 1", got)
	}
	if got := head([]float64{0, 2}, []float64{4, 2}, 1); !agree.Within(got, 3, 1e-12) {
		t.Errorf("two points that end at a head: %g, want 3", got)
	}
}
