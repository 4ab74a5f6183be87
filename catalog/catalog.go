package catalog

import (
	"cmp"
	"iter"
	"slices"

	"dryfit/catalog/quantity"
)

// Catalog is a set of rows with different names. It never changes once made.
type Catalog struct {
	rows   []Row
	byName map[string]int
	byKind map[string][]int // indexes into rows, the user's before the embedded
	pipes  map[pipe]int     // the row of each, of several the first of byKind
	hangs  bool             // any row on what water is pumped
}

// pipe is a spec in a size: asked for of every run and of both its ends.
type pipe struct {
	spec Spec
	size Size
}

// newCatalog indexes the rows, which are the catalogue's from then on; of rows with the same name
// the last counts.
func newCatalog(rows []Row) *Catalog {
	c := &Catalog{rows: rows[:0], byName: make(map[string]int, len(rows)), byKind: map[string][]int{}, pipes: map[pipe]int{}}
	for i := range rows {
		if at, ok := c.byName[rows[i].Name]; ok {
			c.rows[at] = rows[i]
			continue
		}
		c.byName[rows[i].Name] = len(c.rows)
		c.rows = append(c.rows, rows[i])
	}
	for i := range c.rows {
		r := &c.rows[i]
		c.byKind[r.Kind] = append(c.byKind[r.Kind], i)
		c.hangs = c.hangs || r.hangs()
	}
	for _, list := range c.byKind {
		slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(c.rank(a), c.rank(b)) })
	}
	for _, i := range slices.Backward(c.byKind["pipe"]) {
		c.pipes[pipe{c.rows[i].Spec, c.rows[i].Size}] = i
	}
	return c
}

func (c *Catalog) rank(i int) int {
	if c.rows[i].Own {
		return 0
	}
	return 1
}

// Rows returns every row in the order of the files.
func (c *Catalog) Rows() []Row { return slices.Clone(c.rows) }

// All goes over every row in the order of the files; none of them is to be changed.
func (c *Catalog) All() iter.Seq[*Row] {
	return func(yield func(*Row) bool) {
		for i := range c.rows {
			if !yield(&c.rows[i]) {
				return
			}
		}
	}
}

// Row returns the row with the name.
func (c *Catalog) Row(name string) (Row, bool) {
	i, ok := c.byName[name]
	if !ok {
		return Row{}, false
	}
	return c.rows[i], true
}

// With returns a catalogue in which the user's rows are laid over these. A row with the name
// of one that is there takes its place and keeps what it does not say itself (see
// Row.Over); others are added. All are marked Own.
func (c *Catalog) With(rows []Row) *Catalog {
	if len(rows) == 0 {
		return c
	}
	all := slices.Clone(c.rows)
	at := make(map[string]int, len(all))
	for i := range all {
		at[all[i].Name] = i
	}
	for _, r := range rows {
		r.Own = true
		if i, ok := at[r.Name]; ok {
			if all[i].Kind == r.Kind {
				r = r.Over(all[i])
			}
			all[i] = r
			continue
		}
		at[r.Name] = len(all)
		all = append(all, r)
	}
	return newCatalog(all)
}

// Kinds returns the kinds that have rows, in the order of the alphabet.
func (c *Catalog) Kinds() []string {
	out := make([]string, 0, len(c.byKind))
	for k := range c.byKind {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// Nearest returns the name of the row that a name was most likely meant to be; "" where
// none is near.
func (c *Catalog) Nearest(name string) string {
	names := make([]string, len(c.rows))
	for i := range c.rows {
		names[i] = c.rows[i].Name
	}
	near, _ := quantity.Nearest(name, names)
	return near
}
