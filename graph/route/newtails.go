package route

import (
	"slices"

	"dryfit/graph"
)

// NewTails lists the ports of parts that stay at which a nut opens and whose tail has to come new: the
// old one goes with the pipe that is cemented into it and taken out, and new pipe is cemented in there. whole
// is the circuit with what is taken out. In the order of the joints.
//
// Source: cemented pipe does not come out of its socket (common practice, no source).
func (lay *Layout) NewTails(whole *graph.Circuit) []graph.PortRef {
	gone := map[string]bool{}
	for _, r := range whole.Runs {
		if r.Removed && !r.Spec.IsHose() {
			gone[r.From.String()], gone[r.To.String()] = true, true
		}
	}
	var out []graph.PortRef
	for _, j := range lay.Joints {
		r := lay.Circuit.Run(j.Run)
		if j.Kind != "cement" || r == nil || !r.New() {
			continue
		}
		for _, end := range []graph.PortRef{r.From, r.To} {
			p := lay.Stage.Part(end.Part)
			if p == nil || !p.Existing || !p.OpensAt(end.Port) || !gone[end.String()] || slices.ContainsFunc(out, end.Same) {
				continue
			}
			if j.A == end.String() || j.B == end.String() { // not at an adaptor that stays in it
				out = append(out, end)
			}
		}
	}
	return out
}
