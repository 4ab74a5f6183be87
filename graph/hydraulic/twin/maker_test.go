package twin

// A world is whoever makes the tubs up: what pumps, parts and pipe are like to him. Makers
// who read the same handbooks draw differently, and the ranges should hold for each.
type world struct {
	name     string
	families []family
	pump     func(dice, family) pump
	filter   func(d dice, sand bool, flow float64) (sheet loss, dirt float64)
	element  func(d dice, flow float64) loss
	injector func(d dice, flow float64) loss
	field    func(dice) float64 // what a part in use costs to its sheet
	unit     func(d dice, rated float64) (sheet loss, field float64)
	jets     func(dice, family, curve) jets
	pipe     func(d dice, spec, size string, old, corrugated bool) pipe
	spring   func(d dice, psi float64) (cracking, k float64)
	// K of an elbow of the make at hand, how one of it is off, of a joint, a barb, an entrance, a
	// suction's cover; factors on a tee by the handbook and on a valve at its position.
	elbowMake, elbow, joint, barb, entrance, suction, tee, valve func(dice) float64
	typed                                                        float64 // share of units without a sheet of which only the type is known

	line func(*tub, pump) // lays a tub of his own out; nil: the family's
}

var workshop = &world{
	name: "workshop", families: families,
	pump: drawPump, filter: drawFilter, element: drawElement, injector: drawInjector, unit: drawUnit, jets: drawJets, pipe: drawPipe, spring: drawSpring,
	field:     func(d dice) float64 { return d.even(0.95, 1.25) },
	elbowMake: drawElbowMake, elbow: drawElbow, joint: drawJoint, barb: drawBarb, entrance: drawEntrance, suction: drawSuction, tee: drawTee,
	valve: func(d dice) float64 { return d.off(0.2) },
}
