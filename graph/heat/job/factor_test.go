package job

import (
	"testing"

	"dryfit/graph/agree"
	"dryfit/graph/description"
	"dryfit/graph/settle"
)

// What an element is said to draw by its power factor it draws: 3 kW at 230 V and 0.5 are
// 3000 / (230 x 0.5) = 26.1 A, at the 1 of a resistance 13.0 A.
func TestElementDrawsByItsPowerFactor(t *testing.T) {
	for key, want := range map[string]float64{"power-factor = 0.5": 26.087, "": 13.043} {
		c, ds := description.Read("element.toml", []byte(`
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]

[[part]]
id = "element"
kind = "element-heater"
existing = true
power = "3 kW"
`+key+`

[[run]]
from = "tub.a"
to = "element.in"
existing = true
length = "1 m"

[[run]]
from = "element.out"
to = "tub.b"
existing = true
length = "1 m"
`))
		if c == nil {
			t.Fatal(ds)
		}
		set := settle.Of(c)
		b := &builder{}
		loads := b.consumers(&Input{Stage: set}, &scene{}, set.Part("element"), 230)
		if len(loads) != 1 || !agree.Within(loads[0].RunningA, want, 1e-3) {
			t.Errorf("%q: %+v, want %g A", key, loads, want)
		}
	}
}

// What a pump draws of its supply is what its plate says, whatever power factor that comes to: 8 A at 230 V are 8 A
// there, 16 A at 115 V as many volts times amps; at a start five times that.
func TestPumpDrawsTheAmpsOfItsPlate(t *testing.T) {
	for _, c := range []struct {
		plate string
		want  float64
	}{{"amps = \"8 A\"\nvolts = \"230 V\"", 8}, {"amps = \"16 A\"\nvolts = \"115 V\"", 8}, {"amps = \"8 A\"\nvolts = \"230 V\"\npower = \"1.3 kW\"", 8}} {
		ds := onlyTub + "\n[[part]]\nid = \"pump\"\nkind = \"pump\"\nexisting = true\n" + c.plate + `
[[run]]
from = "tub.a"
to = "pump.in"
existing = true
length = "1 m"

[[run]]
from = "pump.out"
to = "tub.b"
existing = true
length = "1 m"
`
		circuit, found := description.Read("plate.toml", []byte(ds))
		if circuit == nil {
			t.Fatal(c.plate, found)
		}
		set := settle.Of(circuit)
		loads := (&builder{}).consumers(&Input{Stage: set}, &scene{}, set.Part("pump"), 230)
		if len(loads) != 1 || !agree.Within(loads[0].RunningA, c.want, 1e-9) || !agree.Within(loads[0].StartA, 5*c.want, 1e-9) {
			t.Errorf("%s: %+v, want %g A", c.plate, loads, c.want)
		}
	}
}

const onlyTub = `
[pipe]
spec = "pvc-sch40"
size = "2 in"

[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
`
