package pack

import (
	"slices"
	"strings"

	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// oneOfSeveral puts the name of the unit the job is about for "the unit", where there are
// several: what is promised is promised of that one.
func oneOfSeveral(p *plan.Plan, blocks []form.Block) []form.Block {
	if p.After == nil || len(p.After.Circuit.Units()) < 2 {
		return blocks
	}
	name := tag.Of(p.Circuit, p.Net()).Tag(p.After.Circuit.TheUnit().ID)
	say := strings.NewReplacer("the unit gets", name+" gets", "the unit's flow", name+"'s flow").Replace
	out := slices.Clone(blocks)
	for i, b := range out {
		lines := slices.Clone(b.Lines)
		for k := range lines {
			lines[k] = say(lines[k])
		}
		out[i].Lines = lines
		if b.Grid == nil {
			continue
		}
		g := *b.Grid
		g.Rows = make([][]string, len(b.Grid.Rows))
		for r, row := range b.Grid.Rows {
			g.Rows[r] = slices.Clone(row)
			for k := range row {
				g.Rows[r][k] = say(row[k])
			}
		}
		out[i].Grid = &g
	}
	return out
}
