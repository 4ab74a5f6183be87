package form

import (
	"math"
	"testing"

	"dryfit/catalog/quantity"
)

// Rounding is half away from zero, as ISO 80000-1 annex B rule B has it (from memory), on
// the decimal that is meant: no float64 is 439.675 or 1.005.
func TestRound(t *testing.T) {
	for _, c := range []struct {
		v      float64
		Places int
		want   float64
	}{
		{439.675, 2, 439.68},
		{-439.675, 2, -439.68},
		{439.674, 2, 439.67},
		{1.005, 2, 1.01},
		{2.5, 0, 3},
		{-2.5, 0, -3},
		{0.4999, 0, 0},
		{-0.4, 0, 0},
		{1e-12, 3, 0},
		{48.26, 2, 48.26},
		{123456789.125, 2, 123456789.13},
		{math.NaN(), 2, 0},
		{math.Inf(1), 2, 0},
	} {
		got := Round(c.v, c.Places)
		if got != c.want || math.Signbit(got) != (c.want < 0) {
			t.Errorf("round(%v, %d) = %v, want %v", c.v, c.Places, got, c.want)
		}
	}
}

func TestFixed(t *testing.T) {
	for _, c := range []struct {
		v      float64
		Places int
		want   string
	}{
		{439.675, 2, "439.68"}, {0.125, 2, "0.13"}, {7, 2, "7.00"}, {-0.001, 2, "0.00"}, {99.95, 1, "100.0"}, {2.5, 0, "3"},
	} {
		if got := Fixed(c.v, c.Places); got != c.want {
			t.Errorf("fixed(%v, %d) = %q, want %q", c.v, c.Places, got, c.want)
		}
	}
}

// Columns carry their unit in their head. 1 gpm (US) = 0.2271247 m³/h and 1 psi =
// 6894.757 Pa (NIST SP 811, appendix B.8), 1 ft = 0.3048 m (exact).
func TestColumnUnits(t *testing.T) {
	inch, metric := Style{Units: quantity.InchSystem}, Style{Units: quantity.MetricSystem}
	for _, c := range []struct {
		got, want string
	}{
		{metric.FlowUnit().Text(5.0 / 3600), "5.00"},
		{inch.FlowUnit().Text(5.0 / 3600), "22.0"},    // 5 / 0.2271247 = 22.014
		{inch.PressureUnit().Text(13789.514), "2.00"}, // 2 · 6894.757
		{metric.PressureUnit().Text(13789.514), "13.8"},
		{inch.SpeedUnit().Text(2.4384), "8.0"}, // 8 · 0.3048
		{inch.PipeLength(3.048), "10.0 ft"},
		{metric.PipeLength(3.048), "3.05 m"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}
