package hydraulic_test

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

func formatFloat(v float64) string { return strconv.FormatFloat(v, 'f', 12, 64) }

// What trade practice expects of a two-speed pump with a 2 psi spring: shut, or nearly, at
// low, wide open at high.
func TestTwoSpeeds(t *testing.T) {
	low, high := solve(t, file(t, "bypass.toml"), "low"), solve(t, file(t, "bypass.toml"), "high")
	if s := high.Part("check").State; s != "lifting" {
		t.Errorf("at high the check is %s", s)
	}
	if low.Part("unit").Flow*3600 < 2.9 {
		t.Errorf("at low the unit gets %.2f m3/h", low.Part("unit").Flow*3600)
	}
	if high.Part("check").Drop < 13789 {
		t.Errorf("an open 2 psi spring has %.0f Pa over it", high.Part("check").Drop)
	}
	approx(t, "rise", low.Part("unit").RiseK, 11800/(992.966*4179.3*low.Part("unit").Flow), 1e-4)
	pump := high.Part("pump")
	suction := high.Run("suction")
	// 101.325 kPa less the vapour pressure at 38 °C, 6633 Pa (IAPWS), 0.6 m down, less the run.
	approx(t, "NPSH", pump.NPSHAvailableM, (101325-6633-suction.Drop)/(992.966*9.80665)+0.6, 1e-4)
	if !suction.Suction || high.Run("to-jets").Suction {
		t.Error("suction side wrong")
	}
	if !pump.NPSHKnown || !agree.Between(pump.ShutOffPa, 147000, 149000) {
		t.Errorf("shut-off %.0f Pa", pump.ShutOffPa)
	}
}

// Swept through its threshold the check never fails to converge, the pump's flow has no
// step, and just one state is told at each point.
func TestThreshold(t *testing.T) {
	c := read(t, file(t, "bypass.toml"))
	check := c.Part("check")
	check.Check.CrackingPa = 1e6
	lay := laying.Of(c)
	m := mode(t, c, "low")
	s, err := hydraulic.Solve(lay, m, graph.After)
	if err != nil {
		t.Fatal(err)
	}
	exact := 1e6 - s.Part("check").MarginPa // what presses on it while it is shut
	whole := s.Part("pump").Flow
	for _, off := range []float64{-1e-2, -1e-4, -1e-6, -1e-8, -1e-9, -1e-10, -1e-11, -1e-12, -1e-13, -1e-15, 0, 1e-15, 1e-13, 1e-12, 1e-11, 1e-10, 1e-9, 1e-8, 1e-6, 1e-4, 1e-2} {
		check.Check.CrackingPa = exact * (1 + off)
		s, err := hydraulic.Solve(laying.Of(c), m, graph.After)
		if err != nil {
			t.Fatalf("%g off the threshold: %v", off, err)
		}
		closed(t, c, s)
		p := s.Part("check")
		if !agree.Within(s.Part("pump").Flow, whole, (2*math.Abs(off)+1e-8)*whole) {
			t.Errorf("%g off the threshold the flow is %g, at it %g", off, s.Part("pump").Flow, whole)
		}
		switch {
		case p.State == "shut" && (p.Flow != 0 || off < -1e-8):
			t.Errorf("%g off: shut with %g m³/s", off, p.Flow)
		case p.State == "lifting" && (p.Flow <= 0 || off > 1e-8):
			t.Errorf("%g off: lifting with %g m³/s", off, p.Flow)
		}
	}
}

