package catalog

import (
	"math"
	"testing"

	"dryfit/graph/agree"
)

// colebrook solves Colebrook and White's equation for the Darcy friction factor by
// substitution. Source: C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133.
func colebrook(re, relative float64) float64 {
	x := 7.0
	for range 60 {
		x = -2 * math.Log10(relative/3.7+2.51*x/re)
	}
	return 1 / (x * x)
}

// Ribbed flexible hose loses 20 to 30 % more than smooth pipe of its bore, at 38 °C and
// 1.5 to 2 m/s. Source: common practice, no source.
func TestFlexibleHoseIsRougher(t *testing.T) {
	for _, c := range []struct {
		spec Spec
		size Size
	}{{FlexInch, Size{Nominal: 1.5}}, {FlexInch, Size{Nominal: 2}}, {FlexMetric, Size{true, 50}}, {FlexMetric, Size{true, 63}}} {
		r, ok := Embedded().Pipe(c.spec, c.size)
		if !ok {
			t.Fatalf("no %s %s", c.spec, c.size)
		}
		for _, v := range []float64{1.5, 2} {
			re := v * r.BoreMM / 1000 / 0.6828e-6
			ratio := colebrook(re, r.RoughnessMM/r.BoreMM) / colebrook(re, 0.0015/r.BoreMM)
			if !agree.Between(ratio, 1.18, 1.35) {
				t.Errorf("%s at %g m/s: %.3f times smooth pipe", r.Name, v, ratio)
			}
		}
	}
}

// A jet passes 9 to 13 US gpm with about 12 psi across it, a big one 15 to 20. Source: a tub
// maker's advice and a pump sizing page. Water at 38 °C: 993 kg/m3.
func TestJetsPassTheirFlow(t *testing.T) {
	for name, gpm := range map[string][2]float64{"jet": {9, 13}, "jet-large": {15, 20}} {
		r, ok := Embedded().Row(name)
		if !ok {
			t.Fatalf("no %s", name)
		}
		d := r.BoreMM / 1000
		q := math.Pi / 4 * d * d * math.Sqrt(2*12*6894.757/993/r.K)
		if got := q / 6.309020e-5; !agree.Between(got, gpm[0], gpm[1]) {
			t.Errorf("%s: %.1f gpm at 12 psi, want %g to %g", name, got, gpm[0], gpm[1])
		}
	}
}

// Rated flow by size: 5 kW 1.7, 9 kW 3.1, 12 kW 4.1, 17 kW 5.8 m3/h at 2.5 K, computed from
// 0.86 P/dT; the bottom of the useful range is P/4 m3/h.
func TestHeatPumpFlows(t *testing.T) {
	for name, rated := range map[string]float64{"heat-pump 5 kW": 1.7, "heat-pump 9 kW": 3.1, "heat-pump 12 kW": 4.1, "heat-pump 17 kW": 5.8} {
		r, ok := Embedded().Row(name)
		if !ok {
			t.Fatalf("no %s", name)
		}
		if !agree.Within(r.Rated*3600, rated, 0.04*rated) {
			t.Errorf("%s: rated %.2f m3/h, want %.1f", name, r.Rated*3600, rated)
		}
		if p := r.PowerW / 1000; !agree.Within(r.Least*3600, p/4, 1e-9) || !agree.Within(r.Most, 2*r.Rated, 1e-12) {
			t.Errorf("%s: least %.2f, most %.2f m3/h for %g kW", name, r.Least*3600, r.Most*3600, p)
		}
		if !agree.Between(r.LossDropPa, 5000, 15000) || r.LossFlow != r.Rated {
			t.Errorf("%s: %g Pa at its rated flow", name, r.LossDropPa)
		}
	}
}

// A pump at about half speed has that share of the flow at its square of the head (affinity
// laws), and the shut-off heads are in the ranges known for the types.
func TestPumpCurves(t *testing.T) {
	for name, shutOff := range map[string][2]float64{"circulation-pump-24h": {2.5, 4}, "circulation-pump-1.5in": {6, 8}, "two-speed-pump-small": {12, 18}, "two-speed-pump-large": {12, 18}} {
		r, ok := Embedded().Row(name)
		if !ok {
			t.Fatalf("no %s", name)
		}
		fast := r.Speeds[len(r.Speeds)-1]
		if h := fast.Curve[0][1]; !agree.Between(h, shutOff[0], shutOff[1]) {
			t.Errorf("%s: shut-off head %g m", name, h)
		}
		if len(r.Speeds) < 2 {
			continue
		}
		slow := r.Speeds[0]
		if slow.Name != "low" || fast.Name != "high" || !agree.Between(slow.Curve[0][1], 3, 4.5) {
			t.Errorf("%s: %q shuts off at %g m", name, slow.Name, slow.Curve[0][1])
		}
		for i, p := range slow.Curve {
			if !agree.Within(p[0], slow.Ratio*fast.Curve[i][0], 1e-12) || !agree.Within(p[1], slow.Ratio*slow.Ratio*fast.Curve[i][1], 1e-9) {
				t.Errorf("%s: point %d of low is %v, of high %v", name, i, p, fast.Curve[i])
			}
		}
	}
}

