package formula_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"dryfit/catalog"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/formula"
)

// rows reads a table of published values: by column name.
func rows(t *testing.T, file string) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, line := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = line[i]
		}
		if row["source"] == "" {
			t.Errorf("%s: no source for %v", file, line)
		}
		out = append(out, row)
	}
	if len(out) == 0 {
		t.Fatalf("%s is empty", file)
	}
	return out
}

func number(t *testing.T, row map[string]string, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return v
}

// near reports a value that misses by more than a relative tolerance.
func near(t *testing.T, what string, got, want, tolerance float64, source string) {
	t.Helper()
	if !agree.Within(got, want, tolerance*math.Abs(want)) {
		t.Errorf("%s = %.7g, want %.7g ± %.3g %% (%s)", what, got, want, 100*tolerance, source)
	}
}

func TestWater(t *testing.T) {
	for _, r := range rows(t, "water.csv") {
		c := number(t, r, "celsius")
		w := formula.NewWater(c)
		got := map[string]float64{
			"density": w.Density, "viscosity": 1e6 * w.Viscosity, "kinematic": 1e6 * w.Viscosity / w.Density,
			"cp": w.HeatCapacity, "vapour": w.VapourPa,
		}
		v, ok := got[r["property"]]
		if !ok {
			t.Fatalf("unknown property %q", r["property"])
		}
		near(t, r["property"]+" at "+r["celsius"]+" °C", v, number(t, r, "want"), number(t, r, "tolerance"), r["source"])
	}
}

// The heat water holds has no steps: between two points of the table it goes on from one to the other.
func TestHeatCapacityHasNoSteps(t *testing.T) {
	for c := 0.25; c < 44.7; c += 0.25 {
		before, at, after := formula.HeatCapacity(c-0.25), formula.HeatCapacity(c), formula.HeatCapacity(c+0.25)
		if !agree.Within(after-2*at+before, 0, 1) {
			t.Errorf("cp at %g, %g and %g °C: %.2f, %.2f, %.2f J/(kg K)", c-0.25, c, c+0.25, before, at, after)
		}
	}
}

func TestFriction(t *testing.T) {
	for _, r := range rows(t, "friction.csv") {
		pipe := formula.NewPipe(number(t, r, "relative"))
		got, _ := pipe.Friction(number(t, r, "reynolds"))
		near(t, "f("+r["reynolds"]+", "+r["relative"]+")", got, number(t, r, "want"), number(t, r, "tolerance"), r["source"])
	}
}

// The implicit equation itself, to the last digits.
func TestColebrookSolves(t *testing.T) {
	for _, rel := range []float64{0, 1e-6, 1e-4, 1e-2, 0.05} {
		for re := 2000.0; re < 1e9; re *= 1.7 {
			f, _ := formula.Colebrook(re, rel)
			x := 1 / math.Sqrt(f)
			if miss := x + 2*math.Log10(rel/3.7+2.51*x/re); !agree.Within(miss, 0, 1e-12*x) {
				t.Errorf("Colebrook(%g, %g) misses its equation by %g", re, rel, miss)
			}
		}
	}
}

// A pipe that is asked for one flow after another, near and far, gives the same equation's answers.
func TestPipeFollowsColebrook(t *testing.T) {
	for _, rel := range []float64{0, 1e-6, 1e-4, 1e-2, 0.05} {
		pipe, re := formula.NewPipe(rel), 5e3
		for k := range 400 {
			re *= []float64{1, 1 + 1e-7, 1.0003, 0.998, 1.02, 0.9, 1.4, 30, 1.0 / 45}[(k*k+k/7)%9]
			re = min(max(re, formula.TurbulentStart), 1e9)
			f, slope := pipe.Friction(re)
			x := 1 / math.Sqrt(f)
			if miss := x + 2*math.Log10(rel/3.7+2.51*x/re); !agree.Within(miss, 0, 1e-13*x) {
				t.Errorf("rel %g, Re %g: misses the equation by %g", rel, re, miss)
			}
			up, _ := formula.Colebrook(re*1.0001, rel)
			down, _ := formula.Colebrook(re*0.9999, rel)
			if want := (up - down) / (0.0002 * re); !agree.Within(slope, want, 1e-6*math.Abs(want)+1e-15) {
				t.Errorf("rel %g, Re %g: slope %g, by differences %g", rel, re, slope, want)
			}
		}
	}
}

