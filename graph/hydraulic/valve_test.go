package hydraulic_test

import (
	"math"
	"strings"
	"testing"

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
`

// withValve is a tub, a pump and one valve of a kind that stands somewhere, and the pipes between them.
func withValve(kind, at string) string {
	return strings.NewReplacer("KIND", kind, "AT", at).Replace(valveLine) + join("tub.a", "pump.in") + join("pump.out", "v.in") + join("v.out", "tub.b")
}

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
			text := withValve(kind, at)
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
	set := laying.Of(read(t, withValve(`kind = "ball-valve"`, "open"))).Stage.Part("v")
	kvOf := func(k float64) float64 { return math.Sqrt(formula.KvToK(1, set.Bore.V/1000) / k) }
	if got, ok := hydraulic.StandsAt(set, kvOf(3.4), 993); !ok || !agree.Within(got, 0.7090, 0.0005) {
		t.Errorf("K 3.4: %.4f of its way (%v)", got, ok)
	}
	if got, ok := hydraulic.StandsAt(set, kvOf(0.01), 993); ok {
		t.Errorf("K 0.01 of a valve that costs more fully open: %.3f of its way", got)
	}
}
