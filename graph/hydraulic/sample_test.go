package hydraulic

import (
	"math"
	"slices"
	"testing"
)

// Every coordinate alone takes each of its 1021 values once: a property of a lattice with a
// prime number of points.
func TestSampleEven(t *testing.T) {
	for dim := range 60 {
		var seen []float64
		for i := range sampleSize {
			seen = append(seen, samplePoint(i, dim))
		}
		slices.Sort(seen)
		for i, u := range seen {
			if want := (float64(i) + 0.5) / sampleSize; math.Abs(u-want) > 1e-12 {
				t.Fatalf("coordinate %d, value %d: got %g, want %g", dim, i, u, want)
			}
		}
	}
}

// TestSampleSpread holds the correlation of every pair of the first 60 coordinates to what a
// random sample of the size would rarely exceed: 4/√n.
func TestSampleSpread(t *testing.T) {
	bound := 4 / math.Sqrt(sampleSize)
	for a := 1; a <= 60; a++ {
		for b := a + 1; b <= 60; b++ {
			sum := 0.0
			for i := range sampleSize {
				sum += (samplePoint(i, a) - 0.5) * (samplePoint(i, b) - 0.5)
			}
			if r := sum / sampleSize * 12; math.Abs(r) > bound {
				t.Errorf("coordinates %d and %d: correlation %.3f, want at most %.3f", a, b, r, bound)
			}
		}
	}
}

// The triangular distribution's own figures: the share below the peak is -low/(high-low),
// its mean is 1 + (low+high)/3. Source: any handbook of statistics.
func TestTriangular(t *testing.T) {
	for _, c := range []struct{ low, high float64 }{{-0.4, 0.6}, {-0.2, 0.2}, {-0.5, 1}, {0, 0.3}, {-0.3, 0}} {
		const n = 20000
		sum := 0.0
		for i := range n {
			sum += triangular((float64(i)+0.5)/n, c.low, c.high)
		}
		if got, want := sum/n, 1+(c.low+c.high)/3; math.Abs(got-want) > 1e-4 {
			t.Errorf("%+v: mean %.5f, want %.5f", c, got, want)
		}
		for _, end := range []struct{ u, want float64 }{{0, 1 + c.low}, {1, 1 + c.high}, {-c.low / (c.high - c.low), 1}} {
			if got := triangular(end.u, c.low, c.high); math.Abs(got-end.want) > 1e-12 {
				t.Errorf("%+v at %g: got %g, want %g", c, end.u, got, end.want)
			}
		}
	}
	if got := triangular(0.3, 0, 0); got != 1 {
		t.Errorf("no spread: got %g, want 1", got)
	}
}
