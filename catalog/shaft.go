package catalog

import (
	"math"

	"dryfit/catalog/quantity"
)

// Horsepower is the unit in which a pump's label gives what its shaft gives, not what it draws.
const Horsepower = "hp"

// MotorEfficiency is what the shaft of a pump's motor gives of what it draws: motors are rated by their output
// (NEMA MG 1, IEC 60034-1; from memory), and those of half to three horsepower give 0.6 to 0.8 of what they draw
// (common practice, no source).
const MotorEfficiency = 0.7

// MotorFactor is what a pump draws, W, of the volts times the amps on its plate, where nobody says its power factor:
// a motor of half to three horsepower with its capacitor has 0.75 to 0.95, and its plate gives what it takes at its
// heaviest, up to a seventh more than the pump asks of it (common practice, no source).
const MotorFactor = 0.8

// SmallMotorFactor is the same of a motor of less than SmallMotorVA volts times amps: shaded poles have 0.5 to 0.65,
// a capacitor motor 0.9 (from memory).
const SmallMotorFactor = 0.7

// SmallMotorVA is below how many volts times amps a pump's motor is one of the small kinds. Common practice, no source.
const SmallMotorVA = 300

// DrawsAt returns what a pump draws by the volts and amps on its plate, W, at a power factor, 0 where nobody says
// it; of three phases (see PhasesOf) volts are those between two.
func DrawsAt(volts, amps, factor float64, phases int) float64 {
	apparent := volts * amps
	if n, _ := PhasesOf(volts, phases); n > 1 {
		apparent *= math.Sqrt(n)
	}
	switch {
	case factor > 0:
		return apparent * factor
	case apparent < SmallMotorVA:
		return apparent * SmallMotorFactor
	}
	return apparent * MotorFactor
}

// Draws returns what a pump draws by the power on its label, W: that power, or where it is in horsepower what the
// motor takes to give it at its shaft.
func Draws(label quantity.Quantity) float64 {
	if label.Unit == Horsepower {
		return label.Value / MotorEfficiency
	}
	return label.Value
}
