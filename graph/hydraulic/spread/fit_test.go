package spread

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/description/ladder"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
	"dryfit/graph/sample"
)

// fitOf is the fit of a description to what it says was read, and the circuit so taken.
func fitOf(t *testing.T, text string) (*graph.Fit, *graph.Circuit) {
	t.Helper()
	c, ds := description.Read("fit.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatal(ds)
	}
	out := *c
	out.Fit = Fit(laying.Of(c.At(graph.Before)), c.AllModes(), c.Readings)
	return out.Fit, &out
}

func flowRead(at, mode string, m3h, percent float64) string {
	return fmt.Sprintf("[[reading]]\nat = %q\nmode = %q\nflow = \"%.6f m3/h\"\nplus-minus = \"%g %%\"\n", at, mode, m3h, percent)
}

// What was read as described, or as near to it as it is good for, changes nothing; farther off the case is
// taken to lie between both, nearer to what was read the better that is.
func TestFitOfWhatAgrees(t *testing.T) {
	none, c := fitOf(t, readText)
	sol, err := Solve(laying.Of(c.At(graph.Before)), c.AllModes()[0], graph.Before)
	if err != nil || none.Changes() {
		t.Fatal(err, none)
	}
	as := sol.Part("pump").Flow * 3600
	for _, m3h := range []float64{as, 1.04 * as, 0.96 * as} {
		if fit, _ := fitOf(t, readText+flowRead("pump", "on", m3h, 5)); fit.Changes() || fit.Unfit || !agree.Within(fit.Read[0].AsDescribed*3600, as, 1e-4) {
			t.Errorf("%.2f m3/h read, %.2f described: %+v", m3h, as, fit)
		}
	}
	was := math.Inf(1)
	for _, percent := range []float64{10, 5, 2} {
		fit, c := fitOf(t, readText+flowRead("pump", "on", 0.8*as, percent))
		sol, err := Solve(laying.Of(c.At(graph.Before)), c.AllModes()[0], graph.Before)
		if err != nil || !fit.Changes() {
			t.Fatal(err, fit)
		}
		got := sol.Part("pump").Flow * 3600
		if !agree.Within(got, fit.Read[0].Taken*3600, 1e-4) {
			t.Errorf("good for %g %%: said to come to %.4f, comes to %.4f", percent, fit.Read[0].Taken*3600, got)
		}
		if !(got >= 0.8*as-1e-3 && got < as && got < was) {
			t.Errorf("%.3f read, good for %g %%, %.3f described: taken as %.3f, before as %.3f", 0.8*as, percent, as, got, was)
		}
		was = got
	}
}

// The order of what was read decides nothing, and what one instrument read three times at one place is no surer
// than once, be it the same each time or its mean.
func TestFitInAnyOrder(t *testing.T) {
	a, b := flowRead("pump", "on", 3.9, 4), "[[reading]]\nat = \"unit.in\"\npressure = \"0.25 bar\"\n"
	want, _ := fitOf(t, readText+a+b)
	if !want.Changes() {
		t.Fatal("nothing is fitted: the test shows nothing")
	}
	for _, text := range []string{b + a, a + a + b, b + a + b + a, flowRead("pump", "on", 3.95, 4) + b + flowRead("pump", "on", 3.85, 4)} {
		got, _ := fitOf(t, readText+text)
		for _, v := range want.Values {
			if is, ok := got.Value(v.What, v.Part); !ok || !agree.Within(is, v.Value, 2e-3) { // of 3.85 and 3.95 the shares differ by the square of a hundredth
				t.Errorf("%s: %g, want %g", v.What, is, v.Value)
			}
		}
		if len(got.Values) != len(want.Values) {
			t.Errorf("%d values, want %d", len(got.Values), len(want.Values))
		}
	}
}

