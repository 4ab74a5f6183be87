package description

import (
	"regexp"
	"strings"
	"testing"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// A mode that turns a diverter is told where a diverter is turned, by the names of its own ways; so written on
// the part it reads.
func TestDiverterIsTurnedOnItsPart(t *testing.T) {
	text := func(on, in string) []byte {
		return []byte(`[pipe]
spec = "pvc-sch40"
size = "2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "seats", "back"]
[[part]]
id = "pump"
kind = "pump"
power = "1.1 kW"
[[part]]
id = "knob"
kind = "diverter-valve"
ports = ["in", "seats", "back"]
` + on + `
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "knob.in"
length = "1 m"
[[run]]
from = "knob.seats"
to = "tub.seats"
length = "1 m"
[[run]]
from = "knob.back"
to = "tub.back"
length = "1 m"
[[mode]]
name = "jets"
speeds = { pump = "on" }
` + in)
	}
	hint := ""
	_, ds := Read("knob.toml", text("", `positions = { knob = "open" }`))
	for _, d := range ds {
		if strings.Contains(d.Message.In(quantity.MetricSystem), "not a hand valve") {
			hint = d.Hint.In(quantity.MetricSystem)
		}
	}
	told := regexp.MustCompile(`ways = \{.*?\}`).FindString(hint)
	if told != `ways = { seats = "100 %", back = "0 %" }` {
		t.Fatalf("%q", hint)
	}
	if c, ds := Read("knob.toml", text(told, "")); c == nil || graph.HasErrors(ds) {
		t.Error(ds)
	}
}
