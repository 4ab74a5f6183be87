package heat

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

func (f figure) COP() float64 { return f.outputW / f.inputW }

// unitMap reads one maker's data book: output and input at 51 pairs of air and leaving water,
// without defrosts.
func unitMap(t *testing.T) map[[2]float64]Rating {
	t.Helper()
	f, err := os.Open("testdata/unit-map.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := map[[2]float64]Rating{}
	for _, row := range rows[1:] {
		var v [4]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		out[[2]float64{v[0], v[1]}] = Rating{AirC: v[0], WaterC: v[1], OutputW: v[2] * 1e3, InputW: v[3] * 1e3, Leaving: true, Frost: true}
	}
	return out
}

// A unit that knows some points of the map is asked for others. The differences wanted were
// worked out from the map elsewhere; the map itself is the check.
func TestUnitBetweenPoints(t *testing.T) {
	m := unitMap(t)
	grid := func(airs, waters []float64) []Rating {
		var out []Rating
		for _, a := range airs {
			for _, w := range waters {
				out = append(out, m[[2]float64{a, w}])
			}
		}
		return out
	}
	for _, c := range []struct {
		given       []Rating
		air, water  float64
		output, cop float64 // difference from the map, %
	}{
		{grid([]float64{-7, 15}, []float64{35, 45}), 2, 40, 0.8, 1.8},
		{grid([]float64{-7, 15}, []float64{35, 45}), 7, 40, 1.9, 3.4},
		{grid([]float64{-7, 15}, []float64{35, 45}), 12, 40, 1.4, 0.7},
		{grid([]float64{2, 20}, []float64{30, 50}), 7, 40, 2.5, 3.0},
		{grid([]float64{-7, 15}, []float64{40}), 7, 40, 2.3, 4.5},
	} {
		want := m[[2]float64{c.air, c.water}]
		got := newTable(c.given).at(c.air, c.water)
		if off := 100 * (got.outputW/want.OutputW - 1); !near(off, c.output, 0.1) {
			t.Errorf("air %g water %g: output %+.2f %% off the map, want %+.1f", c.air, c.water, off, c.output)
		}
		if off := 100 * (got.COP()/want.COP() - 1); !near(off, c.cop, 0.1) {
			t.Errorf("air %g water %g: COP %+.2f %% off the map, want %+.1f", c.air, c.water, off, c.cop)
		}
	}
	for _, c := range []struct {
		from [2]float64
		off  [5]float64 // COP at air -7, 2, 7, 12, 20 and water 40
	}{
		{[2]float64{7, 35}, [5]float64{11.6, 2.1, 1.2, -1.5, -2.4}},
		{[2]float64{20, 30}, [5]float64{6.0, -3.0, -3.8, -6.3, -7.2}},
	} {
		for i, air := range []float64{-7, 2, 7, 12, 20} {
			from := m[c.from]
			got := carried(&from, air, 40).COP()
			if off := 100 * (got/m[[2]float64{air, 40}].COP() - 1); !near(off, c.off[i], 0.15) {
				t.Errorf("from %v to air %g: COP %+.2f %% off the map, want %+.1f", c.from, air, off, c.off[i])
			}
		}
	}
}

// A unit of one pool rating, asked at a tub's 39 °C, lies inside the fan of three rulers:
// the map, the trade's rule of thumb, and the field regression of O. Ruhnau and others
// (Scientific Data 6:189, 2019) with its factor 0.85.
func TestUnitInsideTheFan(t *testing.T) {
	u := &Unit{Fluid: water38, Ratings: []Rating{{AirC: 15, WaterC: 26, OutputW: 9000, InputW: 9000 / 5.6, Frost: true}}}
	for _, c := range []struct{ air, low, high float64 }{{-7, 2.32, 2.59}, {2, 2.75, 3.31}, {7, 3.01, 3.68}, {15, 3.48, 4.57}} {
		got := u.At(Air{TempC: c.air, Humidity: 0.8}, 39, 0)
		if spread, _ := got.Basis.Spread(); !(got.COP() >= c.low*(1-spread/2) && got.COP() <= c.high*(1+spread/2)) {
			t.Errorf("air %g: COP %.2f, the rulers say %.2f to %.2f", c.air, got.COP(), c.low, c.high)
		}
	}
}

func TestUnitHeldAboveAndStopsBelow(t *testing.T) {
	u := &Unit{Fluid: water38, LeastAirC: -5, HasLeast: true, Ratings: []Rating{
		{AirC: 2, WaterC: 38, OutputW: 6000, InputW: 2000, Frost: true}, {AirC: 15, WaterC: 38, OutputW: 9000, InputW: 2100, Frost: true}}}
	if got := u.At(Air{TempC: 30}, 38, 0); got.OutputW != 9000 || got.InputW != 2100 {
		t.Errorf("above the last rated air: %+v, want it held", got)
	}
	if got := u.At(Air{TempC: -5.1}, 38, 0); got.OutputW != 0 || got.COP() != 0 {
		t.Errorf("below its least air: %+v", got)
	}
	// half the rated flow at a rise of 2.5 K: output 1.2 % and COP 5.5 % less by the slopes
	full, half := u.At(Air{TempC: 15}, 38, 0), u.At(Air{TempC: 15}, 38, 9000/(2.5*water38.perK())/2)
	if !near(half.OutputW/full.OutputW, 0.9875, 0.001) || !near(half.COP()/full.COP(), 0.945, 0.003) {
		t.Errorf("half flow: output × %.4f, COP × %.4f", half.OutputW/full.OutputW, half.COP()/full.COP())
	}
}

// DOE-2.1E's coil at 2 °C and 84 %: dw 0.00142, so the whole of the cut, worked by hand.
func TestFrost(t *testing.T) {
	if out, cop := Frost(2, 0.84); !near(out, 0.90, 0.001) || !near(cop, 0.95, 0.001) {
		t.Errorf("2 °C 84 %%: output × %.4f, COP × %.4f; want 0.90, 0.95", out, cop)
	}
	if out, cop := Frost(7, 1); out != 1 || cop != 1 {
		t.Errorf("7 °C: %g %g", out, cop)
	}
	// half way between where frost begins and two kelvin below: half of the cut; by hand
	if out, cop := Frost(6, 1); !near(out, 0.95, 0.001) || !near(cop, 0.975, 0.001) {
		t.Errorf("6 °C, saturated: output × %.4f, COP × %.4f; want 0.95, 0.975", out, cop)
	}
	if out, _ := Frost(-15, 0.3); out < 0.98 {
		t.Errorf("dry cold air: output × %g", out)
	}
}

// 1.2 m³, 8 kW, a band of 1 K: ten minutes on, at a loss of 396 W 210 off, by hand.
func TestMeetStarts(t *testing.T) {
	u := &Unit{StartJ: 90 * 2000}
	capacity := 1.2 * water38.perK()
	w := Working{OutputW: 8000, InputW: 2000}
	run := u.Meet(396, w, capacity)
	on, off := capacity/(8000-396), capacity/396
	starts := 3600 / (on + off)
	want := 2000*396/8000.0 + starts*90*2000/3600
	if !near(run.InputW, want, 1e-6) || !near(on/60, 10.9, 0.5) || !near(off/60, 210, 1) {
		t.Errorf("input %.3f W, want %.3f; on %.1f off %.1f min", run.InputW, want, on/60, off/60)
	}
	if run := u.Meet(9000, w, capacity); run.HeatW != 8000 || run.Share != 1 || !near(run.InputW, 2000, 1e-9) {
		t.Errorf("more than it can: %+v", run)
	}
	inv := &Unit{Inverter: true}
	if run := inv.Meet(4000, w, capacity); !near(run.InputW, 1000/1.08, 1e-9) || run.Share != 1 {
		t.Errorf("inverter at half load: %+v, want 8 %% less than 1000 W", run)
	}
}

// Closed forms: c 1200 kg × 4180, UA 15, air 5 °C, 10 to 38 °C.
func TestHeatUpTimes(t *testing.T) {
	const c, ua = 1200 * 4180.0, 15.0
	for _, x := range []struct{ power, want, tol float64 }{{9000, 4.48, 0.005}, {2000, 22.9, 0.05}, {500, 412.7, 0.05}} {
		if got := warmingHours(c, ua, x.power, 10, 38, 5); !near(got, x.want, x.tol) {
			t.Errorf("%g W: %.3f h, want %g", x.power, got, x.want)
		}
		w := Warming{Capacity: c, FromC: 10, ToC: 38, MostHours: 500,
			Power: func(_, _ float64) float64 { return x.power }, Loss: func(t, _ float64) float64 { return ua * (t - 5) }}.Run()
		if exact := warmingHours(c, ua, x.power, 10, 38, 5); !near(w.Hours, exact, 1e-6*exact) || !w.Reached {
			t.Errorf("%g W in steps: %.8f h, exact %.8f", x.power, w.Hours, exact)
		}
	}
	if !math.IsInf(warmingHours(c, ua, 450, 10, 38, 5), 1) {
		t.Error("450 W reaches 38 °C; it rests at 35 °C")
	}
	// without loss: 2000 l from 10 to 35 °C with 9 kW and 4186 J/(kg K), 6.46 h (a retailer's
	// guide); 1200 l by 28 K 4.34 h
	if got := warmingHours(2000*4186, 0, 9000, 10, 35, 0); !near(got, 6.46, 0.005) {
		t.Errorf("2000 l: %.4f h, want 6.46", got)
	}
	for name, x := range map[string]struct {
		power func(t, s float64) float64
		want  float64
	}{
		"falls with the water": {func(t, _ float64) float64 { return 9000 - 60*(t-10) }, 4.98375},
		"steps at 30 °C": {func(t, _ float64) float64 {
			if t < 30 {
				return 5000
			}
			return 7000
		}, 7.53581},
	} {
		w := Warming{Capacity: c, FromC: 10, ToC: 38, Power: x.power, Loss: func(t, _ float64) float64 { return ua * (t - 5) }}.Run()
		if !near(w.Hours, x.want, 1e-3) { // a minute's step that holds the jump is off by part of it
			t.Errorf("%s: %.5f h, want %.5f", name, w.Hours, x.want)
		}
	}
	day := func(s float64) float64 { return 5 + 6*math.Cos(2*math.Pi*(18+s/3600-15)/24) }
	w := Warming{Capacity: c, FromC: 10, ToC: 38, Power: func(_, s float64) float64 { return 5000 + 150*day(s) },
		Loss: func(t, s float64) float64 { return ua * (t - day(s)) }}.Run()
	if !near(w.Hours, 7.35870, 1e-5) {
		t.Errorf("air that swings: %.5f h, want 7.35870", w.Hours)
	}
	w = Warming{Capacity: c, FromC: 10, ToC: 38, Power: func(_, _ float64) float64 { return 9000 }, Loss: func(t, _ float64) float64 { return ua * (t - 5) }}.Run()
	if !near(w.HeatKWh, 40.297, 0.001) || !near(w.LostKWh, 1.284, 0.001) {
		t.Errorf("9 kW: %.4f kWh in, %.4f lost; want 40.297, 1.284", w.HeatKWh, w.LostKWh)
	}
}

// warmingHours returns the time [h] in which constant power warms a mass from one temperature
// to another in air of one temperature, in closed form; +Inf where it never does.
//
//	s = (C/UA) ln[(T - t0)/(T - t1)],   T = ta + P/UA
//
// Source: Newton's law of cooling.
func warmingHours(capacity, ua, powerW, fromC, toC, airC float64) float64 {
	if toC <= fromC {
		return 0
	}
	if ua <= 0 {
		return capacity * (toC - fromC) / math.Max(powerW, 0) / hourS
	}
	rest := airC + powerW/ua
	if rest <= toC {
		return math.Inf(1)
	}
	return capacity / ua * math.Log((rest-fromC)/(rest-toC)) / hourS
}
