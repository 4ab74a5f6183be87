package hydraulic_test

import (
	"strings"
	"testing"
)

// besideText is two pumps without checks side by side before a unit and a tight line to the tub.
const besideText = `
[water]
temperature = "20 °C"
[[part]]
id = "tub"
kind = "tub"
ports = ["left", "right", "back"]
[[part]]
id = "a"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["10 m3/h", "5 m"], ["20 m3/h", "0 m"]]
[[part]]
id = "b"
kind = "pump"
curve = [["0 m3/h", "8 m"], ["10 m3/h", "4 m"], ["20 m3/h", "0 m"]]
[[part]]
id = "join"
kind = "tee"
[[part]]
id = "unit"
kind = "heat-pump"
loss = { k = 400, bore = "52 mm" }
`

// Of two pumps side by side each is the unit's own: while one stands and most of the other's water goes back
// through it, what passes the unit is still driven by the other. Follows from the circuit.
func TestAUnitIsFedByEitherPumpBesideTheOther(t *testing.T) {
	text := besideText + join("tub.left", "a.in") + join("tub.right", "b.in") + join("a.out", "join.run-in") +
		join("b.out", "join.branch") + join("join.run-out", "unit.in") + join("unit.out", "tub.back")
	for _, on := range []string{"a", "b"} {
		s := solve(t, text, on)
		other := strings.Trim("ab", on)
		unit, back := s.Part("unit"), s.Part(other)
		if !(unit.Flow > 0) || !(-back.Flow > unit.Flow) {
			t.Fatalf("%s on: %g m3/h through the unit, %g through %s: it tries nothing", on, unit.Flow*3600, back.Flow*3600, other)
		}
		if unit.Idle() {
			t.Errorf("%s on: the unit is said to stand, its pump off, with %g m3/h", on, unit.Flow*3600)
		}
	}
}
