package catalog

import (
	"iter"
	"strings"

	"dryfit/catalog/quantity"
)

// Said is what a row says in one column.
type Said struct {
	Key     string // of the column, as a description writes it
	Heading string // of the column, in words
	Value   any    // as TOML has it: string, float64, bool, []any of them, or Table

	Prose  quantity.Text   // of words about amounts: a built-in row's with their amounts
	Amount quantity.Amount // of a column with a quantity
	Is     bool            // it has one
}

// Says walks what the row says, column by column.
func (r Row) Says() iter.Seq[Said] {
	return r.where(func(i int) bool { return columns[i].says(&r) })
}

// SaysItself walks what a row of the user's says without what it left to the row it is laid over.
func (r Row) SaysItself() iter.Seq[Said] { return r.where(r.owns) }

// where walks the columns chosen by their index.
func (r Row) where(choose func(i int) bool) iter.Seq[Said] {
	return func(yield func(Said) bool) {
		for i := range columns {
			c := &columns[i]
			if !choose(i) {
				continue
			}
			one := Said{Key: c.name, Heading: c.heading, Value: c.get(&r)}
			if one.Heading == "" {
				one.Heading = strings.ReplaceAll(c.name, "-", " ")
			}
			if c.prose != nil {
				one.Prose = *c.prose(&r)
			}
			if c.form == amount {
				one.Amount, one.Is = c.dim.Of(c.num(&r)), true
			}
			if !yield(one) {
				return
			}
		}
	}
}
