package pipework

import (
	"strings"

	"dryfit/graph"
	"dryfit/graph/description/field"
	"dryfit/graph/description/located"
)

// openLeg reads a leg whose length is left to the tool: a direction and "?".
func openLeg(text string) (graph.Vec, bool) {
	words := strings.Fields(text)
	if len(words) != 2 || words[1] != located.Blank {
		return graph.Vec{}, false
	}
	way, ok := graph.Directions()[words[0]]
	return way, ok
}

// readOpenLegs looks whether the loop can close the legs that are left open: it has one length
// for each axis, with the place of the unit one for each of the two pipes.
func readOpenLegs(r *field.Reader, v located.Value, t *graph.Retrofit) {
	p := r.Parts[t.Unit]
	seen := map[string]located.Value{}
	for _, key := range []string{"to-unit", "from-unit"} {
		c, ok := v.In(key)
		items, _ := c.Items()
		legs := t.ToUnit
		if key == "from-unit" {
			legs = t.FromUnit
		}
		if !ok || len(items) != len(legs) {
			continue
		}
		for i, l := range legs {
			if !l.Open {
				continue
			}
			axis := "height"
			switch {
			case l.By.X != 0:
				axis = "left to right"
			case l.By.Y != 0:
				axis = "front to back"
			}
			id := axis
			if t.Stand != nil {
				id += key
			}
			if was, twice := seen[id]; twice {
				d := r.Fail(items[i], "give one of them a length", "two open legs lie along one axis, %s: closing the loop tells only what they come to together", axis)
				located.Related(d, r.ValuePos(was), "the other is here")
				continue
			}
			seen[id] = items[i]
			switch {
			case len(t.ToUnit) == 0 || len(t.FromUnit) == 0:
				if t.Stand == nil {
					r.Fail(items[i], "write to-unit and from-unit, or say where the unit stands with at", "an open leg wants a loop to close, and only one of the two pipes is written")
				}
			case p != nil && p.Port(graph.Out) != nil && p.Port(graph.Out).At == nil:
				d := r.Fail(items[i], `measure from the middle of its inlet to that of its outlet, and write it on the part, such as port.out.at = ["up 220 mm"]`,
					"an open leg wants to know how far the outlet of %s stands from its inlet", located.Said(p.ID))
				located.Related(d, r.IDPos(p, p.Pos), "it is described here")
			}
		}
	}
}
