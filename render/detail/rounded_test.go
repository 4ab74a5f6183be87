package detail

import (
	"testing"

	"dryfit/catalog/quantity"
)

// Lengths of 63.4, 72.3 and 63.4 mm print as 63, 72 and 63, and their sum, 199.1 mm, as 199: a row that does not
// add up as it is printed. Of whole millimetres all do.
func TestRowsThatDoNotAddUpAreTold(t *testing.T) {
	d := &drawing{in: Input{Units: quantity.MetricSystem}}
	for _, c := range []struct {
		stops []float64
		adds  bool
	}{
		{[]float64{0, 63.4, 135.7, 199.1}, false}, // 198 of 199
		{[]float64{0, 63, 135, 199}, true},
	} {
		if got := d.adds(c.stops, 0, c.stops[len(c.stops)-1]); got != c.adds {
			t.Errorf("%v: %t", c.stops, got)
		}
	}
	if !d.adds([]float64{0, 63.4, 135.7}, 0, 199.1) {
		t.Error("a row that ends before the whole does is taken for its sum")
	}
	if !d.adds([]float64{-29.6, 0, 63, 135, 199, 228.6}, 0, 199) {
		t.Error("what stands beyond the whole is counted")
	}
}
