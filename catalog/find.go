package catalog

import (
	"cmp"
	"slices"
	"strings"
)

// first returns the first row of the kind for which the test holds. A kind may be a style:
// "swing-check" finds the check valves of that style.
func (c *Catalog) first(kind string, holds func(*Row) bool) (Row, bool) {
	for _, i := range c.byKind[kind] {
		if holds(&c.rows[i]) {
			return c.rows[i], true
		}
	}
	if of, ok := styleKinds[kind]; ok {
		for _, i := range c.byKind[of] {
			if c.rows[i].Style == kind && holds(&c.rows[i]) {
				return c.rows[i], true
			}
		}
	}
	return Row{}, false
}

// styleKinds are the styles and the kind each is a style of.
var styleKinds = map[string]string{
	"spring-check":           "check-valve",
	"swing-check":            "check-valve",
	"true-union-swing-check": "check-valve",
	"true-union-ball-valve":  "ball-valve",
	"cartridge-filter":       "filter",
	"sand-filter":            "filter",
	"filter-in-vessel":       "filter",
}

// Pipe returns the row of pipe of the spec and size.
func (c *Catalog) Pipe(spec Spec, size Size) (Row, bool) {
	i, ok := c.pipes[pipe{spec, size}]
	if !ok {
		return Row{}, false
	}
	return c.rows[i], true
}

// PipeSizes returns the sizes in which the catalogue has pipe of the spec, rising.
func (c *Catalog) PipeSizes(spec Spec) []Size {
	var out []Size
	for _, i := range c.byKind["pipe"] {
		if r := &c.rows[i]; r.Spec == spec && !slices.Contains(out, r.Size) {
			out = append(out, r.Size)
		}
	}
	slices.SortFunc(out, func(a, b Size) int { return cmp.Compare(a.NominalMM(), b.NominalMM()) })
	return out
}

// Fitting returns the row of a fitting or valve of the kind for pipe of the spec and size.
// Where the spec has none of its own it is the family's: a row for any spec, then that of
// Schedule 40 (inch) or PN16 (metric). Of transitions and barbs it is the first whose first
// end has the size.
func (c *Catalog) Fitting(kind string, spec Spec, size Size) (Row, bool) {
	twoSizes := kind == "transition" || kind == "barb"
	return c.bySpec(kind, spec, func(r *Row) bool { return r.Size == size && (twoSizes || r.Size2.IsZero()) })
}

// Reducing returns the row of a "reducing-bush", "reducing-tee" or "reducer" from the large
// to the small size; false where no such part is made in one piece. For a reducing tee the
// small size is its branch.
func (c *Catalog) Reducing(kind string, spec Spec, large, small Size) (Row, bool) {
	return c.bySpec(kind, spec, func(r *Row) bool { return r.Size == large && r.Size2 == small })
}

// bySpec looks for the spec's own row, then one for any spec, then the family's.
func (c *Catalog) bySpec(kind string, spec Spec, holds func(*Row) bool) (Row, bool) {
	for _, s := range []Spec{spec, "", spec.fittingSpec()} {
		if r, ok := c.first(kind, func(r *Row) bool { return r.Spec == s && holds(r) }); ok {
			return r, true
		}
	}
	return Row{}, false
}

// Transition returns the row that joins pipe of one family and size to pipe of another,
// whichever way round it was written: an inch to metric transition, or a barb for hose.
func (c *Catalog) Transition(a Spec, sizeA Size, b Spec, sizeB Size) (Row, bool) {
	holds := func(r *Row) bool {
		return r.joins(a, sizeA, b, sizeB) || r.joins(b, sizeB, a, sizeA)
	}
	if r, ok := c.first("transition", holds); ok {
		return r, true
	}
	return c.first("barb", holds)
}

// joins reports whether the first end of the row takes pipe a and the second pipe b.
func (r *Row) joins(a Spec, sizeA Size, b Spec, sizeB Size) bool {
	return r.Size == sizeA && r.Size2 == sizeB && fits(r.Spec, a) && fits(r.Spec2, b)
}

// fits reports whether an end made for one spec takes pipe of another: of the same family,
// or any where the end names none.
func fits(end, pipe Spec) bool { return end == "" || end.Family() == pipe.Family() }

// Generic returns the row a part of an equipment kind is given when the description names
// none: the first of its kind that has no size.
func (c *Catalog) Generic(kind string) (Row, bool) {
	if r, ok := c.first(kind, func(r *Row) bool { return r.Default }); ok {
		return r, true
	}
	return c.first(kind, func(r *Row) bool { return !r.Own && r.Size.IsZero() })
}

// HandRoom returns the row of the room a hand needs for a tool or a part at pipe of a size:
// "spanner", "handle", "wheel", "saw" or "brush". A row of the user's own goes before the
// catalogue's.
func (c *Catalog) HandRoom(what string, size Size) (row Row, ok bool) {
	for _, i := range c.byKind["hand-room"] {
		if r := &c.rows[i]; r.Style == what && r.Size == size && (!ok || r.Own) {
			row, ok = *r, true
		}
	}
	return row, ok
}

// Springs returns the spring checks, the weakest spring first.
func (c *Catalog) Springs() []Row {
	var out []Row
	for _, i := range c.byKind["check-valve"] {
		if r := &c.rows[i]; r.CrackingPa > 0 {
			out = append(out, *r)
		}
	}
	slices.SortFunc(out, func(a, b Row) int {
		return cmp.Or(cmp.Compare(a.CrackingPa, b.CrackingPa), strings.Compare(a.Name, b.Name))
	})
	return out
}
