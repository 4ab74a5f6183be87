package hydraulic_test

import (
	"testing"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route/laying"
)

// A watt in 1 l/s warms what comes to the next part by 1/(ρ c · 0.001) K, and in half of that water, mixed with
// the other half that nobody warms, the same: by the balance of heat, 4.178 kJ/(kg K) and 992.2 kg/m³ at 40 °C
// (IAPWS, from memory).
func TestAWattWarmsTheNext(t *testing.T) {
	const line = `
[water]
temperature = "40 °C"
[[part]]
id = "tub"
kind = "tub"
ports = ["a", "b"]
[[part]]
id = "pump"
kind = "pump"
curve = [["0 m3/h", "10 m"], ["30 m3/h", "0 m"]]
[[part]]
id = "one"
kind = "element-heater"
[[part]]
id = "two"
kind = "heat-exchanger"
`
	text := line + join("tub.a", "pump.in") + join("pump.out", "one.in") + join("one.out", "two.in") + join("two.out", "tub.b")
	c := read(t, text)
	s, err := hydraulic.Solve(laying.Of(c), c.AllModes()[0], graph.After)
	if err != nil {
		t.Fatal(err)
	}
	w := s.Warmed([]string{"one", "two"})
	approx(t, "the second, by the first", w[1][0], 1/(992.2*4178*s.Part("two").Flow), 0.002)
	if w[0][1] != 0 {
		t.Errorf("the first is warmed by the second, %g K/W, though the tub mixes its water", w[0][1])
	}
}