// The drop rises with the flow all the way, also over the bridge, without a step.
func TestFrictionRises(t *testing.T) {
	for _, rel := range []float64{0, 3e-5, 1e-3, 0.05} {
		p := formula.NewPipe(rel)
		last := 0.0
		for re := 10.0; re < 1e5; re *= 1.001 {
			f, slope := p.Friction(re)
			if drop := f * re * re; drop <= last {
				t.Fatalf("the drop falls at Re %g, ε/D %g", re, rel)
			} else if last > 0 && drop > last*1.01 {
				t.Fatalf("the drop jumps at Re %g, ε/D %g", re, rel)
			} else {
				last = drop
			}
			a, _ := p.Friction(re * (1 - 1e-6))
			b, _ := p.Friction(re * (1 + 1e-6))
			bridge := math.Abs(re-2000) < 0.01 || math.Abs(re-4000) < 0.01
			if want := (b - a) / (2e-6 * re); !bridge && !agree.Within(slope, want, 1e-4*math.Abs(want)+1e-12) {
				t.Errorf("slope at Re %g = %g, want %g", re, slope, want)
			}
		}
	}
}

// L/D 340 of a globe valve: Crane TP-410, 2009.
var loverD = map[string]float64{
	"ft": 1, "elbow90": formula.LoverDElbow90, "elbow45": formula.LoverDElbow45, "teerun": formula.LoverDTeeRun,
	"teebranch": formula.LoverDTeeBranch, "gate": formula.LoverDGate, "ball": formula.LoverDBall, "globe": 340,
	"swing": formula.LoverDSwing, "butterfly": formula.LoverDButterfly,
}

func TestFittings(t *testing.T) {
	for _, r := range rows(t, "fittings.csv") {
		l, ok := loverD[r["item"]]
		if !ok {
			t.Fatalf("unknown item %q", r["item"])
		}
		got := formula.HandbookK(l, number(t, r, "bore_mm")/1000)
		near(t, r["item"]+" at "+r["bore_mm"]+" mm", got, number(t, r, "want"), number(t, r, "tolerance"), r["source"])
	}
}

var tees = map[string]func(q, beta float64) (float64, float64){
	"dividing-branch":  formula.TeeDividingBranch,
	"dividing-run":     formula.TeeDividingRun,
	"combining-branch": formula.TeeCombiningBranch,
	"combining-run":    func(q, _ float64) (float64, float64) { return formula.TeeCombiningRun(q) },
}

func TestTees(t *testing.T) {
	for _, r := range rows(t, "tees.csv") {
		k, _ := tees[r["law"]](number(t, r, "q"), number(t, r, "beta"))
		if want, tol := number(t, r, "want"), number(t, r, "tolerance"); !agree.Within(k, want, tol) {
			t.Errorf("%s at q %s = %.6f, want %g ± %g (%s)", r["law"], r["q"], k, want, tol, r["source"])
		}
	}
}

// Slopes against differences of the values themselves.
func TestTeeSlopes(t *testing.T) {
	for name, law := range tees {
		for _, beta := range []float64{0.5, 0.62, 0.78, 1} {
			for q := 0.013; q < 1; q += 0.017 {
				_, slope := law(q, beta)
				a, _ := law(q-1e-6, beta)
				b, _ := law(q+1e-6, beta)
				if want := (b - a) / 2e-6; !agree.Within(slope, want, 1e-5*(1+math.Abs(want))) {
					t.Errorf("%s(%g, %g) slope = %g, want %g", name, q, beta, slope, want)
				}
			}
		}
	}
}

func TestSections(t *testing.T) {
	for _, r := range rows(t, "sections.csv") {
		ratio := number(t, r, "ratio")
		k := formula.Expansion(ratio, 1)
		if r["change"] == "contraction" {
			k = formula.Contraction(ratio, 1)
		}
		if r["on"] == "large" {
			k /= math.Pow(ratio, 4)
		}
		near(t, r["change"]+" "+r["ratio"], k, number(t, r, "want"), number(t, r, "tolerance"), r["source"])
	}
	// 0.3 m³/s from 0.1 m² to 0.3 m²: 2/g m. Source: Encyclopaedia Britannica, 11th ed.
	bore := func(area float64) float64 { return math.Sqrt(4 * area / math.Pi) }
	h := formula.Expansion(bore(0.1), bore(0.3)) * formula.HeadPerFlow2(bore(0.1)) * 0.3 * 0.3
	near(t, "expansion 0.1 to 0.3 m²", h, 0.2039, 0.0005, "Encyclopaedia Britannica, 11th ed.")
	// 1800 l/min from 100 to 150 mm. Source: polytechnic text, example 5.1; head worked out from its velocities.
	h = formula.Expansion(0.1, 0.15) * formula.HeadPerFlow2(0.1) * 0.03 * 0.03
	near(t, "expansion 100 to 150 mm", h, 0.2295, 0.001, "polytechnic text, example 5.1")
}

