package settle

import (
	"strings"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// The styles of a check valve.
const (
	Spring = "spring"
	Swing  = "swing"
)

// Their rows in the catalogue.
const (
	springRow = "spring-check"
	swingRow  = "swing-check"
)

// StraightBores is how much straight pipe a check wants before it, in bores of the pipe that
// leads into it. Source: valve makers' sheets; a wish.
const StraightBores = 10

// IsSwing reports whether the part is a check of the swing type.
func (p *Part) IsSwing() bool { return p.Style.V == Swing }

// CheckStyle says of which style a check is: as described, else as the row it names, else a
// spring; "" for other kinds.
func CheckStyle(cat *catalog.Catalog, p *graph.Part) Pick[string] {
	row, named := catalog.Row{}, false
	if p.Type != "" && cat != nil {
		row, named = cat.Row(p.Type)
	}
	switch {
	case p.Kind != graph.CheckValve:
		return Pick[string]{}
	case p.Check != nil && p.Check.Style != "":
		return Pick[string]{p.Check.Style, given(p.KeyPos["style"])}
	case named && strings.Contains(row.Style, Swing):
		return Pick[string]{Swing, ofRow(&row, p.KeyPos["type"], false)}
	case named && row.Style != "":
		return Pick[string]{Spring, ofRow(&row, p.KeyPos["type"], false)}
	}
	return Pick[string]{Spring, assumed("common practice, no source")}
}

// settleCracking finds the pressure at which a check opens: the description's, else its
// row's, else of a spring that of the default spring; a swing check of which nothing is said
// opens at once.
func (s *Stage) settleCracking(out *Part) Value {
	p, row := out.Part, &out.LossRow.V
	isSwingRow := strings.HasSuffix(row.Style, swingRow)
	switch {
	case p.Check != nil && p.Check.CrackingSet:
		v := number(p.Check.CrackingPa, quantity.Pressure, given(p.KeyPos["cracking"]))
		v.Spread = crackingSpread(out, false)
		return v
	case out.IsSwing() && !isSwingRow: // the row of a spring, for want of another
		return number(0, quantity.Pressure, assumed("a swing check opens at once"))
	case out.IsSwing() || row.CrackingPa > 0:
		v := number(row.CrackingPa, quantity.Pressure, saysSo(out.LossRow, "cracking"))
		v.Spread = crackingSpread(out, true)
		return v
	}
	generic, ok := s.cat.Generic(string(graph.CheckValve))
	if !ok {
		return Value{}
	}
	v := number(generic.CrackingPa, quantity.Pressure, ofRow(&generic, graph.Pos{}, true))
	v.Spread = crackingSpread(out, true)
	return v
}
