package hydraulic_test

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// A pump, a spring in the line past a part of K, and another part beside it. All losses but the
// spring's go with the square.
const squareText = `
[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "6 m"], ["10 m3/h", "5 m"], ["20 m3/h", "1 m"]]
[[part]]
id = "t1"
kind = "tee"
[[part]]
id = "t2"
kind = "tee"
[[part]]
id = "spring"
kind = "check-valve"
style = "spring"
cracking = "CRACK"
loss = { kv = "40 m3/h" }
[[part]]
id = "unit"
kind = "heat-pump"
loss = { k = 9, bore = "40 mm" }
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "t1.run-in"
length = "1 m"
[[run]]
from = "t1.run-out"
to = "spring.in"
length = "0 mm"
[[run]]
from = "spring.out"
to = "t2.run-in"
length = "0 mm"
[[run]]
from = "t1.branch"
to = "unit.in"
length = "0 mm"
[[run]]
from = "unit.out"
to = "t2.branch"
length = "0 mm"
[[run]]
from = "t2.run-out"
to = "tub.b"
length = "1 m"
`

// An open spring shuts after as much less as it costs beyond its cracking pressure: at a flow Q
// through a Kv of 40 that is (Q/40)² bar times the water's density over 1,000 kg/m³ (IEC 60534-2-1).
func TestMarginOfAnOpenSpring(t *testing.T) {
	s := solve(t, strings.Replace(squareText, "CRACK", "5 kPa", 1), "on")
	p := s.Part("spring")
	if p.State != "lifting" {
		t.Fatalf("the spring is %s", p.State)
	}
	q := p.Flow * 3600 / 40
	approx(t, "margin", p.MarginPa, 1e5*q*q*s.Water.Density/1000, 1e-6)
	approx(t, "drop", p.Drop, 5000+p.MarginPa, 1e-9)
}

// A shut spring opens when what passes it has risen by the root of the pressures' ratio, for part
// and tees go with the square of the flow.
func TestMarginOfAShutSpring(t *testing.T) {
	s := solve(t, strings.Replace(squareText, "CRACK", "45 kPa", 1), "on")
	p := s.Part("spring")
	if p.State != "shut" || !(p.Drop > 0) {
		t.Fatalf("the spring is %s with %g Pa over it", p.State, p.Drop)
	}
	through := s.Part("unit").Flow
	approx(t, "opens after", p.MarginFlow, through*(math.Sqrt((p.Drop+p.MarginPa)/p.Drop)-1), 1e-6)
	if whole := s.Part("unit").Drop; !(p.Drop > 1.05*whole) {
		t.Errorf("the tees beside it cost %g Pa of %g: too little to tell", p.Drop-whole, p.Drop)
	}
}

// A pipe's end at the tub is an entrance to water that comes and an exit to water that goes: 0.5
// and 1.0 on its bore, sharp (any handbook).
func TestEndsAtTheTubBothWays(t *testing.T) {
	text := strings.Replace(strings.Replace(squareText, "CRACK", "5 kPa", 1), "loss = \"none\"\n", "", 1)
	c := read(t, text)
	m, err := hydraulic.Build(laying.Of(c), mode(t, c, "on"), graph.After)
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, r := range m.Runs {
		for _, f := range r.Fittings {
			switch f.Kind {
			case "entrance":
				approx(t, "entrance", f.K, 0.5, 1e-12)
				approx(t, "entrance, backwards", f.KBack, 1, 1e-12)
				found++
			case "exit":
				approx(t, "exit", f.K, 1, 1e-12)
				approx(t, "exit, backwards", f.KBack, 0.5, 1e-12)
				found++
			}
		}
	}
	if found != 2 {
		t.Errorf("%d ends at the tub, want 2", found)
	}
}

// A barb by hand: water goes from a hose of 1 in into a barb 2 mm narrower all round and out again:
// contraction 0.42·(1-d²/D²) (White), expansion (1-d²/D²)² (Borda), and 45 mm of barb at f 0.03. On
// the barb's own bore that is 0.27; the handful of per cent between the two is judgement.
func TestBarbByHand(t *testing.T) {
	text := strings.Replace(squareText, "CRACK", "5 kPa", 1)
	text = strings.Replace(text, "spec = \"pvc-sch40\"\nsize = \"2 in\"", "spec = \"hose\"\nsize = \"1 in\"", 1)
	c := read(t, text)
	m, err := hydraulic.Build(laying.Of(c), mode(t, c, "on"), graph.After)
	if err != nil {
		t.Fatal(err)
	}
	d, whole := 21.4, 25.4
	a := d * d / (whole * whole)
	want := 0.42*(1-a) + (1-a)*(1-a) + 0.03*45/d
	for _, r := range m.Runs {
		for _, f := range r.Fittings {
			if f.Barb {
				approx(t, "barb in "+r.Run.ID, f.K, want, 0.15)
				approx(t, "bore of the barb", f.BoreM, d/1000, 1e-9)
				return
			}
		}
	}
	t.Error("no barb on a hose")
}