// The margin in flow is what it says: so much more through the unit opens the check.
func TestMarginFlow(t *testing.T) {
	c := read(t, file(t, "bypass.toml"))
	check := c.Part("check")
	check.Check.CrackingPa = 25e3
	lay := laying.Of(c)
	s, err := hydraulic.Solve(lay, mode(t, c, "low"), graph.After)
	if err != nil {
		t.Fatal(err)
	}
	p := s.Part("check")
	if p.State != "shut" || p.MarginFlow <= 0 {
		t.Fatalf("%s, margin %g", p.State, p.MarginFlow)
	}
	want := s.Part("unit").Flow + p.MarginFlow
	// a pump that gives just that, by a steep curve around it
	for _, share := range []float64{0.995, 1.005} {
		pump := c.Part("pump").Pump
		q := want * share
		pump.Speeds[0].Curve = []graph.CurvePoint{{Flow: 0, Head: graph.Drop{Value: 99, IsHead: true}},
			{Flow: q * 0.9999, Head: graph.Drop{Value: 98, IsHead: true}}, {Flow: q * 1.0001, Head: graph.Drop{Value: 0, IsHead: true}}}
		s, err := hydraulic.Solve(lay, mode(t, c, "low"), graph.After)
		if err != nil {
			t.Fatal(err)
		}
		state := "shut"
		if share > 1 {
			state = "lifting"
		}
		if got := s.Part("check").State; got != state {
			t.Errorf("at %g of the flow that opens it the check is %s, want %s", share, got, state)
		}
	}
}

func mode(t testing.TB, c *graph.Circuit, name string) graph.Mode {
	t.Helper()
	for _, m := range c.AllModes() {
		if m.Name == name {
			return m
		}
	}
	t.Fatalf("no mode %q", name)
	return graph.Mode{}
}

// The order of parts and runs in the file, and which end of a run is written first, change
// nothing.
func TestPermutation(t *testing.T) {
	c := read(t, file(t, "bypass.toml"))
	for _, name := range []string{"low", "high"} {
		want, err := hydraulic.Solve(laying.Of(c), mode(t, c, name), graph.After)
		if err != nil {
			t.Fatal(err)
		}
		r := rand.New(rand.NewPCG(1, 2))
		for range 20 {
			d := *c
			d.Parts = append([]*graph.Part(nil), c.Parts...)
			d.Runs = append([]*graph.Run(nil), c.Runs...)
			r.Shuffle(len(d.Parts), func(i, j int) { d.Parts[i], d.Parts[j] = d.Parts[j], d.Parts[i] })
			r.Shuffle(len(d.Runs), func(i, j int) { d.Runs[i], d.Runs[j] = d.Runs[j], d.Runs[i] })
			turned := map[string]bool{}
			for i, run := range d.Runs {
				if r.IntN(2) == 0 {
					back := *run
					back.From, back.To = run.To, run.From
					d.Runs[i], turned[run.ID] = &back, true
				}
			}
			got, err := hydraulic.Solve(laying.Of(&d), mode(t, &d, name), graph.After)
			if err != nil {
				t.Fatal(err)
			}
			for _, w := range want.Runs {
				flow := got.Run(w.Run.ID).Flow
				if turned[w.Run.ID] {
					flow = -flow
				}
				if !agree.Within(flow, w.Flow, 1e-9*want.Part("pump").Flow) {
					t.Fatalf("%s: %s has %.12g, first %.12g", name, w.Run.ID, flow, w.Flow)
				}
			}
		}
	}
}

// More loss anywhere never gives the pump more flow. (With ideal tees: the handbook's tees
// hand head from one leg to the other.)
func TestMonotone(t *testing.T) {
	text := strings.ReplaceAll(file(t, "bypass.toml"), "kind = \"tee\"", "kind = \"tee\"\nloss = \"none\"")
	c := read(t, text)
	for _, name := range []string{"low", "high"} {
		m, err := hydraulic.Build(laying.Of(c), mode(t, c, name), graph.After)
		if err != nil {
			t.Fatal(err)
		}
		base, err := m.Solve(nil)
		if err != nil {
			t.Fatal(err)
		}
		ones := func(n int) []float64 {
			out := make([]float64, n)
			for i := range out {
				out[i] = 1
			}
			return out
		}
		try := func(what string, p *hydraulic.Perturb) {
			s, err := m.Solve(p)
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			if s.Part("pump").Flow > base.Part("pump").Flow*(1+1e-9) {
				t.Errorf("%s, %s: the flow rises from %g to %g", name, what, base.Part("pump").Flow, s.Part("pump").Flow)
			}
		}
		for i, p := range c.Parts {
			if p.Kind == graph.Pump {
				continue
			}
			f := ones(len(c.Parts))
			f[i] = 1.3
			try(p.ID, &hydraulic.Perturb{Loss: f})
			try(p.ID+" cracking", &hydraulic.Perturb{Cracking: f})
		}
		for i, r := range c.Runs {
			f := ones(len(c.Runs))
			f[i] = 1.3
			try(r.ID+" length", &hydraulic.Perturb{Length: f})
			try(r.ID+" fittings", &hydraulic.Perturb{Fittings: f})
			try(r.ID+" roughness", &hydraulic.Perturb{Roughness: f})
			f[i] = 0.9
			try(r.ID+" bore", &hydraulic.Perturb{Bore: f})
		}
	}
}

