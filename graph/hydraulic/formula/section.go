package formula

// Expansion returns K [-] on the small bore of a sudden expansion, (1 - (d/D)²)².
// small and large are bores in the same unit.
//
// Source: Borda-Carnot; Encyclopaedia Britannica, 11th ed., "Hydraulics".
func Expansion(small, large float64) float64 {
	b := small / large
	k := 1 - b*b
	return k * k
}

// Contraction returns K [-] on the small bore of a sudden contraction, 0.42·(1 - (d/D)²).
// small and large are bores in the same unit.
//
// Source: F. M. White, Fluid Mechanics, chapter 6 (from memory), for d/D up to 0.76; used
// above that too, where Borda-Carnot is at most a fifth of a velocity head lower.
func Contraction(small, large float64) float64 {
	b := small / large
	return 0.42 * (1 - b*b)
}

// Loss coefficients [-] where pipe leaves and enters the tub, on the bore of the pipe.
// Source: sharp-edged entrance and exit; universal, from memory.
const (
	Entrance = 0.5
	Exit     = 1.0
)
