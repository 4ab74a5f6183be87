package table

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph/hydraulic"
	"dryfit/graph/rule"
	"dryfit/render/table/form"
)

// methodBlock says what the numbers of a flow rest on.
func methodBlock(sol *hydraulic.Solution, s form.Style) form.Block {
	w := sol.Water
	return form.Block{Title: "What the numbers rest on", Lines: []string{
		fmt.Sprintf("  water at %s: %s (Tanaka 2001, IAPWS SR6-08, unless the description gives them)",
			quantity.Format(quantity.Round(w.TemperatureC, 1), quantity.Temperature, s.Units), fluid(w.Density, w.Viscosity, s.Units)),
		"  friction: Darcy-Weisbach, Colebrook-White; 64/Re below Re 2000, a straight line in Re up to 4000",
		"  bores: outside diameter and wall in the middle of their tolerances, unless the description gives one",
		"  fittings: K = (L/D)·f_T and tees by flow split, Crane TP-410 (2009); drops are of total pressure",
		"  inside: the greatest gauge pressure in the run, the weight of the water above it counted; " + noLevel + " counted from the water's surface, for nothing says how deep the run lies (below-water on a pump, the tub or a part, and legs to there)",
		s.Say(quantity.Say("  velocity limits: %s on suction, %s on pressure (International Swimming Pool and Spa Code 311.3); ! marks what is above", quantity.Velocity.Of(rule.SuctionVelocity), quantity.Velocity.Of(rule.PressureVelocity))),
	}}
}

// fluid words a density, kg/m³, and a viscosity, Pa s, in one system of units.
func fluid(density, viscosity float64, units quantity.System) string {
	return quantity.Format(density, quantity.Density, units) + ", " + quantity.Format(viscosity, quantity.Viscosity, units)
}
