package catalog

import "math"

// ThreePhasesFromV is the voltage from which on a supply is one of three phases, V: one of one phase
// has 240 V at most, one of three 380 to 480 V between two of them (IEC 60038, from memory). Three
// phases of 208 V can't be told from one by their voltage: a part on all of them says so (phases).
const ThreePhasesFromV = 300

// PhasesOf is Phases of what stands on as many phases as its plate says: on all three of any voltage between
// two of them [V] each has a third of the power at V/√3; on 1 of a supply of three all of it at that to the
// neutral; where nobody says it (0), by the voltage.
func PhasesOf(voltage float64, said int) (n, one float64) {
	n, one = Phases(voltage)
	switch said {
	case 1:
		return 1, one
	case 3:
		return 3, voltage / math.Sqrt(3)
	}
	return n, one
}

// Phases returns how many phases a supply of a voltage [V] has, 1 or 3, and the voltage at which what
// runs on one phase stands [V]: of three phases that from one to the neutral, V/√3.
func Phases(voltage float64) (n, one float64) {
	if voltage < ThreePhasesFromV {
		return 1, voltage
	}
	return 3, voltage / math.Sqrt(3)
}
