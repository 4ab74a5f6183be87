package rule

import (
	"strings"

	"dryfit/catalog"
	"dryfit/graph"
)

// row returns the catalogue row of a part as the flows are worked out with: the one it
// names, else that of its kind and style for its spec and size, else the kind's generic
// one; the zero Row where there is none.
func row(c *graph.Circuit, p *graph.Part) catalog.Row {
	if c.Catalog == nil {
		return catalog.Row{}
	}
	if p.Type != "" {
		if r, ok := c.Catalog.Row(p.Type); ok {
			return r
		}
	}
	kind := rowKind(c, p)
	if p.Kind == graph.HeatPump { // told apart by their power, not by their size
		r, _ := c.Catalog.Generic(kind)
		return r
	}
	spec, size := p.Spec, p.Size
	for _, r := range c.Runs {
		if r.From.Part == p.ID || r.To.Part == p.ID {
			if spec == "" {
				spec = r.Spec
			}
			if size.IsZero() {
				size = r.Size
			}
		}
	}
	if r, ok := c.Catalog.Fitting(kind, spec, size); ok && !size.IsZero() {
		return r
	}
	if r, ok := c.Catalog.Generic(kind); ok {
		return r
	}
	r, _ := c.Catalog.Generic(string(p.Kind))
	return r
}

// rowKind returns the kind of row a part without a type has: of a check that of its style,
// of a sand filter its own.
func rowKind(c *graph.Circuit, p *graph.Part) string {
	switch {
	case p.Kind == graph.CheckValve && isSwing(c, p):
		return "swing-check"
	case p.Kind == graph.CheckValve:
		return "spring-check"
	case p.Kind == graph.Filter && p.Filter != nil && p.Filter.Media == "sand":
		return "sand-filter"
	}
	return string(p.Kind)
}

// pipe returns the catalogue row of a run's pipe; the zero Row where there is none.
func pipe(c *graph.Circuit, r *graph.Run) catalog.Row {
	if c.Catalog == nil {
		return catalog.Row{}
	}
	p, _ := c.Catalog.Pipe(r.Spec, r.Size)
	return p
}

// opens reports whether a part can be opened by hand: a union, or a part with union ends.
func opens(c *graph.Circuit, p *graph.Part) bool {
	if p.Kind == graph.Union {
		return true
	}
	r := row(c, p)
	return strings.Contains(r.Ends, "union") || strings.Contains(r.Style, "true-union")
}

// isSwing reports whether a check valve is of the swing type.
func isSwing(c *graph.Circuit, p *graph.Part) bool {
	if p.Check != nil && p.Check.Style != "" {
		return p.Check.Style == "swing"
	}
	if p.Type == "" || c.Catalog == nil {
		return false
	}
	r, _ := c.Catalog.Row(p.Type)
	return strings.Contains(r.Style, "swing")
}

// crackingPa returns the cracking pressure of a check, Pa: the description's, else the
// catalogue row's, else of a spring that of the default spring; 0 for a swing check of which
// nothing is said.
func crackingPa(c *graph.Circuit, p *graph.Part) float64 {
	if p.Check != nil && p.Check.CrackingSet {
		return p.Check.CrackingPa
	}
	r := row(c, p)
	switch {
	case isSwing(c, p) && r.Style != "swing-check": // the row of a spring, for want of another
		return 0
	case r.CrackingPa == 0 && !isSwing(c, p) && c.Catalog != nil:
		r, _ = c.Catalog.Generic("spring-check")
	}
	return r.CrackingPa
}

// supportOf returns the distance between supports of a run, mm, and its source; false for
// hose, and where no table has it.
func supportOf(v *view, r *graph.Run) (mm float64, source string, ok bool) {
	return catalog.SupportSpacing(r.Spec, r.Size, waterC(v.c))
}
