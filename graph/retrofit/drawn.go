package retrofit

import (
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit/draft"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// Drawn returns the places at which work that is drawn in full is let into old pipe: where what is
// left of one run leads through new parts and pipe in a line to what else is left of it. Its room
// is that of the string and of the bare old pipe still standing at both its ends, so that it hangs
// on the same lengths as the place it was planned at. lay is the circuit after the work.
func Drawn(lay *route.Layout) []Place {
	if lay == nil {
		return nil
	}
	var out []Place
	for i := range lay.Paths {
		if first := &lay.Paths[i]; first.Run.RemainsOf != "" && len(first.Points) > 1 {
			if p, ok := drawnFrom(lay, first); ok {
				out = append(out, p)
			}
		}
	}
	return out
}

// drawnFrom follows the string from the end of what is left of a run to what else is left of it.
func drawnFrom(lay *route.Layout, first *route.Path) (Place, bool) {
	c, ref := lay.Circuit, first.Run.To
	place := Place{Run: first.Run.RemainsOf, Leg: 1}
	if part := c.Part(ref.Part); part == nil || !part.New() {
		return place, false
	}
	length := first.Points[len(first.Points)-1].Sub(first.Points[len(first.Points)-2]).Len()
	start, finish := draft.LegEnds(first, len(first.Points)-1)
	place.RoomMM = length - start.Face() - finish.Face()
	for range len(c.Parts) { // no longer than all parts one after the other
		part := lay.Stage.Part(ref.Part)
		if part == nil || !part.New() {
			return place, false
		}
		place.doubt(part)
		on, ok := through(part.Part, ref.Port)
		if !ok {
			return place, false
		}
		path := pipeAt(lay, on)
		if path == nil {
			return place, false
		}
		if old := path.Run; old.RemainsOf == first.Run.RemainsOf && old != first.Run && old.From.Same(on) {
			start, finish := draft.LegEnds(path, 1)
			place.RoomMM += path.Points[1].Sub(path.Points[0]).Len() - start.Face() - finish.Face() - parked(lay, first.Run.To, on)
			return place, len(place.Doubts) > 0
		}
		if !path.Run.New() {
			return place, false
		}
		ref = path.Run.To
		if ref.Same(on) {
			ref = path.Run.From
		}
	}
	return place, false
}

// parked is the bare old pipe that two slip couplings, one at each end of a string, are slid back on:
// none of it is to spare.
func parked(lay *route.Layout, a, b graph.PortRef) float64 {
	sum := 0.0
	for _, ref := range []graph.PortRef{a, b} {
		part := lay.Stage.Part(ref.Part)
		if part == nil || part.Kind != graph.SlipCoupling {
			return 0
		}
		row := part.Row.V
		sum += max(0, settle.OverSlip(row, row.SocketMM)-row.SocketMM)
	}
	return sum
}

// through is the port a line goes on from that comes to another.
func through(p *graph.Part, port string) (graph.PortRef, bool) {
	on := map[string]string{graph.In: graph.Out, graph.Out: graph.In, graph.RunIn: graph.RunOut, graph.RunOut: graph.RunIn}[port]
	return graph.PortRef{Part: p.ID, Port: on}, on != "" && slices.ContainsFunc(p.Ports, func(q graph.Port) bool { return q.Name == on })
}

// pipeAt is the pipe at a port; nil where none is laid out there.
func pipeAt(lay *route.Layout, ref graph.PortRef) *route.Path {
	for i := range lay.Paths {
		if p := &lay.Paths[i]; (p.Run.From.Same(ref) || p.Run.To.Same(ref)) && len(p.Points) > 1 {
			return p
		}
	}
	return nil
}

// doubt adds a part of a drawn string whose length nobody measured.
func (p *Place) doubt(part *settle.Part) {
	row := part.Row.V
	mm, ends, what := row.LengthMM, 1.0, string(part.Kind)
	switch {
	case part.Kind == graph.Tee:
		mm, ends = 2*row.TakeOffMM, 2
	case !settle.InLine(part.Kind) || part.Kind == graph.SlipCoupling || part.OwnLength():
		return
	}
	if over := ends * row.TolPlusMM; row.Measure && over > 0 {
		p.Doubts = append(p.Doubts, Doubt{What: graph.Say("%s %q", what, part.ID), MM: mm, OverMM: over})
	}
}