// Spring labels in Pa: 1/4 psi 1.7 kPa to 5 psi 34.5 kPa, by NIST SP 811. A label may be off
// four times over: one "1/2 lb" valve opens at 2 psi by its sheet, another below 0.5.
func TestSprings(t *testing.T) {
	springs := Embedded().Springs()
	want := []float64{0.25, 0.5, 1, 2, 4, 5}
	if len(springs) != len(want) {
		t.Fatalf("%d springs", len(springs))
	}
	for i, r := range springs {
		nearly(t, r.Name, r.CrackingPa, want[i]*6894.757, 0.01)
		if r.CrackingLowPa >= r.CrackingPa || r.CrackingHighPa <= r.CrackingPa || r.KLow != 3 || r.KHigh != 12 {
			t.Errorf("%s: %g to %g Pa, K %g to %g", r.Name, r.CrackingLowPa, r.CrackingHighPa, r.KLow, r.KHigh)
		}
	}
	nearly(t, "highest of the 1/2 psi spring", springs[1].CrackingHighPa, 2*6894.757, 0.01)
}

// Crane TP-410 (2009): L/D of elbows, tees, valves and swing checks.
func TestHandbookConstants(t *testing.T) {
	for kind, want := range map[string]float64{
		"elbow-90": 30, "elbow-45": 16, "tee": 20, "gate-valve": 8, "ball-valve": 3, "true-union-ball-valve": 3, "swing-check": 100, "butterfly-valve": 45,
	} {
		for _, c := range []struct {
			spec Spec
			size Size
		}{{PVCSch40, Size{Nominal: 2}}, {PVCSch80, Size{Nominal: 1.5}}, {PVCPN10, Size{true, 50}}, {FlexMetric, Size{true, 63}}} {
			r, ok := Embedded().Fitting(kind, c.spec, c.size)
			if !ok || r.LoverD != want {
				t.Errorf("%s %s %s: L/D %g, want %g", kind, c.spec, c.size, r.LoverD, want)
			}
			if kind == "tee" && r.LoverDBranch != 60 {
				t.Errorf("%s: branch L/D %g", r.Name, r.LoverDBranch)
			}
		}
	}
}

// A heat pump of the catalogue gives at a tub's 38 °C what the trade says of a fixed-speed unit
// sold by its output in warm air: at 7 °C some two thirds of it at a COP of about 3, at 26 °C
// nearly all of it; less, at a lower COP, the colder. From memory of data sheets.
func TestHeatPumpRatings(t *testing.T) {
	for _, r := range Embedded().Rows() {
		if r.Kind != "heat-pump" || r.PowerW <= 0 {
			continue
		}
		if len(r.Ratings) < 3 || r.RatingsSource == "" || r.LeastAirC == nil || r.MostWaterC == nil || *r.MostWaterC > 40 {
			t.Errorf("%s: %+v", r.Name, r.Ratings)
			continue
		}
		// electric: by hand, its largest input over 230 V and 0.95; full load a quarter more; five
		// times at a start; a fuse that carries the full load. Common practice, no source.
		input := 0.0
		for _, x := range r.Ratings {
			input = math.Max(input, x.InputW)
		}
		amps := input / 230 / 0.95
		if !agree.Within(r.FullLoadA, 1.25*amps, 0.06) || !agree.Within(r.StartingA, 5*amps, 0.6) || !agree.Between(r.FuseA, r.FullLoadA, 1.7*r.FullLoadA) || r.ElectricSource == "" {
			t.Errorf("%s: %.1f A, %.0f A at a start, fuse %.0f A; %.2f A by its input", r.Name, r.FullLoadA, r.StartingA, r.FuseA, amps)
		}
		for i, x := range r.Ratings {
			cop := x.OutputW / x.InputW
			if i > 0 && !(x.AirC > r.Ratings[i-1].AirC && x.OutputW > r.Ratings[i-1].OutputW && cop > r.Ratings[i-1].OutputW/r.Ratings[i-1].InputW) {
				t.Errorf("%s: ratings do not rise with the air: %+v", r.Name, r.Ratings)
			}
			if x.AirC == 7 && !(math.Abs(x.OutputW/r.PowerW-0.64) <= 0.005 && math.Abs(cop-3.1) <= 0.01) {
				t.Errorf("%s at 7 °C: %.2f of its power, COP %.2f", r.Name, x.OutputW/r.PowerW, cop)
			}
		}
	}
}

// What nobody knows the make of is chosen by its maker or fitter for the flow of its line (common
// practice, no source): a drop at one flow of its own would be nothing in a small pump's line and too
// much in a large one's. A heat pump is chosen for the tub.
func TestDropsOfUnknownMakesGoByTheLine(t *testing.T) {
	seen := 0
	for _, r := range Embedded().Rows() {
		if r.LossFlow == 0 || r.Kind == "heat-pump" {
			continue
		}
		seen++
		if r.Sized == "" {
			t.Errorf("%s loses %g Pa at %g m³/s in every line", r.Name, r.LossDropPa, r.LossFlow)
		}
	}
	if seen < 8 {
		t.Errorf("%d rows with a drop at a flow", seen)
	}
}
