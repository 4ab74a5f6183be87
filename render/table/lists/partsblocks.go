package lists

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"dryfit/catalog"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// PartsText prints the bill for a terminal: what to order, what is there, the totals.
func PartsText(p *plan.Plan, s form.Style) ([]byte, error) {
	return form.Text(append(PartsBlocks(p, s), EquivalentBlocks(p, nil, s)...), s), nil
}

// PartsBlocks lists the bill: what to order, what is there, what is taken out.
func PartsBlocks(p *plan.Plan, s form.Style) []form.Block {
	if p.Bill == nil {
		return nil
	}
	var out []form.Block
	for _, part := range []struct {
		title string
		of    func(takeoff.Item) bool
	}{
		{"To order (new work)", func(i takeoff.Item) bool { return i.New }},
		{"There already", func(i takeoff.Item) bool { return !i.New && !i.Removed }},
		{"Taken out", func(i takeoff.Item) bool { return !i.New && i.Removed }},
	} {
		var items []takeoff.Item
		for _, i := range p.Bill.Items {
			if part.of(i) {
				items = append(items, i)
			}
		}
		if len(items) > 0 {
			out = append(out, itemsBlock(part.title, items, s))
		}
	}
	if spares := sparesBlock(p.Bill.Items); spares.Grid != nil {
		out = append(out, spares)
	}
	if lines := unmeasured(p, s); lines != nil {
		out = append(out, form.Block{Lines: lines})
	}
	return out
}

// itemsBlock lists items, an own column for what the merchant asks: ends, size, and the
// family of pipe where the items are not all of one.
func itemsBlock(title string, items []takeoff.Item, s form.Style) form.Block {
	specs := specsOf(items)
	prices := slices.ContainsFunc(items, func(i takeoff.Item) bool { return i.Price != "" })
	codes := slices.ContainsFunc(items, func(i takeoff.Item) bool { return i.Code != "" })
	itemWidth, whereWidth := 32, 28
	if prices {
		itemWidth, whereWidth = 28, 20
	}
	if len(specs) == 1 {
		title += ", " + specs[0]
	}
	columns := []form.Column{{Head: "qty", Right: true}, {Head: "spare", Right: true}, {Head: "item", Widest: itemWidth}, {Head: "ends"}, {Head: "size"}}
	if len(specs) > 1 {
		columns = append(columns, form.Column{Head: "pipe"})
	}
	if !s.Whole {
		columns = append(columns, form.Column{Head: "eq. length", Right: true})
	}
	columns = append(columns, form.Column{Head: "where", Widest: whereWidth})
	if prices {
		columns = append(columns, form.Column{Head: "price each", Right: true})
	}
	if codes {
		columns = append(columns, form.Column{Head: "code"})
	}
	b := form.Block{Title: title, Grid: form.NewGrid(columns...)}
	measure, own := false, false
	for _, i := range items {
		row := append(itemRow(i, s), placesText(s, i.Where, whereWidth))
		if len(specs) > 1 {
			row = slices.Insert(row, 5, string(i.Spec))
		}
		if prices {
			row = append(row, i.Price)
		}
		if codes {
			row = append(row, i.Code)
		}
		b.Grid.Add(row...)
		measure, own = measure || i.Measure, own || i.Own
	}
	if measure {
		b.Lines = append(b.Lines, "* measure the part first: a cut length hangs on its size, and no standard gives that")
	}
	for _, i := range items {
		for _, set := range i.Set {
			if !s.Whole {
				b.Lines = append(b.Lines, fmt.Sprintf("the length of a hand valve is that of it open; %s, counts for %s", setWords(set, s.Units), setLength(s, set.EquivalentLengthM)))
			}
		}
	}
	if slices.ContainsFunc(items, func(i takeoff.Item) bool { return i.Spec == catalog.RibbedHose && i.Kind == "pipe" && !i.Removed }) {
		b.Lines = append(b.Lines, catalog.RibbedHose.Pipe()+" is reckoned as ribbed inside too, which costs two to three times what a smooth wall does: feel inside; one that is smooth there is spec = \"hose\"")
	}
	if own {
		b.Lines = append(b.Lines, "+ by a catalogue row of your own")
	}
	return b
}

