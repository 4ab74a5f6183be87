package graph

// Units returns the heat pumps of the circuit, in its order.
func (c *Circuit) Units() []*Part { return c.OfKind(HeatPump) }

// TheUnit returns the unit the job is about: the one [retrofit] names, else the first new
// one, else the first; nil where there is none.
func (c *Circuit) TheUnit() *Part {
	var first *Part
	for _, p := range c.Units() {
		if c.Retrofit != nil && c.Retrofit.Unit == p.ID {
			return p
		}
		if first == nil || (first.Existing && !p.Existing) {
			first = p
		}
	}
	return first
}
