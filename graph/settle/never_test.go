package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// A pump of which the survey says no more than that it always runs is one for circulation: on hose of
// an inch a small one, that shuts off at 2.5 to 4 m, with a heater for its flow behind it; on pipe of an
// inch and a half a large one, 6 to 8 m; one that does not always run is taken for the two-speed pump
// most tubs have. Heads from memory, in the catalogue with the rows.
func TestPumpThatNeverStops(t *testing.T) {
	const text = `
[pipe]
PIPE
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
ALWAYS
[[part]]
id = "element"
kind = "element-heater"
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "element.in"
length = "1 m"
[[run]]
from = "element.out"
to = "tub.b"
length = "1 m"
`
	const hose, wide, metric = "spec = \"hose\"\nsize = \"1 in\"", "spec = \"pvc-sch40\"\nsize = \"1-1/2 in\"", "spec = \"pvc-pn10\"\nsize = \"50 mm\""
	for _, c := range []struct {
		pipe, always string
		low, high    float64 // shut-off head, m
		element      float64 // least flow of the heater, m³/h
	}{
		{hose, "always-on = true", 2.5, 4, 1.8},
		{"spec = \"pvc-pn10\"\nsize = \"32 mm\"", "always-on = true", 2.5, 4, 1.8},
		{wide, "always-on = true", 6, 8, 4.542},
		{metric, "always-on = true", 6, 8, 4.542},
		{hose, "", 12, 18, 4.542},
		{hose, "always-on = true\ntype = \"jet-pump\"", 12, 18, 4.542},
	} {
		read, ds := description.Read("never.toml", []byte(strings.NewReplacer("PIPE", c.pipe, "ALWAYS", c.always).Replace(text)))
		if read == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		s := settle.Of(read)
		speeds := s.Part("pump").Speeds.V
		head := speeds[len(speeds)-1].Curve[0].Head.Head(993)
		if !(head >= c.low && head <= c.high) {
			t.Errorf("%q on %q: shut-off %.1f m, want %g to %g", c.always, c.pipe, head, c.low, c.high)
		}
		if got := s.Part("element").Least.V * 3600; !agree.Within(got, c.element, 0.001) {
			t.Errorf("%q on %q: the heater asks for %.3f m³/h, want %g", c.always, c.pipe, got, c.element)
		}
	}
}
