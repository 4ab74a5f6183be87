package plan

import (
	"fmt"
	"reflect"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
)

// stages splits the circuit into what stands before the work and what stands after it.
// Where nothing is new and nothing removed the two are one circuit. There is no before
// where nothing but a tub was there, nor where the old pipe was not described, so that it
// does not close; a note says so.
func (p *Plan) stages() (before, after *stage.Stage) {
	c := p.Circuit
	if after = p.fitted; after == nil {
		after = &stage.Stage{Circuit: c.At(graph.After)}
	}
	if !hasWork(c) {
		return after, after
	}
	old := c.At(graph.Before)
	if onlyTub(old) {
		return nil, after
	}
	if open := openPorts(old); len(open) > 0 {
		first := open[0]
		p.Findings = append(p.Findings, graph.Diagnostic{
			Pos: first.Pos, Rule: "stages", Severity: graph.Note,
			Message: graph.Say("the circuit before the work is left out: %s joined to nothing that was there", are(open)),
			Hint:    stoodApart(old, first.Part),
		})
		return nil, after
	}
	return p.today(old), after
}

// stoodApart is what would make a circuit before the work of one in which a part has open ports: where no
// run that was there leads to it, it may be one that is to be fitted.
func stoodApart(old *graph.Circuit, id string) quantity.Text {
	const taken = "describe the pipe that is taken out, with existing = true and removed = true, to compare with today"
	if slices.ContainsFunc(old.Runs, func(r *graph.Run) bool { return r.From.Part == id || r.To.Part == id }) {
		return taken
	}
	return graph.Say("no run that was there leads to %q: where it is new, take existing = true out of it; else ", id) + taken
}

// hasWork reports whether anything is new or taken out. A tub is always existing.
func hasWork(c *graph.Circuit) bool {
	for _, part := range c.Parts {
		if part.Kind != graph.Tub && (!part.Existing || part.Removed) {
			return true
		}
	}
	for _, r := range c.Runs {
		if !r.Existing || r.Removed {
			return true
		}
	}
	return false
}

// onlyTub reports whether a stage holds nothing but a tub.
func onlyTub(c *graph.Circuit) bool {
	for _, part := range c.Parts {
		if part.Kind != graph.Tub {
			return false
		}
	}
	return true
}

// openPorts lists the water ports of a stage that no run of the stage reaches. A tub's
// port may be open: it is plugged until the new work uses it.
func openPorts(c *graph.Circuit) []graph.PortRef {
	joined := map[string]bool{}
	for _, r := range c.Runs {
		joined[r.From.String()], joined[r.To.String()] = true, true
	}
	var open []graph.PortRef
	for _, part := range c.Parts {
		if part.Kind == graph.Tub || part.Kind == graph.Blower || part.Kind == graph.AirControl {
			continue
		}
		for _, port := range part.Ports {
			ref := graph.PortRef{Part: part.ID, Port: port.Name, Pos: part.Pos}
			if !port.Air && !joined[ref.String()] {
				open = append(open, ref)
			}
		}
	}
	return open
}

func are(ports []graph.PortRef) string {
	var names []string
	for _, ref := range ports {
		names = append(names, fmt.Sprintf("%q", ref.String()))
	}
	if len(names) == 1 {
		return names[0] + " is"
	}
	if len(names) > 3 {
		names = append(names[:3:3], fmt.Sprintf("%d more", len(names)-3))
	}
	return quantity.Listed(names, "and") + " are"
}

// today returns the stage before the work: the one the search for a place has laid out, and
// may have solved, where it is the same circuit; else a new one.
func (p *Plan) today(old *graph.Circuit) *stage.Stage {
	if p.searched != nil && sameWork(p.searched.Circuit, old) {
		return p.searched
	}
	return &stage.Stage{Circuit: old}
}

// sameWork reports whether two circuits are the same but for what is to be taken out of them.
func sameWork(a, b *graph.Circuit) bool {
	parts := func(x, y *graph.Part) bool {
		one, two := *x, *y
		one.Removed, two.Removed = false, false
		return x == y || reflect.DeepEqual(one, two)
	}
	runs := func(x, y *graph.Run) bool {
		one, two := *x, *y
		one.Removed, two.Removed = false, false
		return x == y || reflect.DeepEqual(one, two)
	}
	return slices.EqualFunc(a.Parts, b.Parts, parts) && slices.EqualFunc(a.Runs, b.Runs, runs) &&
		reflect.DeepEqual(a.Modes, b.Modes) && reflect.DeepEqual(a.Pipe, b.Pipe) && reflect.DeepEqual(a.Water, b.Water)
}
