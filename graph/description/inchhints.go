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
	`"right 450 mm", "up 300 mm"`, `"right 18 in", "up 12 in"`,
	`"left 50 mm", "down 80 mm"`, `"left 2 in", "down 3 in"`,
	`"right 300 mm", "up 250 mm", "back 200 mm"`, `"right 12 in", "up 10 in", "back 8 in"`,
	`"left 200 mm", "down 700 mm", "front 600 mm"`, `"left 8 in", "down 28 in", "front 24 in"`,
	`"right 1900 mm", "up 150 mm", "back 100 mm"`, `"right 75 in", "up 6 in", "back 4 in"`,
	`"right 110 mm", "up 150 mm"`, `"right 4 1/4 in", "up 6 in"`,
	`"right 300 mm back 300 mm"`, `"right 12 in back 12 in"`,
	`port.out.at = ["up 220 mm"]`, `port.out.at = ["up 8 3/4 in"]`,
	`"right 300 mm", "up 120 mm"`, `"right 12 in", "up 4 3/4 in"`,
	`port.NAME.at = ["down 300 mm"]`, `port.NAME.at = ["down 12 in"]`,
	`at = ["up 240 mm"]`, `at = ["up 9 1/2 in"]`,
	`"front 300 mm", "right 1800 mm", "down 250 mm"`, `"front 12 in", "right 71 in", "down 10 in"`,
	`from = ["right 600 mm"]`, `from = ["right 24 in"]`,
	`"right 1400 mm", "front 900 mm", "down 800 mm"`, `"right 55 in", "front 35 in", "down 31 in"`,
	`"right 600 mm", "front 900 mm"`, `"right 24 in", "front 35 in"`,
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
