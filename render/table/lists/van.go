package lists

import (
	"slices"

	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
)

// Van is what a job takes along, in the order in which a van is loaded.
type Van struct {
	Parts, UsedUp form.Block // the second: cement and what else goes with every joint
	Rest          []form.Block
}

// LoadVan lists what is to be bought by what lies together, what of it is spare, what comes out of the
// cabinet, and what could not be counted; pipe by the bar, for the length the pieces take is in the
// cut list.
func LoadVan(p *plan.Plan, s form.Style) Van {
	if p.Bill == nil {
		return Van{}
	}
	var v Van
	list := func(title string, of []takeoff.Item) form.Block {
		for i := range of {
			of[i].Price, of[i].Code = "", "" // the order has them: parts.xlsx
		}
		return itemsBlock(title, of, s)
	}
	var parts []takeoff.Item
	var loads []string
	for _, group := range takeoff.VanGroups() {
		var of []takeoff.Item
		for _, i := range p.Bill.Items {
			if i.New && !i.Removed && i.Group() == group && !(i.Net() && hasBars(p.Bill, i)) {
				of = append(of, i)
			}
		}
		if group == takeoff.UsedUp && len(of) > 0 {
			v.UsedUp = list("", of)
			v.UsedUp.Grid.Header[slices.Index(v.UsedUp.Grid.Header, "where")] = "for" // joints and sockets, no places
			continue
		}
		for k := range of {
			load := ""
			if k == 0 {
				load = group
			}
			loads = append(loads, load)
		}
		parts = append(parts, of...)
	}
	if len(parts) > 0 {
		v.Parts = list("Parts", parts)
		v.Parts.Grid = headed("load", loads, v.Parts.Grid)
	}
	for _, b := range []form.Block{sparesBlock(p.Bill.Items), takenOut(p, s), {Lines: unmeasured(p, s)}} {
		if b.Grid != nil || len(b.Lines) > 0 {
			v.Rest = append(v.Rest, b)
		}
	}
	return v
}

// hasBars reports whether the bars an item is cut from stand on a line of their own.
func hasBars(b *takeoff.Bill, i takeoff.Item) bool {
	return slices.ContainsFunc(b.Items, func(o takeoff.Item) bool {
		return o.New && !o.Net() && o.Group() == i.Group() && o.Spec == i.Spec && o.Size == i.Size
	})
}

// takenOut lists what comes out of the cabinet and goes back in the van.
func takenOut(p *plan.Plan, s form.Style) form.Block {
	out := slices.DeleteFunc(slices.Clone(p.Bill.Items), func(i takeoff.Item) bool { return i.New || !i.Removed })
	if len(out) == 0 {
		return form.Block{}
	}
	return itemsBlock("Taken out, to go back in the van", out, s)
}

// StandsThere lists what is there already and stays.
func StandsThere(p *plan.Plan, s form.Style) []form.Block {
	if p.Bill == nil {
		return nil
	}
	stays := slices.DeleteFunc(slices.Clone(p.Bill.Items), func(i takeoff.Item) bool { return i.New || i.Removed })
	if len(stays) == 0 {
		return nil
	}
	return []form.Block{itemsBlock("There already", stays, s)}
}

// headed is a grid with a column before its first.
func headed(head string, cells []string, g *form.Grid) *form.Grid {
	out := *g
	out.Header = append([]string{head}, g.Header...)
	out.Right = append([]bool{false}, g.Right...)
	out.Widest = append([]int{0}, g.Widest...)
	out.Rows = make([][]string, len(g.Rows))
	for i, r := range g.Rows {
		out.Rows[i] = append([]string{cells[i]}, r...)
	}
	return &out
}
