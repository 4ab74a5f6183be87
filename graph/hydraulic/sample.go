package hydraulic

import "math"

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

// triangular maps u, 0 to 1, to a factor between 1+low and 1+high that is most often 1:
// the distribution of a value of which only the likely one and the bounds are known.
// low is negative. Source: the inverse of the triangular distribution, any handbook.
func triangular(u, low, high float64) float64 {
	width := high - low
	if width <= 0 {
		return 1
	}
	if peak := -low / width; u < peak {
		return 1 + low + math.Sqrt(u*width*-low)
	}
	return 1 + high - math.Sqrt((1-u)*width*high)
}
