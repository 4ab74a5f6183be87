package plan_test

import (
	"strings"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/plan"
)

// Of two units in one line the second gets the water that the first has warmed: in air of -5 °C its 6 kW warm what
// passes by 6000 W over flow, density and heat capacity, by hand. Side by side both get the tub's.
func TestSecondInTheLineGetsWarmedWater(t *testing.T) {
	const inLine = `
[job]
name = "Two units in one line"

[water]
volume = "3000 l"
temperature = "38 °C"
density = "993 kg/m3"

[site]
air = "-5 °C"
earthing = "tn-s"

[pipe]
spec = "pvc-sch80"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["suction", "return"]

[[part]]
id = "pump"
kind = "pump"
existing = true
power = "900 W"
curve = [["0 m3/h", "14 m"], ["8 m3/h", "12 m"], ["14 m3/h", "8.5 m"], ["20 m3/h", "3 m"]]

[[part]]
id = "first"
kind = "heat-pump"
existing = true
UNIT

[[part]]
id = "second"
kind = "heat-pump"
UNIT

[[run]]
from = "tub.suction"
to = "pump.in"
length = "2 m"

[[run]]
from = "pump.out"
to = "first.in"
length = "2 m"

[[run]]
from = "first.out"
to = "second.in"
length = "2 m"

[[run]]
from = "second.out"
to = "tub.return"
length = "2 m"
`
	const sheet = `ports-size = "2 in"
flow = { least = "2.9 m3/h", rated = "4.1 m3/h", most = "19 m3/h" }
loss = { flow = "4.1 m3/h", drop = "6 kPa" }
least-air = "-15 °C"
ratings = [{ air = "-5 °C", water = "38 °C", output = "6 kW", input = "2.5 kW", defrost = true }, { air = "15 °C", water = "38 °C", output = "9 kW", input = "2.5 kW", defrost = true }]`
	p := work(t, read(t, "line.toml", []byte(strings.ReplaceAll(inLine, "UNIT", sheet))), plan.Findings|plan.Flows|plan.Heat)
	each := p.Heat.Unit.Each
	if len(each) != 2 {
		t.Fatalf("%d units", len(each))
	}
	rise := 0.0
	for _, u := range each {
		if u.ID == "first" {
			rise = 6000 / (u.FlowM3s * 993 * 4179)
			if u.EntersC != 38 || !agree.Within(u.Working.OutputW, 6000, 1e-6) {
				t.Errorf("to the first comes water of %.3f °C, it gives %.1f W", u.EntersC, u.Working.OutputW)
			}
		}
	}
	for _, u := range each {
		if u.ID == "second" && (!agree.Within(u.EntersC, 38+rise, 0.001*rise) || !(rise > 0.2) || !(u.Working.OutputW < 6000)) {
			t.Errorf("to the second comes water of %.4f °C, warmed by %.4f K; it gives %.1f W", u.EntersC, rise, u.Working.OutputW)
		}
	}
}
