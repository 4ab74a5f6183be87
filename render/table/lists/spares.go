package lists

import (
	"slices"
	"strings"

	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
)

// spareUse is what spares are for, and which kinds of items those are.
type spareUse struct {
	why string
	is  func(kind string) bool
}

// spareUses are in the order in which spares are wanted. Common practice, no source.
var spareUses = []spareUse{
	{"a cut through old pipe that goes wrong", func(k string) bool { return k == "coupling" || k == "slip-coupling" }},
	{"a joint of the new work that goes wrong", func(k string) bool { return strings.HasPrefix(k, "elbow") }},
	{"a piece that is cut wrong", func(k string) bool { return strings.HasPrefix(k, "pipe") }},
	{"a union that weeps", func(k string) bool { return k == "o-ring" }},
	{"cement that runs out", func(k string) bool { return strings.Contains(k, "cement") || k == "primer" }},
	{"the rest", func(string) bool { return true }},
}

// sparesBlock sorts the spares by what they are for; its Grid is nil where there are none.
func sparesBlock(items []takeoff.Item) form.Block {
	b := form.Block{Title: "Spares among them, by what they are for"}
	grid := form.NewGrid(form.Column{Head: "for"}, form.Column{Head: "spare", Right: true}, form.Column{Head: "item", Widest: 40}, form.Column{Head: "size"})
	left := slices.DeleteFunc(slices.Clone(items), func(i takeoff.Item) bool { return !i.New || i.Spare <= 0 })
	for _, use := range spareUses {
		why := use.why
		left = slices.DeleteFunc(left, func(i takeoff.Item) bool {
			if !use.is(i.Kind) {
				return false
			}
			grid.Add(why, form.Fixed(i.Spare, 0)+" "+i.Unit, shortName(i), i.Size)
			why = "" // said once
			return true
		})
	}
	if len(grid.Rows) > 0 {
		b.Grid = grid
	}
	return b
}
