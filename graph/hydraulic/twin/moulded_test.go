package twin

import "math"

// moulded has the two new tees of a tub lose what was measured of tees of 2 in moulded of PVC (Rahmeyer for ASHRAE
// RP-1193, ASHRAE Handbook Fundamentals, pipe design, table 9, read), where handbooks have one curve for all. Makes
// differ from one end of what was measured to the other, and one make does so in all its ways together: a sharp inside
// is sharp for whatever passes it. So a make is one number, even between 0 and 1, each of its ways a tenth of the
// measured width off that (a bell's deviation). Written down before a tub was drawn with it.
//
// K on the velocity head of the whole flow, at a share q of the branch, is a parabola through what is known of three
// shares:
//
//	dividing into the branch   none 0.95 (all of the speed is lost, Gardel), half 0.74 to 1.02, all 0.98 to 1.39
//	dividing straight on       none 0.05 to 0.14 (0.12 to 0.26 with the joints of the pipes, which runs have by themselves), half 0.04 to 0.14, all 0.35 (Gardel)
//	joining from the branch    none -0.92 (it is sucked in, Gardel), half 0.22 to 0.47, all 0.89 to 1.54
//	joining straight on        none 0.05 to 0.14, half 0.31 to 0.47, all 0.45 to 0.75 (momentum leaves it no more than 1)
//
// A branch narrower than the run loses what Gardel has it lose besides.
type moulded [6]float64

func drawMoulded(d dice) (m moulded) {
	one := d.Float64()
	for i := range m {
		m[i] = min(1, max(0, one+0.1*d.NormFloat64()))
	}
	return m
}

// at is what a way of the make has between two ends of what was measured.
func (m moulded) at(way int, low, high float64) float64 { return low + (high-low)*m[way] }

// through is the parabola through what stands at 0, a half and 1.
func through(q, none, half, all float64) float64 {
	bend := 2 * (none + all - 2*half)
	return none + q*(all-none-bend) + q*q*bend
}

func (m moulded) dividing(q, area float64) (branch, run float64) {
	narrow, _ := gardel{edge: [2]float64{0.06, 0.06}}.dividing(q, area)
	equal, _ := gardel{edge: [2]float64{0.06, 0.06}}.dividing(q, 1)
	return through(q, 0.95, m.at(0, 0.74, 1.02), m.at(1, 0.98, 1.39)) + narrow - equal,
		through(q, m.at(2, 0.05, 0.14), m.at(2, 0.04, 0.14), 0.35)
}

func (m moulded) joining(q, area float64) (branch, run float64) {
	narrow, thin := gardel{edge: [2]float64{0.06, 0.06}}.joining(q, area)
	equal, full := gardel{edge: [2]float64{0.06, 0.06}}.joining(q, 1)
	return through(q, -0.92, m.at(3, 0.22, 0.47), m.at(4, 0.89, 1.54)) + narrow - equal,
		through(q, m.at(2, 0.05, 0.14), m.at(5, 0.31, 0.47), m.at(5, 0.45, 0.75)) + thin - full
}

// mouldedTee writes a new tee of a make of its own, each piece a twentieth off it.
func (t *tub) mouldedTee(id string) {
	t.part(id, "tee", newWork, "", "")
	t.tee[id] = math.Exp(0.05 * t.d.NormFloat64())
}
