package twin

import (
	"math"
	"math/rand/v2"
)

// dice draws from distributions, the same every time for the same seed.
type dice struct{ *rand.Rand }

func newDice(seed uint64) dice { return dice{rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15))} }

// even draws evenly between two bounds.
func (d dice) even(low, high float64) float64 { return low + (high-low)*d.Float64() }

// nine draws a value above 0 of which nine in ten lie between low and high, one in twenty
// on either side: lognormal, for what is known as "so much, or twice that".
func (d dice) nine(low, high float64) float64 {
	const z95 = 1.6448536269514722
	middle, width := (math.Log(low)+math.Log(high))/2, (math.Log(high)-math.Log(low))/2/z95
	return math.Exp(middle + width*d.NormFloat64())
}

// off draws a factor round 1 of which two in three are off by less than share.
func (d dice) off(share float64) float64 { return math.Exp(share * d.NormFloat64()) }

// peak draws between low and high, most often near likely: triangular.
func (d dice) peak(low, likely, high float64) float64 {
	u, at := d.Float64(), (likely-low)/(high-low)
	if u < at {
		return low + math.Sqrt(u*(high-low)*(likely-low))
	}
	return high - math.Sqrt((1-u)*(high-low)*(high-likely))
}

// in reports a chance: true in that share of draws.
func (d dice) in(share float64) bool { return d.Float64() < share }

// few draws a small count with a mean: how many were missed, and the like (Poisson).
func (d dice) few(mean float64) int {
	limit, p, n := math.Exp(-mean), d.Float64(), 0
	for p > limit {
		p, n = p*d.Float64(), n+1
	}
	return n
}

// count draws a whole number from low to high, both counted.
func (d dice) count(low, high int) int { return low + d.IntN(high-low+1) }
