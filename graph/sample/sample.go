// Package sample is the one fixed sample that every range stands on: of flows, and of heat and
// money. Nothing in it is random; the same question gets the same bytes.
package sample

import "math"

// Size is the number of points of the sample: a prime, so that every coordinate takes each of
// its values once.
const Size = 1021

// step is the multiplier of the lattice: of all that are below Size the one with the least
// correlation between any two of the first 60 coordinates, found by trying them; TestSpread
// measures it.
const step = 306

// block is how many coordinates one lattice has. Of coordinates that stand farther apart than that two go
// together: those 90 apart with a correlation of a third, 213 apart with a half; 510 apart one is the other
// turned round, and 1,020 apart both are the same.
const block = 84

// Point returns coordinate dim, 0 to 1, of point i of a Korobov lattice, shifted off the
// corner: u = frac(i·a^dim/n + 1/2n). Each coordinate alone is spread evenly; the multiplier
// spreads pairs of them. Every 84 coordinates the points are counted in another order, that of the
// inverses of i+1, i+2 and so on modulo n, so that no two of any number of coordinates go together. From
// point Size on it is the same again, shifted in each
// coordinate by a step of its own, for who needs more points: frac(u + k·√(4·dim+2)), k being how
// often the lattice was gone through; no such root is whole.
//
// Source of the lattice: N. M. Korobov (1959), Dokl. Akad. Nauk SSSR 124, 1207-1210 (from memory);
// of the shifts: R. Cranley, T. N. L. Patterson (1976), SIAM J. Numer. Anal. 13, 904-914 (from memory);
// of the inverses: J. Eichenauer-Herrmann (1993), Math. Comp. 60, 375-384 (from memory).
func Point(i, dim int) float64 {
	at := i % Size
	if of := dim / block; of > 0 {
		at = power((at+of)%Size, Size-2) // the inverse, by Fermat; of 0 it is 0
	}
	u := (float64(at*power(step, dim%block)%Size) + 0.5) / Size
	if again := i / Size; again > 0 {
		_, u = math.Modf(u + float64(again)*math.Sqrt(float64(4*dim+2)))
	}
	return u
}

// The coordinates that heat and money have to themselves, however many numbers of the flows may be off: a tee
// more in the circuit, or its parts in another order, moves no range of a year that does not hang on it.
// They are the last of the first lattice; the means of the first of them over the few points are nearest to a half.
const (
	firstOfYear = 64
	pastOfYear  = block
	restOfYear  = (Size - 21) * block // of those for which there is no room there: as far off as no flow is
)

// OfFlows returns the coordinate of the n-th number of the flows that may be off, from 0.
func OfFlows(n int) int {
	if n++; n < firstOfYear {
		return n
	}
	return n + pastOfYear - firstOfYear
}

// OfYear returns the coordinate of the n-th number of heat and money that may be off, from 0: none that
// OfFlows returns for less than 80,000.
func OfYear(n int) int {
	if at := firstOfYear + n; at < pastOfYear {
		return at
	}
	return restOfYear + n
}

// power returns a number to the power of another, by Size.
func power(of, to int) int {
	a := 1
	for square := of; to > 0; to >>= 1 {
		if to&1 == 1 {
			a = a * square % Size
		}
		square = square * square % Size
	}
	return a
}

// few is how many points a year is worked out at: each takes 8,760 hours.
const few = 64

// Few returns the points of the sample that stand for all of it where each is dear.
func Few() []int { return parabola(few) }

// Some returns the points of the sample that stand for all of it where there is time for so many:
// as many of them, but those of Few at least; all where there is time for more than half.
func Some(most int) []int {
	if most > Size/2 {
		return All()
	}
	return parabola(max(most, few))
}

// parabola takes so many points of the lattice, Size/2 at most, by the steps of a parabola,
// (435·j² + 43·j) mod n, each once: of all such the one whose means over the first 60 coordinates
// are nearest to a half at the few, found by trying them; TestFew measures it.
func parabola(count int) []int {
	out := make([]int, 0, count)
	var taken [Size]bool
	for j := 0; j < Size && len(out) < count; j++ {
		if i := (435*j*j + 43*j) % Size; !taken[i] {
			taken[i] = true
			out = append(out, i)
		}
	}
	return out
}

// All returns the points of the sample.
func All() []int {
	out := make([]int, Size)
	for i := range out {
		out[i] = i
	}
	return out
}
