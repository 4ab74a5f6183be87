package graph

// Built returns the circuit as it is once the work is done: all that then stands was there
// before, what was taken out is forgotten, and nothing is asked for. It is the circuit to begin
// the next work from.
func (c *Circuit) Built() *Circuit {
	out := *c.At(After)
	parts, runs := out.Parts, out.Runs
	out.Parts, out.Runs, out.Gone, out.Retrofit = nil, nil, nil, nil
	for _, p := range parts {
		q := *p
		q.Existing = true
		out.Parts = append(out.Parts, &q)
	}
	for _, r := range runs {
		q := *r
		q.Existing, q.RemainsOf = true, ""
		out.Runs = append(out.Runs, &q)
	}
	return &out
}
