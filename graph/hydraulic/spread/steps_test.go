package spread

import (
	"dryfit/catalog/tables"
	"dryfit/graph/agree"
	"math"
	"testing"
)

// Of a span nine in ten lie between its ends, one in twenty beyond each, and half below its
// middle: the figures that spreads.csv promises. The normal distribution's own: one standard
// deviation above the middle is at 0.841345, where the factor is the end's to the power of
// 1/1.644854. Source: any table of the normal distribution.
func TestSpan(t *testing.T) {
	for _, s := range []tables.Span{{Low: -0.4, High: 0.6}, {Low: -0.2, Middle: 0.05, High: 0.2}, {Low: -0.5, High: 1}, {Middle: 0.1, High: 0.3}, {Low: -0.3}} {
		for _, c := range []struct{ u, want float64 }{
			{0.05, 1 + s.Low}, {0.5, 1 + s.Middle}, {0.95, 1 + s.High},
			{0.8413447461, (1 + s.Middle) * math.Pow((1+s.High)/(1+s.Middle), 1/1.6448536)},
		} {
			if got := factorAt(c.u, s); !agree.Within(got, c.want, 1e-7) {
				t.Errorf("%+v at %g: %g, want %g", s, c.u, got, c.want)
			}
		}
		low, high := 0, 0
		const n = 20000
		for i := range n {
			v := factorAt((float64(i)+0.5)/n, s)
			if v < 1+s.Low-1e-12 {
				low++
			}
			if v > 1+s.High+1e-12 {
				high++
			}
		}
		if s.Low < s.Middle && low != n/20 || s.High > s.Middle && high != n/20 {
			t.Errorf("%+v: %d below and %d above of %d, want %d", s, low, high, n, n/20)
		}
	}
	if got := factorAt(0.3, tables.Span{}); got != 1 {
		t.Errorf("no spread: got %g, want 1", got)
	}
	u := unknown{adds: true, span: tables.Span{Low: 0.1, Middle: 0.3, High: 0.8}}
	for at, want := range map[float64]float64{0.05: 0.1, 0.5: 0.3, 0.95: 0.8, 0: 0.3 - 0.2*2.5/1.6448536} {
		if got := u.value(at); !agree.Within(got, want, 1e-7) {
			t.Errorf("added at %g: %g, want %g", at, got, want)
		}
	}
}