// What is good for as much at two places along pipe from which nothing branches is by one instrument: as sure as
// at one of them. By another it is surer, and so is a pressure, which is another at every port.
func TestFitOfOneWater(t *testing.T) {
	one, _ := fitOf(t, readText+flowRead("pump", "on", 3.9, 4))
	for _, more := range []struct {
		text  string
		surer bool
	}{{flowRead("unit", "on", 3.9, 4), false}, {flowRead("suction", "on", 3.9, 4) + flowRead("return", "on", 3.9, 4), false}, {flowRead("unit", "on", 3.9, 4.5), true}} {
		got, _ := fitOf(t, readText+more.text+flowRead("pump", "on", 3.9, 4))
		taken := got.Read[len(got.Read)-1].Taken
		if alike := agree.Within(taken, one.Read[0].Taken, 1e-7); alike == more.surer || taken > one.Read[0].Taken+1e-7 {
			t.Errorf("taken as %g m³/s, of the one alone %g; surer: %v", taken, one.Read[0].Taken, more.surer)
		}
	}
	apart := "[[part]]\nid = \"side\"\nkind = \"tee\"\nexisting = true\n"
	for _, port := range []string{"run-in", "run-out"} {
		apart += fmt.Sprintf("[[run]]\nid = %q\nfrom = \"tub.%s\"\nto = \"side.%s\"\nlength = \"1 m\"\nexisting = true\n", port, map[string]string{"run-in": "a", "run-out": "c"}[port], port)
	}
	text := strings.NewReplacer(`ports = ["a", "b"]`, `ports = ["a", "b", "c"]`, `from = "tub.a"`, `from = "side.branch"`).Replace(readText) + apart
	alone, _ := fitOf(t, text+flowRead("run-in", "on", 1.8, 4))
	both, _ := fitOf(t, text+flowRead("run-in", "on", 1.8, 4)+flowRead("suction", "on", 3.6, 4))
	if !alone.Changes() || agree.Within(both.Read[0].Taken, alone.Read[0].Taken, 1e-7) {
		t.Errorf("before a tee and after it: taken as %g m³/s, before it alone %g", both.Read[0].Taken, alone.Read[0].Taken)
	}
}

// The case as described stays where what is likeliest by both lies no nearer to what was read, as of a reading
// that is good for little; it is no fit, and what was read is counted for what it is worth.
func TestFitIsNearer(t *testing.T) {
	demo, err := os.ReadFile("../../../testdata/two-speed.toml") // a filter costs more than when it is clean: likelier than as described is less water
	if err != nil {
		t.Fatal(err)
	}
	text := string(demo)
	_, c := fitOf(t, text)
	sol, err := Solve(laying.Of(c.At(graph.Before)), c.AllModes()[0], graph.Before)
	if err != nil {
		t.Fatal(err)
	}
	as, stays, fits := sol.Part("pump").Flow*3600, 0, 0
	for _, percent := range []float64{3, 6, 12, 20, 30} {
		fit, _ := fitOf(t, text+"\n"+flowRead("pump", "low", as/(1-percent/100-0.005), percent))
		q := &fit.Read[0]
		if fit.Unfit || !q.Beyond() {
			t.Fatalf("good for %g %%: %+v", percent, q)
		}
		if fit.Changes() {
			fits++
		} else if stays++; q.Taken != q.AsDescribed {
			t.Errorf("good for %g %%: as described it is %g, taken as %g", percent, q.AsDescribed, q.Taken)
		}
		if q.Taken < q.AsDescribed {
			t.Errorf("good for %g %%: more was read than described, %g m³/s, and less is taken, %g", percent, q.AsDescribed, q.Taken)
		}
	}
	if stays == 0 || fits == 0 {
		t.Errorf("%d stay as described, %d do not: the test shows nothing", stays, fits)
	}
}

// What a number as it is taken makes of the difference is what is lacking where it alone is as described.
func TestFitShares(t *testing.T) {
	for _, m3h := range []float64{3.6, 4.3} {
		fit, c := fitOf(t, readText+flowRead("pump", "on", m3h, 2))
		if !fit.Changes() {
			t.Fatal(fit)
		}
		q := fit.Read[0]
		for i, v := range fit.Values {
			but := *fit
			but.Values = slices.Delete(slices.Clone(fit.Values), i, i+1)
			of := *c
			of.Fit = &but
			sol, err := Solve(laying.Of(of.At(graph.Before)), c.AllModes()[0], graph.Before)
			if err != nil {
				t.Fatal(err)
			}
			if want := (sol.Part("pump").Flow - q.Taken) / (q.AsDescribed - q.Taken); !agree.Within(v.Share, want, 1e-4) {
				t.Errorf("%g m3/h: %s of %q makes %g of the difference, said to be %g", m3h, v.What, v.Part, want, v.Share)
			}
		}
	}
}

// What one instrument read twice of one water, so far apart that its error can't be both, contradicts itself.
func TestFitOfWhatScatters(t *testing.T) {
	for _, c := range []struct {
		a, b float64
		fits bool
	}{{4.55, 4.65, true}, {4.4, 4.83, false}} {
		for _, at := range []string{"pump", "unit"} {
			fit, _ := fitOf(t, readText+flowRead("pump", "on", c.a, 2)+flowRead(at, "on", c.b, 2))
			if fit.Unfit == c.fits || slices.Equal(fit.Read[0].Against, []int{1}) == c.fits {
				t.Errorf("%g at the pump and %g at %s, good for 2 %%: %+v", c.a, c.b, at, fit)
			}
		}
	}
}

