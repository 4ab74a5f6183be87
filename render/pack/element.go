package pack

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/plan"
)

// elementWords says what becomes of every element heater and who sees to it. The three ways
// are common practice, no source.
func elementWords(p *plan.Plan) []string {
	if p.After == nil {
		return nil
	}
	var out []string
	for _, e := range p.After.Circuit.OfKind(graph.ElementHeater) {
		power := ""
		if e.Element != nil && e.Element.PowerW > 0 {
			power = fmt.Sprintf(" (%.1f kW)", e.Element.PowerW/1000)
		}
		switch {
		case e.Element != nil && e.Element.Disconnected:
			out = append(out, fmt.Sprintf("%s%s is disconnected: a qualified electrician isolates the tub, proves it dead, takes the element's leads off and makes them safe, and signs the record. The unit alone heats.", e.ID, power))
		case e.Element != nil && e.Element.Interlock != "":
			out = append(out, fmt.Sprintf("%s%s stays in use under this interlock: %s. A qualified electrician wires it, tries it with the unit on and off, and signs the record.", e.ID, power, e.Element.Interlock))
		default:
			out = append(out, fmt.Sprintf("NOT SETTLED: what becomes of %s%s. Before the unit is switched on a qualified electrician either disconnects it, or makes it back-up with a set point 2 to 3 K lower, or locks it out while the unit runs.", e.ID, power))
		}
	}
	if len(out) > 0 && p.After.Circuit.TheUnit() != nil {
		out = append(out, "The controller's set point stays above the unit's, so that the pump keeps running and the unit does the regulating; the high limit stays active.")
	}
	return out
}
