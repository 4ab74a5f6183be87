package template

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/route/laying"
)

// described is a cut that stands in the description: 1-1/2 in Schedule 80, two tees and a
// piece of 100 mm between them. Take-off 25.4 and depth 34.925: ASTM D2467.
const described = `
[pipe]
spec = "pvc-sch80"
size = "1-1/2 in"
measured-outside-diameter = "48.3 mm"
[[part]]
id = "tub"
kind = "tub"
ports = ["out", "back"]
[[part]]
id = "pump"
kind = "pump"
existing = true
curve = [["0 m3/h", "6 m"], ["12 m3/h", "2 m"]]
[[part]]
id = "a"
kind = "tee"
[[part]]
id = "b"
kind = "tee"
[[part]]
id = "unit"
kind = "heat-pump"
[[run]]
from = "tub.out"
to = "pump.in"
existing = true
length = "1 m"
[[run]]
from = "pump.out"
to = "a.run-in"
remains-of = "line"
existing = true
legs = ["up 200 mm", "right 600 mm"]
[[run]]
id = "line"
from = "pump.out"
to = "tub.back"
existing = true
removed = true
legs = ["up 200 mm", "right 1650.8 mm"]
[[run]]
from = "a.run-out"
to = "b.run-in"
legs = ["right 150.8 mm"]
[[run]]
from = "b.run-out"
to = "tub.back"
remains-of = "line"
existing = true
legs = ["right 900 mm"]
[[run]]
from = "a.branch"
to = "unit.in"
legs = ["up 200 mm"]
[[run]]
from = "unit.out"
to = "b.branch"
legs = ["down 200 mm"]
`

func TestOfRemains(t *testing.T) {
	c, found := description.Read("cut.toml", []byte(described))
	if c == nil {
		t.Fatalf("no circuit: %v", found)
	}
	cuts := OfRemains(laying.Of(c.At(graph.Before)), laying.Of(c.At(graph.After)))
	if len(cuts) != 2 {
		t.Fatalf("%d cuts, want 2", len(cuts))
	}
	for i, want := range []Cut{
		// from the face of the elbow (25.4 + 34.925 from its centre) to the tee's stop
		{Name: "X1", Other: "X2", Run: "line", FromMM: 600 - 25.4 - 34.925 - 25.4, DepthMM: 34.925, OtherMM: 150.8 + 2*25.4, OutsideMM: 48.3, Flow: 1},
		{Name: "X2", Other: "X1", Run: "line", FromMM: 900 - 25.4 - 34.925, DepthMM: 34.925, OtherMM: 150.8 + 2*25.4, OutsideMM: 48.3, Flow: 1, Second: true},
	} {
		got := cuts[i]
		if got.Name != want.Name || got.Other != want.Other || got.Run != want.Run || got.Second != want.Second || got.Flow != want.Flow || !got.Measured {
			t.Errorf("got %+v, want %+v", got, want)
		}
		for what, v := range map[string][2]float64{"from": {got.FromMM, want.FromMM}, "depth": {got.DepthMM, want.DepthMM},
			"other": {got.OtherMM, want.OtherMM}, "outside": {got.OutsideMM, want.OutsideMM}} {
			if !agree.Within(v[0], v[1], 0.02) {
				t.Errorf("%s, %s: got %.3f mm, want %.3f", got.Name, what, v[0], v[1])
			}
		}
	}
}
