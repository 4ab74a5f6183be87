package spread_test

import (
	"math"
	"strings"
	"testing"

	"dryfit/catalog/tables"
	"dryfit/graph/agree"
	"dryfit/graph/hydraulic/spread"
)

// Two units side by side, each between a pump that holds ten metres whatever it gives and the tub: a
// unit's own drop by a factor k alone moves its flow by 1/√k and the other's not at all. What is guessed
// of the second is told of the second, first of all, and settles what is promised of it, never what is
// promised of the first. Worked by hand; the span is what spreads.csv says of a unit's loss, assumed.
func TestInfluenceOnASecondUnit(t *testing.T) {
	unit := func(id, known string) string {
		return "[[part]]\nid = \"" + id + "\"\nkind = \"heat-pump\"\nknown = \"" + known + "\"\n" +
			"flow = { least = \"9 m3/h\", rated = \"10 m3/h\", most = \"11 m3/h\" }\nloss = { flow = \"10 m3/h\", drop = \"98.0665 kPa\", exponent = 2 }\n"
	}
	text := strings.Split(flatPump, "[[part]]\nid = \"filter\"")[0]
	text = strings.Replace(text, `ports = ["a", "b"]`, `ports = ["a", "b", "c"]`, 1) +
		"[[part]]\nid = \"tee\"\nkind = \"tee\"\nloss = \"none\"\n" + unit("unit", "measured") + unit("unit-2", "assumed") +
		join("tub.a", "pump.in") + join("pump.out", "tee.run-in") + join("tee.run-out", "unit.in") + join("tee.branch", "unit-2.in") + join("unit.out", "tub.b") + join("unit-2.out", "tub.c")
	r := spreadOf(t, text, "unit")
	span := tables.Spread(tables.SpreadUnitLoss, "assumed")
	if len(r.MeasureFirst) == 0 {
		t.Fatal("nothing moves either unit")
	}
	want := (1/math.Sqrt(1+span.Low) - 1/math.Sqrt(1+span.High)) / 2
	first := r.MeasureFirst[0]
	at := spread.UnitIn{Unit: "unit-2", Mode: "on"}
	if first.Part != "unit-2" || first.UnitID != "unit-2" || !agree.Within(first.Effect, want, 1e-3) || !agree.Within(first.UnitIn[at], want, 1e-3) {
		t.Errorf("first is %+v, want the drop of unit-2 with %.4f of its own flow", first, want)
	}
	if other := first.UnitIn[spread.UnitIn{Unit: "unit", Mode: "on"}]; !agree.Within(1+other, 1, 1e-3) {
		t.Errorf("it moves the first unit by %.4f", other)
	}
	told := map[string]string{}
	for i := range r.Promises {
		if p := &r.Promises[i]; p.Kind == spread.LeastFlow {
			reading, _ := r.Settles(p)
			told[p.Part] = string(reading)
		}
	}
	if !strings.Contains(told["unit-2"], `the data sheet of "unit-2"`) || strings.Contains(told["unit"], "unit-2") || told["unit"] == "" {
		t.Errorf("what settles the promises: %q", told)
	}
}
