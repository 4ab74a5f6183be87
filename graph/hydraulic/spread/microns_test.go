package spread

import "testing"

// A roughness is said in plain figures of two digits: corrugated hose has half a millimetre.
func TestMicrons(t *testing.T) {
	for m, want := range map[float64]string{0: "0", 1.5e-6: "1.5", 9.96e-6: "10", 45e-6: "45", 5e-4: "500", 1.234e-7: "0.12"} {
		if got := microns(m); got != want {
			t.Errorf("%g m: %s, want %s", m, got, want)
		}
	}
}
