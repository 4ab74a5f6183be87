package description

import (
	"strings"

	"dryfit/catalog/quantity"
)

// inchHints are the examples of the hints of this reader as they stand for a file in inch units: as
// much, in round numbers. They are whole texts in quotes, so that what a file itself says is let be.
var inchHints = strings.NewReplacer(
	`[["0 m3/h", "7 m"], ["8 m3/h", "2 m"]]`, `[["0 gpm", "23 ft"], ["35 gpm", "7 ft"]]`,
	`[["0 m3/h", "15 m"], ["16 m3/h", "11 m"]]`, `[["0 gpm", "49 ft"], ["70 gpm", "36 ft"]]`,
	`[["5 m3/h", "2 kPa"], ["10 m3/h", "7 kPa"]]`, `[["22 gpm", "0.3 psi"], ["44 gpm", "1 psi"]]`,
	`flow = "10 m3/h"`, `flow = "44 gpm"`,
	`length = "900 mm"`, `length = "3 ft"`,
	quoted(quantity.Length), `"18 in"`,
	legOf(quantity.Length), ` 18 in"`,
	quoted(quantity.Volume), `"300 gal"`,
	quoted(quantity.Flow), `"26 gpm"`,
	quoted(quantity.Pressure), `"1 psi"`,
	quoted(quantity.Head), `"8 ft"`,
	quoted(quantity.Temperature), `"100 °F"`,
)

// quoted is the example of a dimension as a value, legOf as the length behind the way of a leg.
func quoted(d quantity.Dimension) string { return `"` + d.Example() + `"` }
func legOf(d quantity.Dimension) string  { return " " + d.Example() + `"` }

// hintIn is a hint with its examples in the units of a system.
func hintIn(hint quantity.Text, s quantity.System) quantity.Text {
	if s != quantity.InchSystem {
		return hint
	}
	return quantity.Text(inchHints.Replace(string(hint)))
}
