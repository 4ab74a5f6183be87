package hydraulic

import (
	"math"

	"dryfit/catalog"
)

// sampleSize is the number of points of the sample: a prime, so that every coordinate takes
// each of its values once.
const sampleSize = 1021

// sampleStep is the multiplier of the lattice: of all that are below sampleSize the one with
// the least correlation between any two of the first 60 coordinates, found by trying them;
// TestSampleSpread measures it.
const sampleStep = 306

// samplePoint returns coordinate dim, 0 to 1, of point i of a Korobov lattice, shifted off
// the corner: u = frac(i·a^dim/n + 1/2n). Each coordinate alone is spread evenly; the
// multiplier spreads pairs of them.
//
// Source of the lattice: N. M. Korobov (1959), Dokl. Akad. Nauk SSSR 124, 1207-1210 (from memory).
func samplePoint(i, dim int) float64 {
	a := 1
	for range dim {
		a = a * sampleStep % sampleSize
	}
	return (float64(i*a%sampleSize) + 0.5) / sampleSize
}

// bound is where a span's ends lie, in standard deviations of a normal distribution: nine in
// ten are between -bound and bound. Source: any table of the normal distribution.
const bound = 1.6448536269514722

// farthest is how far from the middle anything is taken, in standard deviations: one in eighty
// lies beyond, and what lies far beyond is no part that was ever sold.
const farthest = 2.5

// steps returns how far from the middle a quantile u, 0 to 1, lies, where the ends of nine in
// ten are below and above it by so much: half a normal distribution on either side.
func steps(u, below, above float64) float64 {
	z := math.Sqrt2 * math.Erfinv(2*u-1)
	z = min(max(z, -farthest), farthest) / bound
	if z < 0 {
		return z * below
	}
	return z * above
}

// factorAt returns the factor at a quantile u, 0 to 1, of a span of shares: nine in ten lie
// between 1+Low and 1+High, half below 1+Middle. Factors are taken in logarithms, so that
// half as much and twice as much are equally far off.
func factorAt(u float64, s catalog.Span) float64 {
	low, middle, high := math.Log1p(s.Low), math.Log1p(s.Middle), math.Log1p(s.High)
	return math.Exp(middle + steps(u, middle-low, high-middle))
}
