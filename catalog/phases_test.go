package catalog

import (
	"testing"

	"dryfit/graph/agree"
)

// A plate that says on how many phases something stands is believed whatever the voltage: one phase of a supply of
// three is that to the neutral, and all three of 208 V have 120 V each (V/√3, by hand).
func TestPhasesOf(t *testing.T) {
	for _, c := range []struct {
		volts  float64
		said   int
		n, one float64
	}{
		{230, 0, 1, 230}, {400, 0, 3, 230.940}, {208, 0, 1, 208},
		{230, 1, 1, 230}, {400, 1, 1, 230.940}, {208, 1, 1, 208},
		{230, 3, 3, 132.791}, {400, 3, 3, 230.940}, {208, 3, 3, 120.089},
	} {
		if n, one := PhasesOf(c.volts, c.said); n != c.n || !agree.Within(one, c.one, 0.001) {
			t.Errorf("%g V, said %d: %g of %.3f V, want %g of %.3f V", c.volts, c.said, n, one, c.n, c.one)
		}
	}
}
