package route

import "dryfit/graph"

// Course is the way of a piece's axis from its start to its finish: two points, and for hose
// and flexible pipe, which bends by itself, the corners between; nil where it has no place.
func (lay *Layout) Course(p *Piece) []graph.Vec {
	path := lay.Path(p.Run.ID)
	if path == nil || !path.Located {
		return nil
	}
	out := []graph.Vec{p.Start}
	if p.Spec.Flexible() {
		out = append(out, path.Points[p.Leg:len(path.Points)-1]...)
	}
	return append(out, p.Finish)
}

// OnLeg reports whether a piece lies on a leg of its run, counted from 1: its own, or for
// what bends by itself any after it.
func (p *Piece) OnLeg(leg int) bool {
	return p.Leg == leg || p.Spec.Flexible() && leg > p.Leg
}
