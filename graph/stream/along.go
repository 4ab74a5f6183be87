package stream

import "dryfit/graph"

// Along returns the runs that the water of one flows through from end to end, by their ids, that one among
// them: on through every part at which just two runs with water meet, no tub.
func (n *Net) Along(r *graph.Run) map[string]bool {
	out := map[string]bool{r.ID: true}
	for next := []*graph.Run{r}; len(next) > 0; next = next[1:] {
		for _, id := range []string{next[0].From.Part, next[0].To.Part} {
			p := n.Part(id)
			if p == nil || p.Kind == graph.Tub {
				continue
			}
			if at := n.WaterAt(p); len(at) == 2 {
				for _, o := range at {
					if !out[o.ID] {
						out[o.ID], next = true, append(next, o)
					}
				}
			}
		}
	}
	return out
}

// WaterAt returns the runs with water at a part, in the order of the circuit.
func (n *Net) WaterAt(p *graph.Part) (out []*graph.Run) {
	for _, r := range n.At(p) {
		if !n.IsAir(r) {
			out = append(out, r)
		}
	}
	return out
}