// The Kv of a valve is that of its own position; at another it is another's by the handbook's
// coefficients: a gate half open 4.5, three quarters 0.9 (Perry), a fifth of the loss.
func TestOwnKvAtAnotherPosition(t *testing.T) {
	text := strings.Replace(squareText, "kind = \"check-valve\"\nstyle = \"spring\"\ncracking = \"CRACK\"\nloss = { kv = \"40 m3/h\" }", "kind = \"gate-valve\"\nposition = \"50 %\"\nkv = \"20 m3/h\"", 1)
	text += "\n[[mode]]\nname = \"own\"\nspeeds = { pump = \"on\" }\n[[mode]]\nname = \"wider\"\nspeeds = { pump = \"on\" }\npositions = { spring = \"75 %\" }\n"
	for name, part := range map[string]float64{"own": 1, "wider": 0.9 / 4.5} {
		s := solve(t, text, name)
		q := s.Part("spring").Flow * 3600 / 20
		approx(t, name, s.Part("spring").Drop, part*1e5*q*q*s.Water.Density/1000, 1e-6)
	}
}

// Jets of a pump for circulation, which shuts off at 6 to 8 m (common practice), are open returns and
// take a tenth of its head or so; those of a jet pump, 12 to 18 m, more than half: a tub has a dozen.
func TestReturnsOfACirculationPump(t *testing.T) {
	text := strings.Replace(strings.Replace(squareText, "CRACK", "45 kPa", 1), "[[part]]\nid = \"unit\"", "[[part]]\nid = \"jets\"\nkind = \"jet-group\"\ncount = 12\n[[part]]\nid = \"unit\"", 1)
	text = strings.Replace(text, "from = \"t2.run-out\"\nto = \"tub.b\"", "from = \"t2.run-out\"\nto = \"jets.in\"\nlength = \"1 m\"\n[[run]]\nfrom = \"jets.out\"\nto = \"tub.b\"", 1)
	share := func(shut string) float64 {
		s := solve(t, strings.Replace(text, `["0 m3/h", "6 m"], ["10 m3/h", "5 m"]`, shut, 1), "on")
		return s.Part("jets").Drop / s.Water.Density / 9.80665 / s.Part("pump").HeadM
	}
	if got := share(`["0 m3/h", "8 m"], ["10 m3/h", "6 m"]`); !(got < 0.25) {
		t.Errorf("shut off at 8 m: the returns take %.2f of the head", got)
	}
	if got := share(`["0 m3/h", "14 m"], ["10 m3/h", "11 m"]`); !(got > 0.4) {
		t.Errorf("shut off at 14 m: the jets take %.2f of the head", got)
	}
}

// Water that a running pump draws back through the jets of one that stands, by a suction they have
// in common, is nothing the jets get: what they get is what the running pump's own give, whichever
// way a group is written. By continuity (what passes the pump is what its own jets give and the
// other's are drawn in).
func TestJetsDrawnBackGetNothing(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-sch40"
size = "1-1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "a", "b"]
[[part]]
id = "tee"
kind = "tee"
[[part]]
id = "heat"
kind = "pump"
curve = [["0 m3/h", "7 m"], ["10 m3/h", "0 m"]]
[[part]]
id = "jet"
kind = "pump"
curve = [["0 m3/h", "15 m"], ["28 m3/h", "0 m"]]
[[part]]
id = "eyes"
kind = "jet-group"
count = 2
bore = "15 mm"
[[part]]
id = "jets"
kind = "jet-group"
count = 10
bore = "9 mm"
[[run]]
from = "tub.suction"
to = "tee.run-in"
length = "3 m"
[[run]]
from = "tee.run-out"
to = "heat.in"
length = "1 m"
[[run]]
from = "tee.branch"
to = "jet.in"
length = "1 m"
[[run]]
from = "heat.out"
to = "eyes.in"
length = "1 m"
[[run]]
from = "eyes.out"
to = "tub.a"
length = "1 m"
[[run]]
from = "jet.out"
to = "jets.IN"
length = "1 m"
[[run]]
from = "jets.OUT"
to = "tub.b"
length = "1 m"
[[mode]]
name = "heat"
speeds = { heat = "on" }
[[mode]]
name = "all"
speeds = { heat = "on", jet = "on" }
`
	for _, ways := range []string{"IN in OUT out", "IN out OUT in"} {
		way := strings.Fields(ways)
		written := strings.NewReplacer(way[0], way[1], way[2], way[3]).Replace(text)
		s := solve(t, written, "heat")
		drawn, eyes := math.Abs(s.Part("jets").Flow), s.Part("eyes").Flow
		if drawn < 0.1*eyes {
			t.Fatalf("%s: only %.3g of %.3g m³/s is drawn back", ways, drawn, eyes)
		}
		got, _ := s.JetsFlow()
		approx(t, ways+": the jets get", got, s.Part("heat").Flow, 1e-9)
		s = solve(t, written, "all")
		got, _ = s.JetsFlow()
		approx(t, ways+": all pumps on", got, s.Part("heat").Flow+s.Part("jet").Flow, 1e-9)
	}
}
