package hydraulic_test

import (
	"math"
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// A gauge reads the head in the pipe less its velocity head, and the water above it. A pump of 10 m that
// one unit takes all of, at 10 m³/h: in a pipe of 50 mm the water goes 1.4147 m/s, 0.10205 m of head, and
// the unit stands 3 m below: 9.80665·(10 - 0.10205 + 3) kPa. By hand.
func TestGaugeByHand(t *testing.T) {
	const text = `
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
curve = [["0 m3/h", "10 m"], ["100 m3/h", "10 m"]]
[[part]]
id = "unit"
kind = "heat-pump"
below-water = "3 m"
loss = { flow = "10 m3/h", drop = "98.0665 kPa", exponent = 2 }
`
	run := func(from, to string) string {
		return "[[run]]\nfrom = \"" + from + "\"\nto = \"" + to + "\"\nlength = \"0 mm\"\nbore = \"50 mm\"\n"
	}
	c := read(t, text+run("tub.a", "pump.in")+run("pump.out", "unit.in")+run("unit.out", "tub.b"))
	m, err := hydraulic.Build(laying.Of(c.At(graph.After)), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	s, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	pa, level, ok := m.Gauge(s, m.PartAt["unit"], "in")
	if !ok || !level {
		t.Fatalf("level known %v, water %v", level, ok)
	}
	v := 10.0 / 3600 / (math.Pi / 4 * 0.05 * 0.05)
	approx(t, "the gauge", pa, 9806.65*(10-v*v/(2*9.80665)+3), 1e-4)
	approx(t, "as the report has it", s.Part("unit").StaticPa, pa, 1e-9)
	if _, _, ok := m.Gauge(s, m.PartAt["unit"], "drain"); ok {
		t.Error("a port that is none has a pressure")
	}
	if at, _, _ := m.Gauge(s, m.PartAt["pump"], "in"); !(at < 0) {
		t.Errorf("before the pump stand %.0f Pa, by its velocity less than none", at)
	}
}
