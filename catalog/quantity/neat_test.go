package quantity

import (
	"math"
	"strings"
	"testing"

	"dryfit/graph/agree"
)

// A worked out value is written in few digits of the unit asked for, and reads back to itself.
func TestNeat(t *testing.T) {
	for _, c := range []struct {
		v    float64
		d    Dimension
		s    System
		want string
	}{
		{8.55 / 3600, Flow, MetricSystem, "8.55 m3/h"},
		{0.004597724163084344, Flow, MetricSystem, "16.552 m3/h"},
		{36 * 3.785411784 / 60000, Flow, InchSystem, "36 gpm"}, // a gallon is 231 cubic inches, exactly
		{0.9 * 1.87 * 6894.757293168, Pressure, InchSystem, "1.683 psi"},
		{12500.4, Pressure, MetricSystem, "12.5 kPa"},
		{12.49682, Head, InchSystem, "12.4968 m"}, // 41 ft; a foot is 0.3048 m, so that metres come out even too
		{3, Temperature, MetricSystem, "3 °C"},
		{0, Flow, MetricSystem, "0 m3/h"},
	} {
		got := Neat(c.v, c.d, c.s)
		if text := Exact(got, c.d); text != c.want {
			t.Errorf("%g: %s, want %s", c.v, text, c.want)
		}
	}
	for v := 1e-6; v < 1; v *= 1.37 {
		for _, s := range []System{MetricSystem, InchSystem} {
			got := Neat(v, Flow, s)
			text := Exact(got, Flow)
			back, err := Parse(text, Flow)
			if err != nil || back.Value != got || !agree.Within(got/v, 1, 1e-4) || strings.Contains(text, "m3/s") {
				t.Errorf("%g: %s, %v", v, text, err)
			}
		}
	}
	if v := Neat(math.NaN(), Flow, MetricSystem); !math.IsNaN(v) {
		t.Errorf("no number: %g", v)
	}
}
