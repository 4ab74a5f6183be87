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

// A gauge at a port stands as high as that: 500 mm above the inlet of the unit, of which the depth is
// said, and 300 mm below that of a filter that legs lead to. By hand: 9806.65 Pa a metre.
func TestGaugeStandsWhereItsPortIs(t *testing.T) {
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
loss = "none"
port.out = { at = ["right 200 mm", "up 500 mm"] }
[[part]]
id = "filter"
kind = "filter"
loss = { flow = "10 m3/h", drop = "98.0665 kPa", exponent = 2 }
port.out = { at = ["right 200 mm", "down 300 mm"] }
[[run]]
from = "tub.a"
to = "pump.in"
length = "0 mm"
bore = "50 mm"
[[run]]
from = "pump.out"
to = "unit.in"
length = "0 mm"
bore = "50 mm"
[[run]]
from = "unit.out"
to = "filter.in"
bore = "50 mm"
spec = "pvc-sch40"
size = "1 1/2 in"
legs = ["right 400 mm"]
[[run]]
from = "filter.out"
to = "tub.b"
length = "0 mm"
bore = "50 mm"
`
	c := read(t, text)
	m, err := hydraulic.Build(laying.Of(c.At(graph.After)), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	s, err := m.Solve(nil)
	if err != nil {
		t.Fatal(err)
	}
	gauge := func(part, port string) float64 {
		pa, level, ok := m.Gauge(s, m.PartAt[part], port)
		if !level || !ok {
			t.Fatalf("%s.%s: level known %v, water %v", part, port, level, ok)
		}
		return pa
	}
	// the unit loses nothing, so that a gauge at its outlet reads what one at its inlet does, less 500 mm
	approx(t, "over the unit", gauge("unit", "in")-gauge("unit", "out"), 9806.65*0.5, 1e-9)
	approx(t, "at the part", gauge("unit", ""), gauge("unit", "in"), 1e-12)
	drop := s.Part("filter").Drop
	approx(t, "over the filter", gauge("filter", "in")-gauge("filter", "out"), drop-9806.65*0.3, 1e-9)
	// 2.5 m deep at the unit's outlet and so at the filter's inlet, but for the pipe between
	approx(t, "before the filter", gauge("unit", "out")-gauge("filter", "in"), s.Runs[2].Drop, 1e-9)
}
