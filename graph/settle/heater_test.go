package settle_test

import (
	"strings"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// A heater nobody described asks for what its pump can give: 30 l/min behind a pump that runs
// day and night, whose curve ends at some 3 m³/h; 20 US gpm (controller makers' notes), 4.54 m³/h,
// behind a 1.5 in one. What is named stays as named.
func TestHeaterOfTheLine(t *testing.T) {
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
type = "PUMP"
[[part]]
id = "element"
kind = "element-heater"
HEATER
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
	for _, c := range []struct {
		pump, heater string
		want         float64 // m³/h
	}{
		{"circulation-pump-24h", "", 1.8},
		{"plug-in-pump", "", 1.8},
		{"circulation-pump-1.5in", "", 4.542},
		{"two-speed-pump", "", 4.542},
		{"circulation-pump-24h", `type = "element-heater"`, 4.542},
	} {
		read, ds := description.Read("heater.toml", []byte(strings.NewReplacer("PUMP", c.pump, "HEATER", c.heater).Replace(text)))
		if graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		if got := settle.Of(read).Part("element").Least.V * 3600; !agree.Within(got, c.want, 0.001) {
			t.Errorf("%s %s: the heater asks for %.3f m³/h, want %.3f", c.pump, c.heater, got, c.want)
		}
	}
}
