package graph

import "dryfit/catalog"

// Built returns the circuit as it is once the work is done: all that then stands was there
// before, what was taken out is forgotten, and nothing is asked for. It is the circuit to begin
// the next work from. Its pipes are PVC-U, and say so where what was old is not, or not known.
func (c *Circuit) Built() *Circuit {
	out := *c.At(After)
	parts, runs := out.Parts, out.Runs
	out.Parts, out.Runs, out.Gone, out.Retrofit = nil, nil, nil, nil
	out.HeatedAt, out.Readings = "", nil // what was read was read before the work
	for _, p := range parts {
		q := *p
		q.Existing = true
		out.Parts = append(out.Parts, &q)
	}
	for _, r := range runs {
		q := *r
		if r.New() && c.Pipe.Material != PVCU && r.Spec.Family() != catalog.Hose && q.Material == "" {
			q.Material = PVCU
		}
		q.Existing, q.RemainsOf = true, ""
		out.Runs = append(out.Runs, &q)
	}
	return &out
}
