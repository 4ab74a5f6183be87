package spread

import (
	"math"

	"dryfit/catalog/tables"
)

// bound is where a span's ends lie, in standard deviations of a normal distribution: nine in
// ten are between -bound and bound. Source: any table of the normal distribution.
const bound = 1.6448536269514722

// farthest is how far from the middle anything is taken, in standard deviations: one in eighty
// lies beyond, and what lies far beyond is no part that was ever sold.
const farthest = 2.5

// steps returns how far from the middle a quantile u, 0 to 1, lies, where the ends of nine in
// ten are below and above it by so much: half a normal distribution on either side.
func steps(u, below, above float64) float64 { return aside(deviations(u), below, above) }

// deviations is how many standard deviations from the middle a quantile lies, farthest at the most.
func deviations(u float64) float64 {
	return min(max(math.Sqrt2*math.Erfinv(2*u-1), -farthest), farthest)
}

// aside is steps by standard deviations.
func aside(z, below, above float64) float64 {
	z /= bound
	if z < 0 {
		return z * below
	}
	return z * above
}

// factorAt returns the factor at a quantile u, 0 to 1, of a span of shares: nine in ten lie
// between 1+Low and 1+High, half below 1+Middle. Factors are taken in logarithms, so that
// half as much and twice as much are equally far off.
func factorAt(u float64, s tables.Span) float64 { return factorAside(deviations(u), s) }

// factorAside is factorAt by standard deviations.
func factorAside(z float64, s tables.Span) float64 {
	low, middle, high := math.Log1p(s.Low), math.Log1p(s.Middle), math.Log1p(s.High)
	return math.Exp(middle + aside(z, middle-low, high-middle))
}
