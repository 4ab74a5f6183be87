package graph

import (
	"maps"
	"slices"
)

// Built returns the circuit as it is once the work is done: all that then stands was there
// before, what was taken out is forgotten, and nothing is asked for. It is the circuit to begin
// the next work from. Its pipes are PVC-U, and say so where what was old is not, or not known.
func (c *Circuit) Built() *Circuit {
	out := *c.At(After)
	parts, runs := out.Parts, out.Runs
	out.Parts, out.Runs, out.Gone, out.Retrofit = nil, nil, nil, nil
	out.HeatedAt, out.Readings, out.Fit = "", nil, nil // what was read was read before the work
	for _, p := range parts {
		q := *p
		q.Existing = true
		out.Parts = append(out.Parts, &q)
	}
	for _, r := range runs {
		q := *r
		if r.New() && c.Pipe.Material != PVCU && !r.Spec.IsHose() && q.Material == "" {
			q.Material = PVCU
		}
		q.Existing, q.RemainsOf = true, ""
		out.Runs = append(out.Runs, &q)
	}
	out.forget(func(id string) bool { return c.Part(id) != nil && out.Part(id) == nil })
	return &out
}

// forget leaves out what is said of parts that are gone: how valves and pumps of them stand in a
// mode, what they cost, and the circuits of the supply that fed nothing else.
func (c *Circuit) forget(gone func(id string) bool) {
	modes := c.Modes
	c.Modes = nil
	for _, m := range modes {
		m.Speeds, m.Positions = maps.Clone(m.Speeds), maps.Clone(m.Positions)
		maps.DeleteFunc(m.Speeds, func(id, _ string) bool { return gone(id) })
		maps.DeleteFunc(m.Positions, func(id string, _ Opening) bool { return gone(id) })
		c.Modes = append(c.Modes, m)
	}
	prices := c.Prices
	c.Prices = nil
	for _, p := range prices {
		if !gone(p.Item) || slices.Contains(Kinds(), Kind(p.Item)) {
			c.Prices = append(c.Prices, p)
		}
	}
	supplies := c.Supplies
	c.Supplies = nil
	for _, s := range supplies {
		fed := len(s.Feeds) > 0
		s.Feeds = slices.DeleteFunc(slices.Clone(s.Feeds), gone)
		if !fed || len(s.Feeds) > 0 { // one that feeds nothing by name feeds all that no other does
			c.Supplies = append(c.Supplies, s)
		}
	}
}
