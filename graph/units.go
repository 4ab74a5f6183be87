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

// oldBesideUnit is the id of the old part that the new pipes of the unit lead to first: it tells
// which water the unit heats in the stage in which the unit is not there yet. "" where nothing
// joins the unit, or there is but one tub and so but one water.
func (c *Circuit) oldBesideUnit() string {
	unit := c.TheUnit()
	if unit == nil || len(c.OfKind(Tub)) < 2 {
		return ""
	}
	old, at := map[string]bool{}, map[string][]string{}
	for _, p := range c.Parts {
		old[p.ID] = p.Existing
	}
	for _, r := range c.Runs {
		at[r.From.Part] = append(at[r.From.Part], r.To.Part)
		at[r.To.Part] = append(at[r.To.Part], r.From.Part)
	}
	seen, list := map[string]bool{unit.ID: true}, []string{unit.ID}
	for len(list) > 0 {
		for _, next := range at[list[0]] {
			if seen[next] {
				continue
			}
			if old[next] {
				return next
			}
			seen[next] = true
			list = append(list, next)
		}
		list = list[1:]
	}
	return ""
}

// AskedWater is the id of a part in the water that [retrofit] is about: where the run to be cut
// begins, else that of the port the unit's place is counted from; "" where it names neither.
func (c *Circuit) AskedWater() string {
	switch r := c.Retrofit; {
	case r == nil || r.Remove:
		return ""
	case r.Cut != nil && c.Run(r.Cut.Run) != nil:
		return c.Run(r.Cut.Run).From.Part
	case r.Stand != nil:
		return r.Stand.From.Part
	}
	return ""
}
