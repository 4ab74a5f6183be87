package table

import (
	"testing"

	"dryfit/catalog/quantity"
)

// Water at 100 °F weighs 62.0 lb/ft3 and has 0.68 cP (handbook tables, from memory: 61.99 and 0.682).
func TestFluidInInchUnits(t *testing.T) {
	if got, want := fluid(993.0, 0.000682, quantity.InchSystem), "62.0 lb/ft3, 0.682 cP"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := fluid(993.0, 0.000682, quantity.MetricSystem), "993.0 kg/m3, 0.682 mPa s"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
