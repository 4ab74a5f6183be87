package job

import (
	"fmt"
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// What an element is said to draw by its power factor it draws: 3 kW at 230 V and 0.5 are
// 3000 / (230 x 0.5) = 26.1 A, at the 1 of a resistance 13.0 A.
func TestElementDrawsByItsPowerFactor(t *testing.T) {
	for key, want := range map[string]float64{"power-factor = 0.5": 26.087, "": 13.043} {
		set := onTub(t, "element-heater", "power = \"3 kW\"\n"+key)
		b := &builder{}
		loads := b.consumers(&Input{Stage: set}, &scene{}, set.Part("it"), 230)
		if len(loads) != 1 || !agree.Within(loads[0].RunningA, want, 1e-3) {
			t.Errorf("%q: %+v, want %g A", key, loads, want)
		}
	}
}

// What a pump draws of its supply is what its plate says, whatever power factor that comes to: 8 A at 230 V are 8 A
// there, and on one phase of 400 V, where it has 231 V, hardly less; 16 A at 115 V are as many volts times amps; 3 A
// at 400 V, which three phases have, are 3 A on each of them, and 4 A said to be of one phase stand between two.
// At a start five times that.
func TestPumpDrawsTheAmpsOfItsPlate(t *testing.T) {
	for _, c := range []struct {
		plate    string
		voltage  float64
		want     float64
		balanced bool
	}{
		{"amps = \"8 A\"\nvolts = \"230 V\"", 230, 8, false},
		{"amps = \"8 A\"\nvolts = \"230 V\"", 400, 8 * 230 / 230.9401, false},
		{"amps = \"16 A\"\nvolts = \"115 V\"", 230, 8, false},
		{"amps = \"8 A\"\nvolts = \"230 V\"\npower = \"1.3 kW\"", 230, 8, false},
		{"amps = \"3 A\"\nvolts = \"400 V\"", 400, 3, true},
		{"amps = \"5.2 A\"\nvolts = \"230 V\"\nphases = 3", 400, 5.2 * 230 / 400, true},
		{"amps = \"4 A\"\nvolts = \"400 V\"\nphases = 1", 400, 4, false},
	} {
		set := onTub(t, "pump", c.plate)
		loads := (&builder{}).consumers(&Input{Stage: set}, &scene{}, set.Part("it"), c.voltage)
		if len(loads) != 1 || !agree.Within(loads[0].RunningA, c.want, 1e-4) || !agree.Within(loads[0].StartA, 5*c.want, 1e-3) || loads[0].Balanced != c.balanced {
			t.Errorf("%s: %+v, want %g A", c.plate, loads, c.want)
		}
	}
}

// onTub settles a tub and one old part in its line, "it", of which some keys are said.
func onTub(t *testing.T, kind, keys string) *settle.Stage {
	t.Helper()
	c, ds := description.Read("plate.toml", fmt.Appendf(nil, `
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]

[[part]]
id = "it"
kind = %q
existing = true
%s

[[run]]
from = "tub.a"
to = "it.in"
existing = true
length = "1 m"

[[run]]
from = "it.out"
to = "tub.b"
existing = true
length = "1 m"
`, kind, keys))
	if c == nil {
		t.Fatal(keys, ds)
	}
	return settle.Of(c)
}
