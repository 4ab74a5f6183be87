package hydraulic_test

import (
	"errors"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// read returns the circuit of a description after its work.
func read(t testing.TB, text string) *graph.Circuit {
	t.Helper()
	c, ds := description.Read("test.toml", []byte(text))
	if c == nil || graph.HasErrors(ds) {
		t.Fatalf("the description is wrong: %v", ds)
	}
	return c.At(graph.After)
}

func file(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// solve solves one mode of a description and checks that the answer closes.
func solve(t testing.TB, text, mode string) *hydraulic.Solution {
	t.Helper()
	c := read(t, text)
	for _, m := range c.AllModes() {
		if m.Name == mode {
			s, err := hydraulic.Solve(laying.Of(c), m, graph.After)
			if err != nil {
				t.Fatal(err)
			}
			closed(t, c, s)
			return s
		}
	}
	t.Fatalf("no mode %q", mode)
	return nil
}

// closed checks a solution from what it reports alone: flows at every part, and that no
// loop that can be walked over runs and parts misses.
func closed(t testing.TB, c *graph.Circuit, s *hydraulic.Solution) {
	t.Helper()
	sum, most := map[string]float64{}, 0.0
	for _, r := range s.Runs {
		if math.IsNaN(r.Flow) || math.IsNaN(r.Drop) {
			t.Errorf("%s is not a number", r.Run.ID)
		}
		sum[r.Run.From.Part] -= r.Flow
		sum[r.Run.To.Part] += r.Flow
		most = max(most, math.Abs(r.Flow))
	}
	for _, p := range c.Parts {
		if !agree.Within(sum[p.ID], 0, 1e-9*most) {
			t.Errorf("%s keeps %g m³/s", p.ID, sum[p.ID])
		}
	}
	head := 0.0
	for _, p := range s.Parts {
		head = max(head, p.ShutOffPa)
	}
	if s.Residual > 1e-9*most || s.EnergyError*9737 > 1e-6*head {
		t.Errorf("mass misses by %g m³/s, energy by %g m", s.Residual, s.EnergyError)
	}
	if miss := energyMiss(s); miss > 1e-6*head {
		t.Errorf("a loop misses by %g Pa of %g", miss, head)
	}
}

// energyMiss walks over all runs and parts from the tub and returns the largest
// contradiction in the pressures met, Pa.
func energyMiss(s *hydraulic.Solution) float64 {
	at := map[string]float64{}
	key := func(ref graph.PortRef, p *graph.Part) string {
		if p != nil && p.Kind == graph.Tub {
			return "tub"
		}
		return ref.String()
	}
	type link struct {
		a, b string
		drop float64
	}
	var links []link
	for _, r := range s.Runs {
		from, to := s.Part(r.Run.From.Part), s.Part(r.Run.To.Part)
		links = append(links, link{key(r.Run.From, from.Part), key(r.Run.To, to.Part), r.Drop})
	}
	for _, p := range s.Parts {
		if len(p.Legs) > 0 && p.Part.Kind != graph.Tub {
			for _, l := range p.Legs {
				links = append(links, link{p.Part.ID + "." + l.Port, p.Part.ID, l.Drop})
			}
		} else if p.Part.Kind.TwoPort() && (p.State != "shut" || p.Part.Kind == graph.CheckValve) {
			links = append(links, link{p.Part.ID + ".in", p.Part.ID + ".out", p.Drop})
		}
	}
	at["tub"] = 0
	miss := 0.0
	for range links {
		for _, l := range links {
			a, okA := at[l.a]
			b, okB := at[l.b]
			switch {
			case okA && okB:
				miss = max(miss, math.Abs(a-b-l.drop))
			case okA:
				at[l.b] = a - l.drop
			case okB:
				at[l.a] = b + l.drop
			}
		}
	}
	return miss
}

func approx(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !agree.Within(got, want, tolerance*math.Abs(want)) {
		t.Errorf("%s = %.8g, want %.8g ± %.2g %%", what, got, want, 100*tolerance)
	}
}

// loopText is one pump, one pipe and one part: all bores and losses in the text, so that
// the answer can be worked out elsewhere.
const loopText = `
[water]
density = "1000 kg/m3"
viscosity = "0.001 Pa s"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["10 m3/h", "5 m"], ["20 m3/h", "0 m"]]
[[part]]
id = "filter"
kind = "filter"
loss = { k = 4, bore = "50 mm" }
[[run]]
id = "pipe"
from = "tub.a"
to = "pump.in"
size = "2 in"
spec = "pvc-sch40"
length = "20 m"
bore = "50 mm"
roughness = "0.05 mm"
k = 1.5
[[run]]
from = "pump.out"
to = "filter.in"
size = "2 in"
spec = "pvc-sch40"
length = "0 mm"
[[run]]
from = "filter.out"
to = "tub.b"
size = "2 in"
spec = "pvc-sch40"
length = "0 mm"
`

// The loop by bisection over Darcy and Weisbach with Colebrook iterated here, apart from
// the program's own formulas.
func TestLoopByHand(t *testing.T) {
	s := solve(t, loopText, "on")
	colebrook := func(re, rel float64) float64 {
		f := 0.02
		for range 200 {
			f = math.Pow(-2*math.Log10(rel/3.7+2.51/(re*math.Sqrt(f))), -2)
		}
		return f
	}
	lo, hi := 1e-4, 20.0/3600
	for range 200 {
		q := (lo + hi) / 2
		v := q / (math.Pi / 4 * 0.05 * 0.05)
		f := colebrook(v*0.05/1e-6, 1e-3)
		loss := (f*20/0.05 + 1.5 + 4) * v * v / (2 * 9.80665)
		if loss < 10-10*q/(20.0/3600) {
			lo = q
		} else {
			hi = q
		}
	}
	approx(t, "flow", s.Part("pump").Flow, lo, 1e-9)
	approx(t, "head", s.Part("pump").HeadM, 10-10*lo/(20.0/3600), 1e-9)
	v := lo / (math.Pi / 4 * 0.05 * 0.05)
	approx(t, "velocity", s.Run("pipe").Velocity, v, 1e-9)
	approx(t, "reynolds", s.Run("pipe").Reynolds, v*0.05/1e-6, 1e-9)
	approx(t, "filter", s.Part("filter").Drop, 4*v*v/2*1000, 1e-9)
	approx(t, "friction", s.Run("pipe").Friction, colebrook(v*0.05/1e-6, 1e-3), 1e-9)
}

// Entrance 0.5 where the pipe leaves the tub and exit 1.0 where one enters.
func TestEntranceAndExit(t *testing.T) {
	ideal := solve(t, loopText, "on")
	text := strings.Replace(loopText, `loss = "none"`, "", 1)
	s := solve(t, text, "on")
	r := s.Run("pipe")
	k := (r.Drop - r.PipeDrop) / (1000 * r.Velocity * r.Velocity / 2)
	approx(t, "K", k, 1.5+0.5, 1e-9)
	if s.Part("pump").Flow >= ideal.Part("pump").Flow {
		t.Error("the entrance costs nothing")
	}
}

// Every form of a loss that comes to the same must give the same.
func TestFormsOfLoss(t *testing.T) {
	want := solve(t, loopText, "on").Part("filter").Flow
	a := math.Pi / 4 * 0.05 * 0.05
	pa := 4 * 1000 / (2 * a * a) // Pa per (m³/s)²
	kv := 3600 * math.Sqrt(1e5/pa)
	at := func(m3h float64) string { return num(pa * m3h * m3h / 3600 / 3600) }
	for _, form := range []string{
		`{ flow = "10 m3/h", drop = "` + at(10) + ` Pa", exponent = 2 }`,
		`{ points = [["4 m3/h", "` + at(4) + ` Pa"], ["9 m3/h", "` + at(9) + ` Pa"], ["30 m3/h", "` + at(30) + ` Pa"]] }`,
		`{ kv = "` + num(kv) + ` m3/h" }`,
		`{ cv = "` + num(kv/0.864977) + ` gpm" }`,
		`{ flow = "10 m3/h", drop = "` + num(pa*100/3600/3600/9806.65) + ` m", exponent = 2 }`,
	} {
		s := solve(t, strings.Replace(loopText, `{ k = 4, bore = "50 mm" }`, form, 1), "on")
		approx(t, form, s.Part("filter").Flow, want, 2e-6)
	}
	none := solve(t, strings.Replace(loopText, `{ k = 4, bore = "50 mm" }`, `"none"`, 1), "on")
	if none.Part("filter").Drop > 1e-3 {
		t.Errorf("an ideal part costs %g Pa", none.Part("filter").Drop)
	}
}

// Past the last point of a table a note says so.
func TestPastTable(t *testing.T) {
	s := solve(t, strings.Replace(loopText, `{ k = 4, bore = "50 mm" }`, `{ points = [["2 m3/h", "1 kPa"], ["4 m3/h", "4 kPa"]] }`, 1), "on")
	if !hasNote(s, "past the last point of its loss") {
		t.Errorf("no note in %v", s.Notes)
	}
}

// A spring whose cracking pressure nobody said is told to be assumed, one that was said is not; a
// swing has none to be said.
func TestAssumedSpringIsTold(t *testing.T) {
	for keys, want := range map[string]bool{"style = \"spring\"": true, "style = \"spring\"\ncracking = \"0.5 psi\"": false, "style = \"swing\"": false} {
		s := solve(t, strings.Replace(loopText, "kind = \"filter\"\nloss =", "kind = \"check-valve\"\n"+keys+"\nloss =", 1), "on")
		if got := hasNote(s, "nothing says at what pressure"); got != want {
			t.Errorf("%s: told %t, want %t: %v", keys, got, want, s.Notes)
		}
	}
}

func hasNote(s *hydraulic.Solution, text string) bool {
	return slices.ContainsFunc(s.Notes, func(d graph.Diagnostic) bool { return strings.Contains(d.Message.String(), text) })
}

func num(v float64) string {
	return strings.TrimRight(strings.TrimRight(formatFloat(v), "0"), ".")
}

// A pump that would run past its curve is refused by name.
func TestBeyondCurve(t *testing.T) {
	text := strings.Replace(loopText, `["10 m3/h", "5 m"], ["20 m3/h", "0 m"]`, `["5 m3/h", "9 m"]`, 1)
	c := read(t, text)
	_, err := hydraulic.Solve(laying.Of(c), c.AllModes()[0], graph.After)
	var beyond *hydraulic.BeyondCurveError
	if !errors.As(err, &beyond) {
		t.Fatalf("got %v, want a *BeyondCurveError", err)
	}
	if beyond.Pump != "pump" || !agree.Within(beyond.Last, 5.0/3600, 1e-12) || beyond.Flow <= beyond.Last {
		t.Errorf("got %+v", beyond)
	}
}

// Without a check or pipe in the laminar or smooth range, flow goes as the speed, head as
// its square, what the water gets as its cube (affinity laws). What the pump takes falls more slowly,
// for a motor wastes more of it the slower it turns: of 900 W a quarter by the square and an eighth by
// the cube, and what flow says is what was settled.
func TestAffinity(t *testing.T) {
	text := strings.Replace(loopText, `curve = [["0 m3/h", "10 m"], ["10 m3/h", "5 m"], ["20 m3/h", "0 m"]]`,
		`speeds = [ { name = "full", power = "900 W", curve = [["0 m3/h", "10 m"], ["8 m3/h", "8.8 m"], ["20 m3/h", "0 m"]] }, { name = "half", ratio = 0.5 } ]`, 1)
	text = strings.Replace(text, `length = "20 m"`, `length = "0 mm"`, 1)
	full, half := solve(t, text, "full").Part("pump"), solve(t, text, "half").Part("pump")
	approx(t, "flow", half.Flow, full.Flow/2, 1e-9)
	approx(t, "head", half.HeadM, full.HeadM/4, 1e-9)
	water := func(p *hydraulic.PartFlow) float64 { return p.PowerW * p.Efficiency }
	approx(t, "power of the water", water(half), water(full)/8, 1e-9)
	if half.PowerW <= 900/8 || half.PowerW >= 900/4 {
		t.Errorf("at half speed it takes %.0f W of 900", half.PowerW)
	}
	settled := laying.Of(read(t, text)).Stage.Part("pump")
	approx(t, "power", half.PowerW, settled.PowerAt("half").V, 1e-12)
	// a tenth of what it takes comes to the water, at either speed
	text = strings.Replace(text, `power = "900 W"`, `efficiency = 0.1`, 1)
	full, half = solve(t, text, "full").Part("pump"), solve(t, text, "half").Part("pump")
	approx(t, "power by efficiency", half.PowerW, full.PowerW/8, 1e-9)
	approx(t, "efficiency", half.Efficiency, 0.1, 1e-12)
}

// A curve that rises meets a spring twice: no flow, for the shut-off head does not open it, which is
// what a start from rest comes to and is given; and the flow at which it stays open once its water
// moves, at which pump and circuit meet again.
func TestRisingCurve(t *testing.T) {
	text := strings.Replace(loopText, `[["0 m3/h", "10 m"], ["10 m3/h", "5 m"], ["20 m3/h", "0 m"]]`, `[["0 m3/h", "5 m"], ["5 m3/h", "9 m"], ["9 m3/h", "8 m"], ["20 m3/h", "0 m"]]`, 1)
	one := solve(t, text, "on")
	if hasNote(one, "two flows at which it holds") {
		t.Error("one answer, but the note says two")
	}
	text = strings.Replace(text, "kind = \"filter\"\nloss =", "kind = \"check-valve\"\ncracking = \"6 m\"\nloss =", 1)
	s := solve(t, text, "on")
	if s.Part("filter").State != "shut" || s.Part("pump").Flow != 0 || s.Part("pump").Moving < 1e-3 {
		t.Errorf("the check is %s at %g m³/s, at %g m³/s were its water moving", s.Part("filter").State, s.Part("pump").Flow, s.Part("pump").Moving)
	}
	if hasNote(s, "no water passes") {
		t.Errorf("no water passes, and it is told twice: %v", s.Notes)
	}
	weak := solve(t, strings.Replace(text, `cracking = "6 m"`, `cracking = "4.5 m"`, 1), "on") // below the shut-off head of 5 m
	if p := weak.Part("pump"); p.Flow < 1e-3 || p.Moving != p.Flow || hasNote(weak, "two flows at which it holds") {
		t.Errorf("a spring the pump opens from rest: %g and %g m³/s, %v", p.Flow, p.Moving, weak.Notes)
	}
	if !hasNote(s, "two flows at which it holds") {
		t.Errorf("no note of two answers: %v", s.Notes)
	}
	// beside it a pump of the same curve on a line of its own, which holds at one flow, or is shut in
	beside := strings.Replace(text, `ports = ["a", "b"]`, `ports = ["a", "b", "c", "d"]`, 1)
	_, own, _ := strings.Cut(beside, "id = \"pump\"")
	pump, after, _ := strings.Cut(own, "[[part]]")
	_, runs, _ := strings.Cut(after, "[[run]]")
	for position, shutIn := range map[string]bool{"open": false, "shut": true} {
		other := strings.NewReplacer("id = \"pipe", "id = \"other-pipe", "\"pump.", "\"other-pump.", "\"filter.", "\"other-valve.", "tub.a", "tub.c", "tub.b", "tub.d").
			Replace("\n[[part]]\nid = \"other-pump\"" + pump + "[[part]]\nid = \"other-valve\"\nkind = \"ball-valve\"\nposition = \"" + position + "\"\n[[run]]" + runs)
		s := solve(t, beside+other+"\n[[mode]]\nname = \"on\"\nspeeds = { pump = \"on\", other-pump = \"on\" }\n", "on")
		if !hasNote(s, `"pump" has two flows at which it holds`) || hasNote(s, `"other-pump" has two flows`) || hasNote(s, `"other-pump" runs and no water passes it`) != shutIn {
			t.Errorf("the other pump's valve %s: %v", position, s.Notes)
		}
	}
}

// The unit's branch of trade practice: 13.7 kPa at 4 m³/h, square law: springs of 1/2, 1 and
// 2 psi open once 2.0, 2.8 and 4.0 m³/h pass the branch; worked out there.
func TestSpringAgainstBranch(t *testing.T) {
	for _, c := range []struct{ psi, flow float64 }{{0.5, 2.0}, {1, 2.8}, {2, 4.0}} {
		exact := 4 * math.Sqrt(c.psi*6.894757/13.7)
		approx(t, "flow", exact, c.flow, 0.015)
		for _, share := range []float64{0.9, 1.1} { // of the flow that opens it
			text := branchText(exact*share, c.psi)
			s := solve(t, text, "on")
			want := "shut"
			if share > 1 {
				want = "lifting"
			}
			check := s.Part("check")
			if check.State != want {
				t.Errorf("%g psi at %g of the flow: %s, want %s", c.psi, share, check.State, want)
			}
			if want == "shut" {
				approx(t, "margin", check.MarginFlow*3600, exact-exact*share, 3e-3)
				approx(t, "margin", check.MarginPa, c.psi*6894.757*(1-share*share), 3e-3)
			}
		}
	}
}

// branchText is a pump that gives very nearly one flow, in m³/h, to a unit past a check.
func branchText(flow, psi float64) string {
	return strings.NewReplacer("FLOW0", num(flow*0.999), "FLOW1", num(flow*1.0), "FLOW2", num(flow*1.001), "PSI", num(psi)).Replace(`
[water]
density = "1000 kg/m3"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "99 m"], ["FLOW0 m3/h", "98 m"], ["FLOW2 m3/h", "0 m"]]
[[part]]
id = "s"
kind = "tee"
loss = "none"
[[part]]
id = "m"
kind = "tee"
loss = "none"
[[part]]
id = "check"
kind = "check-valve"
cracking = "PSI psi"
loss = { kv = "10 m3/h" }
[[part]]
id = "unit"
kind = "heat-pump"
loss = { flow = "4 m3/h", drop = "13.7 kPa", exponent = 2 }
[[part]]
id = "back"
kind = "filter"
loss = { flow = "FLOW1 m3/h", drop = "490 kPa", exponent = 2 }
` + join("tub.a", "pump.in") + join("pump.out", "s.run-in") + join("s.run-out", "check.in") + join("check.out", "m.run-in") +
		join("s.branch", "unit.in") + join("unit.out", "m.branch") + join("m.run-out", "back.in") + join("back.out", "tub.b"))
}

// join is a run without pipe.
func join(from, to string) string {
	return "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nspec = \"pvc-sch40\"\nsize = \"2 in\"\nlength = \"0 mm\"\n"
}
