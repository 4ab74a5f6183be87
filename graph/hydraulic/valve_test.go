package hydraulic_test

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/route/laying"
)

const valveLine = `
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "v"
position = "AT"
KIND
` // and the pipes between them

const slowValve = `
[[catalog.ball-valve]]
name = "slow"
size = "2 in"
length = "90 mm"
socket = "38 mm"
ends = "socket"
rating = "10 bar"
kv = "200 m3/h"
opening = [["0 %", "0 %"], ["25 %", "5 %"], ["50 %", "10 %"], ["75 %", "20 %"], ["100 %", "100 %"]]
source = "made up"
`

// Where a handle stands for a Kv is read off the curve by which what passes it there is worked out, of
// whatever is known of the valve: the table of its kind, a row's own curve, its own loss fully open. What
// passes at 1 bar is taken from the solution, of water of its density (the definition of Kv, VDI/VDE 2173,
// from memory).
func TestValveStandsWhereItIsSolved(t *testing.T) {
	for _, kind := range []string{
		`kind = "ball-valve"`, `kind = "gate-valve"`, `kind = "butterfly-valve"`,
		"kind = \"ball-valve\"\ntype = \"slow\"" + slowValve,
		"kind = \"ball-valve\"\nloss = { kv = \"40 m3/h\" }",
		"kind = \"ball-valve\"\ntype = \"slow\"\nloss = { k = 4 }" + slowValve,
	} {
		for _, at := range []string{"30 %", "50 %", "70 %"} {
			text := strings.NewReplacer("KIND", kind, "AT", at).Replace(valveLine) + join("tub.a", "pump.in") + join("pump.out", "v.in") + join("v.out", "tub.b")
			s := solve(t, text, "on")
			v := s.Part("v")
			kv := v.Flow * 3600 * math.Sqrt(1e5/v.Drop*s.Water.Density/1000)
			set := laying.Of(read(t, text)).Stage.Part("v")
			got, ok := hydraulic.StandsAt(set, kv, s.Water.Density)
			if want := float64(set.Valve.Position); !ok || !agree.Within(got, want, 1e-3) {
				t.Errorf("%s at %s: for Kv %.2f its handle stands at %.4f (%v)", kind, at, kv, got, ok)
			}
		}
	}
}

// A cock of K 3.4 on its bore stands at 0.709 of its way: between 60 degrees, K 5.47, and 70, K 1.56 (Perry,
// as in openings.csv), its logarithm going straight: 60 + 10 ln(5.47/3.4) / ln(5.47/1.56) degrees of 90. One
// asked for more than it passes fully open is told by the flow alone.
func TestWhereAHandleStands(t *testing.T) {
	text := strings.NewReplacer("KIND", `kind = "ball-valve"`, "AT", "open").Replace(valveLine) + join("tub.a", "pump.in") + join("pump.out", "v.in") + join("v.out", "tub.b")
	set := laying.Of(read(t, text)).Stage.Part("v")
	kvOf := func(k float64) float64 { return math.Sqrt(formula.KvToK(1, set.Bore.V/1000) / k) }
	if got, ok := hydraulic.StandsAt(set, kvOf(3.4), 993); !ok || !agree.Within(got, 0.7090, 0.0005) {
		t.Errorf("K 3.4: %.4f of its way (%v)", got, ok)
	}
	if got, ok := hydraulic.StandsAt(set, kvOf(0.01), 993); ok {
		t.Errorf("K 0.01 of a valve that costs more fully open: %.3f of its way", got)
	}
}

// Jets of which nobody knows a bore are taken as their maker sized them to the pump, groups by how many they
// are: of four and twelve the twelve get three times the water, where nothing else stands in either way.
func TestGroupsOfJetsShareByTheirCount(t *testing.T) {
	const two = `
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b", "c"]
loss = "none"
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["15 m3/h", "7 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "m"
kind = "manifold"
ports = ["in", "left", "right"]
loss = "none"
[[part]]
id = "few"
kind = "jet-group"
count = 4
[[part]]
id = "many"
kind = "jet-group"
count = 12
`
	s := solve(t, two+join("tub.a", "pump.in")+join("pump.out", "m.in")+join("m.left", "few.in")+join("m.right", "many.in")+
		join("few.out", "tub.b")+join("many.out", "tub.c"), "on")
	approx(t, "twelve against four", s.Part("many").Flow, 3*s.Part("few").Flow, 1e-6)
}

// A watt in 1 l/s warms what comes to the next part by 1/(ρ c · 0.001) K, and in half of that water, mixed with
// the other half that nobody warms, the same: by the balance of heat, 4.178 kJ/(kg K) and 992.2 kg/m³ at 40 °C
// (IAPWS, from memory).
func TestAWattWarmsTheNext(t *testing.T) {
	const line = `
[water]
temperature = "40 °C"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "one"
kind = "element-heater"
[[part]]
id = "two"
kind = "heat-exchanger"
`
	text := line + join("tub.a", "pump.in") + join("pump.out", "one.in") + join("one.out", "two.in") + join("two.out", "tub.b")
	c := read(t, text)
	s, err := hydraulic.Solve(laying.Of(c), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	w := s.Warmed([]string{"one", "two"})
	approx(t, "the second, by the first", w[1][0], 1/(992.2*4178*s.Part("two").Flow), 0.002)
	if w[0][1] != 0 {
		t.Errorf("the first is warmed by the second, %g K/W, though the tub mixes its water", w[0][1])
	}
}
