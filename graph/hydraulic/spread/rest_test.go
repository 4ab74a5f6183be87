package spread

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// A pump whose curve rises from 1.5 m to 2.6 m, both within 4 %, never lifts a spring of 2 m within
// 5 % from rest, and holds it open once its water moves: the least flow is promised of what a start
// gives, nothing, in all of the samples. A spring of 1 m it lifts from rest, and there is one answer.
// By comparing the heads.
func TestLeastFlowIsPromisedFromRest(t *testing.T) {
	const text = `
[pipe]
spec = "pvc-sch40"
size = "1-1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
known = "measured"
curve = [["0 m3/h", "1.5 m"], ["2 m3/h", "2.6 m"], ["4 m3/h", "2.4 m"], ["6 m3/h", "0.8 m"]]
[[part]]
id = "spring"
kind = "check-valve"
style = "spring"
known = "measured"
cracking = "CRACK"
loss = { k = 2 }
[[part]]
id = "unit"
kind = "heat-pump"
flow = { least = "1 m3/h", most = "9 m3/h" }
loss = { flow = "4 m3/h", drop = "0.5 kPa" }
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "spring.in"
length = "1 m"
[[run]]
from = "spring.out"
to = "unit.in"
length = "1 m"
[[run]]
from = "unit.out"
to = "tub.b"
length = "1 m"
`
	for crack, want := range map[string]float64{"2 m": 0, "1 m": 1} {
		c, ds := description.Read("rest.toml", []byte(strings.Replace(text, "CRACK", crack, 1)))
		if c == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		lay := laying.Of(c.At(graph.After))
		r := Coarse(lay, lay, "unit", 64)
		least, most := r.Promises[0], r.Promises[1]
		if least.Kind != LeastFlow || most.Kind != MostFlow {
			t.Fatalf("%+v", r.Promises)
		}
		if least.Share != want || most.Share != 1 {
			t.Errorf("spring of %s: at least the least flow in %g, at most the most in %g of the samples, want %g and 1", crack, least.Share, most.Share, want)
		}
		if said := strings.HasPrefix(string(least.Text), "started from rest"); said != (want == 0) {
			t.Errorf("spring of %s: %q", crack, least.Text)
		}
	}
}
