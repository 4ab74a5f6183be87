package catalog

import "dryfit/catalog/quantity"

// Horsepower is the unit in which a pump's label gives what its shaft gives, not what it draws.
const Horsepower = "hp"

// MotorEfficiency is what the shaft of a pump's motor gives of what it draws: motors are rated by their output
// (NEMA MG 1, IEC 60034-1; from memory), and those of half to three horsepower give 0.6 to 0.8 of what they draw
// (common practice, no source).
const MotorEfficiency = 0.7

// Draws returns what a pump draws by the power on its label, W: that power, or where it is in horsepower what the
// motor takes to give it at its shaft.
func Draws(label quantity.Quantity) float64 {
	if label.Unit == Horsepower {
		return label.Value / MotorEfficiency
	}
	return label.Value
}
