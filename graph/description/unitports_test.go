package description

import (
	"fmt"
	"strings"
	"testing"
)

// The two ports of a unit stand at least a pipe apart, whoever says how wide that is: its
// ports-size, its row, the pipe drawn to it, or the line that is cut where nobody says it.
// Outsides: 1 in 33.4 mm, 1-1/2 in 48.3 mm (ASTM D1785), 32 mm metric pipe 32 mm (EN ISO 1452-2).
func TestPortsOfAUnitArePipesApart(t *testing.T) {
	const text = `
[pipe]
spec = %q
size = %q

[[part]]
id = "bath"
kind = "tub"
ports = ["out", "back"]

[[part]]
id = "pump"
kind = "pump"
existing = true

[[part]]
id = "unit"
kind = "heat-pump"
%s
port.out.at = ["up %s"]

[[run]]
from = "bath.out"
to = "pump.in"
existing = true
length = "1 m"

[[run]]
id = "line"
from = "pump.out"
to = "bath.back"
existing = true
legs = ["right 2 m"]

[retrofit]
unit = "unit"
`
	for _, c := range []struct {
		spec, size, unit, apart string
		told                    string // "": fits
	}{
		{"pvc-sch40", "1 in", "", "1 mm", "1 in is 33.4 mm"},
		{"pvc-sch40", "1 in", "", "33 mm", "1 in is 33.4 mm"},
		{"pvc-sch40", "1 in", "", "34 mm", ""},
		{"pvc-sch40", "2 in", "", "48 mm", "1-1/2 in is 48.3 mm"}, // 1-1/2 in is taken for a small flow
		{"pvc-sch40", "2 in", "", "49 mm", ""},
		{"pvc-sch40", "2 in", `ports-size = "1 in"`, "33 mm", "1 in is 33.4 mm"},
		{"pvc-pn10", "63 mm", `ports-size = "32 mm"`, "31 mm", "32 mm is 32 mm"},
		{"pvc-pn10", "32 mm", "", "1 mm", "32 mm is 32 mm"},
		{"pvc-pn10", "32 mm", "", "32 mm", ""},
		{"pvc-sch40", "2 in", `port.in.faces = "left"` + "\n" + `port.out.faces = "right"`, "1 mm", ""},
	} {
		file := fmt.Sprintf(text, c.spec, c.size, c.unit, c.apart)
		if strings.Contains(c.unit, "port.out") {
			file = strings.Replace(file, "port.out.at = [\"up 1 mm\"]", "port.out.at = [\"right 1 mm\"]", 1)
		}
		_, ds := Read("unit.toml", []byte(file))
		got := ""
		for _, d := range ds {
			got += d.Message.String() + "\n"
			if strings.Contains(d.Message.String(), "apart") && !strings.Contains(strings.Split(file, "\n")[d.Pos.Line-1], "port.out.at") {
				t.Errorf("%v: told at line %d", c, d.Pos.Line)
			}
		}
		if c.told == "" && got != "" || c.told != "" && !strings.Contains(got, c.told+" wide") {
			t.Errorf("%v: %s", c, got)
		}
	}
}