func TestKv(t *testing.T) {
	for _, r := range rows(t, "kv.csv") {
		got := formula.KvToK(number(t, r, "kv"), number(t, r, "bore_mm")/1000)
		near(t, "K of Kv "+r["kv"], got, number(t, r, "want"), number(t, r, "tolerance"), r["source"])
	}
	// Kv is the flow at 1 bar, and 1 bar is 10.197 m of water of 1000 kg/m³ (IEC 60534-1).
	near(t, "head at Kv", formula.KvHead(25)*math.Pow(25.0/3600, 2), 10.1972, 1e-5, "IEC 60534-1")
	near(t, "Kv of Cv 1", formula.CvToKv, 0.86498, 1e-5, "exact from units")
	// K = 891 d⁴/Cv² with d in inches, 890.4 for water of 60 °F, which is 0.1 % lighter than
	// the water Kv is defined by. Source: Crane TP-410, 2009.
	near(t, "K of Cv", formula.KvToK(formula.CvToKv*10, 2*0.0254), 891*16.0/100, 2e-3, "Crane TP-410")
}

func TestAffinity(t *testing.T) {
	// Crane TP-410, 2009, example 7.33: 400 gpm, 126 ft, 17.5 hp at 3500 rpm, to 1700 rpm.
	q, h, p := formula.Affinity(1700.0/3500, 400, 126, 17.5)
	near(t, "flow", q, 194.3, 3e-4, "Crane TP-410 7.33")
	near(t, "head", h, 29.73, 3e-4, "Crane TP-410 7.33")
	near(t, "power", p, 2.005, 3e-4, "Crane TP-410 7.33")
}

func TestPower(t *testing.T) {
	// Crane TP-410, 2009, example 7.34: 700 gpm, 428 ft, 62.364 lb/ft³, 0.707 · 0.95 · 0.96.
	w := formula.HydraulicPower(62.364*16.018463, 700*6.30901964e-5, 428*0.3048)
	near(t, "shaft power", w/0.707/745.69987, 107.06, 0.002, "Crane TP-410 7.34")
	near(t, "electric power", w/0.707/0.95/0.96/745.69987, 117.39, 0.002, "Crane TP-410 7.34")
	near(t, "cost of a year", w/0.707/0.95/0.96/1000*8000*0.12, 83970, 0.002, "Crane TP-410 7.34, printed")
}

func TestNPSH(t *testing.T) {
	// Crane TP-410, 2009, example 7.32: 5 psig, vapour 0.256 psi, 25 ft below, 6 ft lost: 13.89 ft.
	const psi, foot = 6894.757, 0.3048
	density := 62.364 * 16.018463 // 60 °F
	got := formula.NPSHAvailable(formula.Atmosphere+5*psi, 0.256*psi, density, -25*foot, 6*foot)
	near(t, "NPSH", got/foot, 13.89, 0.001, "Crane TP-410 7.32")
}

func TestTemperatureRise(t *testing.T) {
	// 9 kW in 2.5 m³/h at 38 °C: 3.12 K; 2 K at 9 kW: 3.90 m³/h (worked out from ρ and cp).
	w := formula.NewWater(38)
	near(t, "rise", formula.TemperatureRise(w, 9000, 2.5/3600), 3.12, 0.002, "ρ·cp")
	near(t, "rise", formula.TemperatureRise(w, 9000, 3.90/3600), 2, 0.002, "ρ·cp")
	if formula.TemperatureRise(w, 9000, 0) != 0 {
		t.Error("no flow must give no rise")
	}
}

// Slopes worked out by hand from the published formulas (Fritsch and Butland 1984; the
// three-point end formula of Moler, Numerical Computing, 2004, function pchipend):
// x 0 1 3 4, y 0 2 3 3: secants 2, 0.5, 0. Inside at x = 1: w1 = 2·2+1 = 5, w2 = 2+2·1 = 4,
// d = 9/(5/2+4/0.5) = 9/10.5; at x = 3: secant 0, so 0. End 0: ((2·1+2)·2 - 1·0.5)/3 = 2.5,
// same sign, kept. End 4: ((2·1+2)·0 - 1·0.5)/3 < 0 against secant 0: 0.
func TestPchip(t *testing.T) {
	p := formula.NewPchip([]float64{0, 1, 3, 4}, []float64{0, 2, 3, 3})
	for i, want := range []float64{2.5, 9 / 10.5, 0, 0} {
		if got := p.Slopes()[i]; !agree.Within(got, want, 1e-14) {
			t.Errorf("slope %d = %v, want %v", i, got, want)
		}
	}
	// between 1 and 3 at the middle: (2+3)/2 + h/8·(d0-d1) = 2.5 + 2/8·9/10.5
	if got, _ := p.At(2); !agree.Within(got, 2.5+0.25*9/10.5, 1e-14) {
		t.Errorf("At(2) = %v", got)
	}
	// A turn at an end: x 0 1 2, y 0 1 -3: secants 1, -4; end 0: (3·1 - 1·(-4))/2 = 3.5 > 3·1: 3.
	p = formula.NewPchip([]float64{0, 1, 2}, []float64{0, 1, -3})
	if got := p.Slopes()[0]; got != 3 {
		t.Errorf("end slope = %v, want 3", got)
	}
	// two points: a straight line
	if got, slope := formula.NewPchip([]float64{1, 3}, []float64{4, 0}).At(2); got != 2 || slope != -2 {
		t.Errorf("line = %v, %v", got, slope)
	}
}