// A model solved with factors and then without gives what it gave first.
func TestPerturbLeavesNothing(t *testing.T) {
	c := read(t, file(t, "bypass.toml"))
	m, err := hydraulic.Build(laying.Of(c), mode(t, c, "high"), graph.After)
	if err != nil {
		t.Fatal(err)
	}
	first, _ := m.Solve(nil)
	f := make([]float64, len(c.Parts))
	for i := range f {
		f[i] = 1.5
	}
	other, err := m.Solve(&hydraulic.Perturb{Loss: f, Cracking: f})
	if err != nil {
		t.Fatal(err)
	}
	again, _ := m.Solve(nil)
	if math.Abs(other.Part("pump").Flow-first.Part("pump").Flow) < 1e-6 {
		t.Error("the factors do nothing")
	}
	approx(t, "flow", again.Part("unit").Flow, first.Part("unit").Flow, 1e-10)
}

// Modes: jets shut, valves shut, filter dirty, pump off.
func TestModes(t *testing.T) {
	text := file(t, "bypass.toml")
	add := func(m string) string { return text + "\n[[mode]]\nname = \"m\"\n" + m }
	plain := solve(t, add(`speeds = { pump = "high" }`), "m")
	half := solve(t, add("speeds = { pump = \"high\" }\njets = \"50 %\""), "m")
	approx(t, "half the jets", half.Part("jets").Drop/math.Pow(half.Part("jets").Flow, 2), 4*plain.Part("jets").Drop/math.Pow(plain.Part("jets").Flow, 2), 1e-6)
	dirty := solve(t, add("speeds = { pump = \"high\" }\nfilter = \"dirty\""), "m")
	const cartridge = 1.6 // exponent of a cartridge, in exponents.csv
	approx(t, "dirty", dirty.Part("filter").Drop/math.Pow(dirty.Part("filter").Flow, cartridge), 3*plain.Part("filter").Drop/math.Pow(plain.Part("filter").Flow, cartridge), 1e-6)
	shut := solve(t, add("speeds = { pump = \"low\" }\npositions = { v1 = \"shut\" }"), "m")
	if u := shut.Part("unit"); u.Flow != 0 || shut.Part("v1").State != "shut" || shut.Part("check").State != "lifting" {
		t.Errorf("unit %g, v1 %s, check %s", u.Flow, shut.Part("v1").State, shut.Part("check").State)
	}
	none := solve(t, add("speeds = { pump = \"low\" }\njets = \"0 %\""), "m")
	if none.Part("pump").Flow != 0 || !hasNote(none, "no water passes it") {
		t.Errorf("jets shut: pump %g, notes %v", none.Part("pump").Flow, none.Notes)
	}
	off := solve(t, add(`positions = { v1 = "open" }`), "m")
	if off.Part("pump").Flow != 0 || off.Part("pump").State != "off" {
		t.Errorf("no pump on: %g, %s", off.Part("pump").Flow, off.Part("pump").State)
	}
}

func BenchmarkJob(b *testing.B) {
	c := read(b, file(b, "bypass.toml"))
	lay := laying.Of(c)
	for _, name := range []string{"low", "high"} {
		m := mode(b, c, name)
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := hydraulic.Solve(lay, m, graph.After); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(name+" again", func(b *testing.B) {
			b.ReportAllocs()
			model, err := hydraulic.Build(lay, m, graph.After)
			if err != nil {
				b.Fatal(err)
			}
			f := make([]float64, len(c.Parts))
			for i := range f {
				f[i] = 1
			}
			for k := 0; b.Loop(); k++ {
				f[k%len(f)] = 1 + 0.01*float64(k%7)
				if _, err := model.Solve(&hydraulic.Perturb{Loss: f}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
