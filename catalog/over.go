package catalog

import "slices"

// Over returns the row laid over another of the same name: what r does not say is taken from
// below, column by column. Numbers that belong together are taken together: a loss in any
// form puts every form of the one below aside, a curve puts the speeds aside, and a take-off
// or length that the user gives is no longer a guess, nor off by what the guess may be.
func (r Row) Over(below Row) Row {
	out := r
	if r.Own {
		out.Mine, out.Below = make([]bool, len(columns)), below.Source
		if below.Below != "" {
			out.Below = below.Below // an own row below it is the user's too
		}
	}
	for i := range columns {
		c := &columns[i]
		if r.Own {
			out.Mine[i] = r.owns(i)
		}
		if c.fill == nil || c.says(&r) || slices.ContainsFunc(c.unless, r.saysIn) {
			continue
		}
		c.fill(&out, &below)
		if r.Own {
			out.Mine[i] = below.owns(i)
		}
	}
	return out
}

// owns reports whether the user says what stands in a column, by its index, and did not leave it to the
// row below his.
func (r *Row) owns(i int) bool {
	return r.Own && columns[i].says(r) && (r.Mine == nil || r.Mine[i])
}

// Owns reports whether the row is the user's and says itself what stands in a column.
func (r *Row) Owns(name string) bool {
	if !r.Own { // as most
		return false
	}
	i := columnAt(name)
	return i >= 0 && r.owns(i)
}

// OwnsLoss reports whether the row is the user's and says a loss itself, in any form: of jets by their
// bore, too, or the share of their pump's head.
func (r *Row) OwnsLoss() bool {
	return slices.ContainsFunc(losses, r.Owns) || r.Kind == "jet-group" && (r.Owns("bore") || r.Owns("head-share"))
}

// OwnsCurve reports whether the row is a pump of the user's and has a curve of his.
func (r *Row) OwnsCurve() bool { return r.Owns("curve") || r.Owns("speeds") }

// saysIn reports whether the row says anything in a column.
func (r *Row) saysIn(name string) bool {
	c, ok := findColumn(name)
	return ok && c.says(r)
}

// hasLoss reports whether the row says a loss in any form.
func (r *Row) hasLoss() bool { return slices.ContainsFunc(losses, r.saysIn) }
