package catalog

import "slices"

// Over returns the row laid over another of the same name: what r does not say is taken from
// below, column by column. Numbers that belong together are taken together: a loss in any
// form puts every form of the one below aside, a curve puts the speeds aside, and a take-off
// or length that the user gives is no longer a guess.
func (r Row) Over(below Row) Row {
	out := r
	for i := range columns {
		c := &columns[i]
		if c.fill == nil || c.says(&r) || slices.ContainsFunc(c.unless, r.saysIn) {
			continue
		}
		c.fill(&out, &below)
	}
	return out
}

// saysIn reports whether the row says anything in a column.
func (r *Row) saysIn(name string) bool {
	c, ok := findColumn(name)
	return ok && c.says(r)
}

// hasLoss reports whether the row says a loss in any form.
func (r *Row) hasLoss() bool { return slices.ContainsFunc(losses, r.saysIn) }