// No point of the sample is likelier than the fit: the sum of squares of how far the unknowns lie from
// their middles and what was read from what it comes to, each in standard deviations, is the least there.
func TestFitIsTheLikeliest(t *testing.T) {
	text := readText + flowRead("pump", "on", 3.9, 4)
	fit, c := fitOf(t, text)
	c.Fit = nil
	lay := laying.Of(c.At(graph.Before))
	s := spreaderOf(lay, lay, "", c.AllModes())
	s.readings(c.Readings)
	f := s.fitter()
	of := func(z []float64) float64 { return squares(z) + squares(f.off(f.read, z, nil)) }
	best, _, ok := f.nearest(f.read, nil)
	if !ok || len(fit.Values) == 0 {
		t.Fatal(fit)
	}
	least := of(best)
	for i := range sample.Size {
		z := make([]float64, len(best))
		for j := range f.moved {
			z[j] = deviations(sample.Point(i, j+1))
		}
		if sum := of(z); sum < least {
			t.Fatalf("point %d of the sample: %g, the fit %g", i, sum, least)
		}
	}
	for j := range best { // nor any place beside it
		for _, d := range []float64{-0.05, 0.05} {
			z := slices.Clone(best)
			if z[j] += d; math.Abs(z[j]) <= farthest && of(z) < least-1e-4 {
				t.Errorf("unknown %d: %g beside it, the fit %g", j, of(z), least)
			}
		}
	}
}

// A step leads to the least sum of squares there is along straight slopes with nothing farther out than
// anything is taken: what is within has no slope left, and what stands at an end would go on. Drawn by lot.
func TestStep(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 4))
	ends := 0
	for range 200 {
		n, k := 1+dice.IntN(8), 1+dice.IntN(3)
		z, off, g := make([]float64, n), make([]float64, k), make([][]float64, k)
		for j := range z {
			z[j] = dice.NormFloat64()
		}
		for i := range off {
			off[i], g[i] = 20*dice.NormFloat64(), make([]float64, n)
			for j := range g[i] {
				g[i][j] = 3 * dice.NormFloat64()
			}
		}
		to := step(z, off, g)
		for j := range to {
			slope := to[j] // half the derivative
			for i := range g {
				at := off[i]
				for m := range to {
					at += g[i][m] * (to[m] - z[m])
				}
				slope += g[i][j] * at
			}
			switch {
			case !agree.Within(to[j], 0, farthest):
				t.Fatalf("%g lies farther out than %g", to[j], farthest)
			case math.Abs(to[j]) == farthest:
				ends++
			case !agree.Within(slope, 0, 1e-6):
				t.Fatalf("of %d and %d: a slope of %g is left", n, k, slope)
			}
		}
	}
	if ends == 0 {
		t.Error("nothing came to an end: the test shows nothing")
	}
}

// What a sheet gives moves less than what is guessed.
func TestFitMovesLeastWhatIsKnown(t *testing.T) {
	curve := "curve = [[\"0 m3/h\", \"6 m\"], [\"4 m3/h\", \"4.5 m\"], [\"7 m3/h\", \"1 m\"]]\nknown = \"KNOWN\""
	apart := map[string]float64{}
	for _, known := range []string{"assumed", "data-sheet"} {
		text := strings.Replace(readText, "type = \"circulation-pump-1.5in\"", strings.Replace(curve, "KNOWN", known, 1), 1)
		fit, _ := fitOf(t, text+flowRead("pump", "on", 3.5, 3))
		v, ok := fit.Value("the head of pump", "pump")
		if !ok {
			t.Fatal(fit)
		}
		apart[known] = math.Abs(math.Log(v))
	}
	if !(apart["data-sheet"] < 0.8*apart["assumed"]) {
		t.Errorf("ln of the head's factor: by its sheet %g, guessed %g", apart["data-sheet"], apart["assumed"])
	}
}

// A large circuit is fitted in as much work as is counted.
func TestFitIsBounded(t *testing.T) {
	for _, runs := range []int{50, 400} {
		c, _ := description.Read("ladder.toml", ladder.Of(runs))
		lay := laying.Of(c.At(graph.Before))
		mode := c.AllModes()[0]
		sol, err := hydraulic.Solve(lay, mode, graph.Before)
		if err != nil {
			t.Fatal(err)
		}
		pump := c.Pumps()[0].ID
		s := spreaderOf(lay, lay, "", c.AllModes())
		s.readings([]graph.Reading{{At: pump, Part: pump, Mode: mode.Name, Flow: 0.8 * sol.Part(pump).Flow}})
		f := s.fitter()
		if _, _, ok := f.nearest(f.read, nil); !ok {
			t.Errorf("%d runs: what was read fits nothing", runs)
		}
		if most := mostRunsFitted + mostFitted*(leastMoved+2+mostHalved)*f.stages[0].work(); f.solved > most {
			t.Errorf("%d runs: %d runs solved, want %d at the most", runs, f.solved, most)
		}
	}
}
