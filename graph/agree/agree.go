// Package agree compares what tests get with what they want. It is for tests alone.
package agree

import "math"

// Within reports whether got is no farther than tolerance from want. What is not a number is
// near nothing, so that a test which asks for it fails on NaN: the comparison written out the
// other way round, math.Abs(got-want) > tolerance, is false of NaN and lets it pass.
func Within(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }

// Between reports whether got is neither less than low nor more than high; what is not a number is not.
func Between(got, low, high float64) bool { return low <= got && got <= high }
