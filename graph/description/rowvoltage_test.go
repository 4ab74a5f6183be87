package description

import (
	"fmt"
	"testing"

	"dryfit/graph"
	"dryfit/graph/agree"
	"dryfit/graph/settle"
)

// The currents of a row stand at the voltage the row says, 230 V where it says none: on a supply of that
// voltage they are those of the plate, on another what the same power draws there (I = P/U, of three phases
// P/(√3 U)); its fuse stands on its own voltage, give or take a tenth, alone.
func TestRowIsOfItsOwnVoltage(t *testing.T) {
	for _, c := range []struct {
		row, supply string
		amps        float64
		fuse        bool
	}{
		{"", "230 V", 12, true}, {"", "240 V", 11.5, true}, {"", "", 12, true},
		{"240 V", "240 V", 12, true}, {"120 V", "120 V", 12, true}, {"120 V", "240 V", 6, false}, {"", "120 V", 23, false},
		{"400 V", "400 V", 12, true}, {"400 V", "230 V", 36.1478, false}, // 12 A · √3 · 400 V / 230 V
	} {
		row := ""
		if c.row != "" {
			row = fmt.Sprintf("voltage = %q\n", c.row)
		}
		supply := "[[supply]]\nfeeds = [\"unit\"]\nrating = \"40 A\"\n"
		if c.supply != "" {
			supply += fmt.Sprintf("voltage = %q\n", c.supply)
		}
		d, ds := Read("volts.toml", []byte(`[pipe]
spec = "pvc-sch40"
size = "1 1/2 in"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
power = "250 W"
[[part]]
id = "unit"
kind = "heat-pump"
type = "mine"
[[run]]
from = "tub.a"
to = "pump.in"
length = "1 m"
[[run]]
from = "pump.out"
to = "unit.in"
length = "1 m"
[[run]]
from = "unit.out"
to = "tub.b"
length = "1 m"
[[catalog.heat-pump]]
name = "mine"
size = "1 1/2 in"
least = "1.8 m3/h"
rated = "2.8 m3/h"
most = "5 m3/h"
loss-flow = "2.8 m3/h"
loss-drop = "9 kPa"
rating = "2 bar"
full-load = "12 A"
fuse = "20 A"
`+row+`source = "its sheet"
`+supply))
		if d == nil || graph.HasErrors(ds) {
			t.Fatal(ds)
		}
		unit := settle.Of(d.At(graph.After)).Part("unit")
		if !agree.Within(unit.FullLoad.V, c.amps, 1e-3) || (unit.Fuse.V > 0) != c.fuse {
			t.Errorf("a row of %q on %q: %g A, fuse %g A, want %g A and a fuse: %v", c.row, c.supply, unit.FullLoad.V, unit.Fuse.V, c.amps, c.fuse)
		}
	}
}
