package table

import (
	"fmt"

	"dryfit/graph/hydraulic"
)

// methodBlock says what the numbers of a flow rest on.
func methodBlock(sol *hydraulic.Solution) Block {
	w := sol.Water
	return Block{Title: "What the numbers rest on", Lines: []string{
		fmt.Sprintf("  water at %s °C: %s kg/m3, %s mPa s (Tanaka 2001, IAPWS SR6-08, unless the description gives them)",
			fixed(w.TemperatureC, 0), fixed(w.Density, 1), fixed(w.Viscosity*1000, 3)),
		"  friction: Darcy-Weisbach, Colebrook-White; 64/Re below Re 2000, a straight line in Re up to 4000",
		"  bores: the mean bore of inch pipe, the bore at the least wall of metric pipe, unless the description gives one",
		"  fittings: K = (L/D)·f_T and tees by flow split, Crane TP-410 (2009); drops are of total pressure",
		"  velocity limits: 1.83 m/s on suction, 2.44 m/s on pressure (6 and 8 ft/s, International Swimming Pool and Spa Code 311.3); ! marks what is above",
	}}
}
