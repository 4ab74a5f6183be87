package rule

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route/solid"
)

// unitRoom holds what stands round a unit against the room it wants there.
var unitRoom = &Rule{
	Name:     "unit-room",
	Asks:     "Nothing described stands in the room the unit wants before its fan, behind it and at its service side.",
	Why:      "A unit that blows against something breathes its own cold air again; one that can't be opened is not serviced.",
	Source:   "heat pump manuals (from memory): 300 to 500 mm behind, 500 to 600 mm at the service side, 1.5 to 2.5 m before the fan; its own sheet beats them",
	Severity: graph.Warning,
	Needs:    NeedsLayout,
	Anywhere: true,
	Check:    unitHasRoom,
}

func unitHasRoom(in *Input, report Report) {
	v := in.ask()
	if in.Layout == nil || in.Layout.Circuit != v.c {
		return
	}
	for _, u := range v.c.Units() {
		if u.Unit == nil {
			continue
		}
		bodies := in.Bodies
		if bodies == nil {
			bodies = solid.Of(in.Layout)
		}
		for _, r := range bodies.UnitRooms(u) {
			if r.By == "" {
				continue
			}
			d := graph.Diagnostic{
				Pos: or(u.KeyPos["clearances"], key(u, "box")), Severity: graph.Warning,
				Message: graph.Say("%q has %s free %s; it needs %s: %s stands there", u.ID, v.length(r.FreeMM), r.What, v.length(r.NeedMM), r.By),
				Hint:    graph.Say("move the unit or what stands there"),
			}
			if r.ByPos.IsValid() {
				d.Related = []graph.Related{{Pos: r.ByPos, Message: graph.Say("%s is here", r.By)}}
			}
			if r.Assumed {
				d.Hint += graph.Say("; its sheet decides, and the local code: where that asks for less write clearances = { %s = \"%s\" } on the unit", r.Key, quantity.Length.Of(r.FreeMM))
			}
			if r.Guess {
				d.Hint += "; its case is taken as what is behind its ports: give its box"
			}
			report(u.Existing, d)
		}
	}
}