// specsOf lists the families of pipe the items name, each once, in their order.
func specsOf(items []takeoff.Item) []string {
	var out []string
	for _, i := range items {
		if i.Spec != "" && !slices.Contains(out, string(i.Spec)) {
			out = append(out, string(i.Spec))
		}
	}
	return out
}

func itemRow(i takeoff.Item, s form.Style) []string {
	quantity := form.Fixed(i.Quantity, 0)
	if i.Quantity != form.Round(i.Quantity, 0) {
		quantity = form.Fixed(i.Quantity, 2)
	}
	spare, length := "", ""
	if i.Spare > 0 {
		spare = "+" + form.Fixed(i.Spare, 0)
	}
	if i.EquivalentLengthM > 0 && noEquivalent(i.EquivalentLengthM) == "" {
		length = s.PipeLength(i.EquivalentLengthM)
	}
	name := shortName(i)
	if i.Measure {
		name += " *"
	}
	if i.Own {
		name += " +"
	}
	amount := quantity + " " + i.Unit
	switch {
	case i.Quantity == 0:
		amount = "-" // a spare alone
	case i.Unit == "m":
		amount = s.PipeLength(i.Quantity)
	}
	row := []string{amount, spare, name, shortEnds(i.Ends), i.Size}
	if !s.Whole { // what the merchant is asked for has no equivalent length
		row = append(row, length)
	}
	return row
}

// setLength is what a set valve counts for, in words where no length does.
func setLength(s form.Style, m float64) string {
	if why := noEquivalent(m); why != "" {
		return "no length: " + why
	}
	return s.PipeLength(m)
}

// shortName is an item's name without what stands in columns of its own.
func shortName(i takeoff.Item) string {
	own := append(strings.Split(i.Ends, ", "), i.Size, "ports "+i.Size, string(i.Spec))
	words := strings.Split(i.Name, ", ")
	kept := words[:1:1]
	for _, w := range words[1:] {
		if !slices.Contains(own, w) {
			kept = append(kept, w)
		}
	}
	return strings.Join(kept, ", ")
}

// shortEnds is what the ends are, without the series: the size says whether they are inch
// or metric, unless they are both.
func shortEnds(ends string) string {
	switch ends {
	case "inch", "metric":
		return ""
	}
	return strings.TrimSuffix(strings.TrimSuffix(ends, ", inch"), ", metric")
}

// countWidth is how many characters ", +9 more" has.
const countWidth = 9

// placesText names as many places as fit a width and counts the rest; all of them on a page.
func placesText(s form.Style, places []takeoff.Place, width int) string {
	text, where := "", takeoff.Apart(places)
	if s.Whole {
		where = takeoff.Counted(places)
	}
	for i, w := range where {
		if !s.Whole && i > 0 && utf8.RuneCountInString(text+w) > width-countWidth {
			return fmt.Sprintf("%s, +%d more", text, len(where)-i)
		}
		if i > 0 {
			text += ", "
		}
		text += w
	}
	return text
}

// EquivalentBlocks lists the equivalent lengths, by the handbook and at the flow of every
// mode that was solved, and says by which method. Columns call a mode by its words among names; nil:
// as the file does.
func EquivalentBlocks(p *plan.Plan, names *tag.Names, s form.Style) []form.Block {
	if p.Bill == nil {
		return nil
	}
	grid := equivalentGrid(p, names, s)
	lines := noLengths(grid)
	if all := p.Bill.TotalEquivalentLengthM; noEquivalent(all) == "" {
		lines = append(lines, "all together "+s.PipeLength(all))
	}
	return []form.Block{{Title: "Equivalent length", Grid: grid, Lines: append(lines, p.Bill.Method)}}
}