// Between its thresholds the tee of the handbook has other factors: by hand from the formulas
// of Crane TP-410 (2009), chapter 2, at bores on either side of each.
func TestTeeThresholds(t *testing.T) {
	for _, c := range []struct {
		name       string
		k          func(q, beta float64) (float64, float64)
		beta, want float64
	}{
		{"dividing branch, ratio 0.70", formula.TeeDividingBranch, 0.7, 1.31237},                // 1 + 0.3 (0.5/0.49)²
		{"dividing branch, ratio 0.60", formula.TeeDividingBranch, 0.6, 2.92901},                // 1 + (0.5/0.36)²
		{"dividing branch, ratio 0.65", formula.TeeDividingBranch, 0.65, 2.40053},               // 1 + (0.5/0.4225)²
		{"dividing branch, 40 on 60 mm", formula.TeeDividingBranch, over(0.04, 0.06), 2.265625}, // 1 + (0.5/0.4444)²
		{"dividing branch, hose of 1 on 1-1/2 in", formula.TeeDividingBranch, over(0.0254, 0.0381), 2.265625},
		{"dividing branch, area 0.70", formula.TeeDividingBranch, math.Sqrt(0.7), 1.23954},    // 1.075 (1 + 0.3 (0.5/0.7)²)
		{"combining branch, area 0.40", formula.TeeCombiningBranch, math.Sqrt(0.4), 1.134375}, // 0.55 (1 + 1.5625 - 0.5)
		{"combining branch, area 0.30", formula.TeeCombiningBranch, math.Sqrt(0.3), 3.27778},  // 1 + (0.5/0.3)² - 0.5
		{"dividing run, area 0.36", formula.TeeDividingRun, 0.6, 0.1},                         // 0.4 q²
		{"dividing run, area 1", formula.TeeDividingRun, 1, 0},                                // 2 (2q - 1) q²
	} {
		if got, _ := c.k(0.5, c.beta); !agree.Within(got, c.want, 1e-4) {
			t.Errorf("%s: %g, want %g", c.name, got, c.want)
		}
	}
}

// over is a ratio of two bores as it is worked out, rounding and all.
func over(a, b float64) float64 { return a / b }

// Laminar up to Re 2000, f = 64/Re; from there a straight line in Re to Colebrook-White at 4000:
// half-way f is the mean of both ends. The limits are those the report names.
func TestFrictionBetweenLaminarAndTurbulent(t *testing.T) {
	p := formula.NewPipe(0.001)
	at := func(re float64) float64 { f, _ := p.Friction(re); return f }
	near(t, "at Re 1999", at(1999), 64.0/1999, 1e-12, "Hagen-Poiseuille")
	x := 1 / math.Sqrt(at(4000)) // of Colebrook and White, solved by itself
	for range 50 {
		x = -2 * math.Log10(0.001/3.7+2.51*x/4000)
	}
	near(t, "at Re 4000", at(4000), 1/(x*x), 1e-9, "Colebrook-White by repeated substitution")
	near(t, "at Re 2000", at(2000), 0.032, 1e-9, "64/2000")
	near(t, "at Re 3000", at(3000), (0.032+1/(x*x))/2, 1e-9, "half-way of a straight line")
	near(t, "at Re 2500", at(2500), 0.75*0.032+0.25/(x*x), 1e-9, "a quarter of the way")
}

// The water of data sheets is that of 20 °C: 998.2 kg/m³ by IAPWS-95, and by Tanaka (2001) as of any
// other temperature here; what warms it is as by the heat capacities here.
func TestSheetWater(t *testing.T) {
	near(t, "density", catalog.SheetDensity, 998.2, 1e-9, "IAPWS-95")
	near(t, "density", formula.Density(catalog.SheetC), catalog.SheetDensity, 1e-4, "Tanaka (2001) against IAPWS-95")
	near(t, "heat", formula.Density(catalog.SheetC)*formula.HeatCapacity(catalog.SheetC), catalog.SheetHeat, 1e-4, "the same")
}
