package pack

import (
	"cmp"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/render/table"
)

// performanceBlocks prints what the job promises: by mode.
func performanceBlocks(p *plan.Plan, units quantity.System) []table.Block {
	var out []table.Block
	sums := plan.Summarise(p)
	if len(sums) > 0 && p.After != nil {
		out = append(out, modesBlock(p, sums, units))
	}
	return out
}

// modesBlock is a line a mode.
func modesBlock(p *plan.Plan, sums []plan.ModeSummary, units quantity.System) table.Block {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, units) }
	unit, groups := p.After.Circuit.TheUnit(), p.After.Circuit.OfKind(graph.JetGroup)
	g := &table.Grid{Header: []string{"mode"}}
	if unit != nil {
		g.Header = append(g.Header, "unit gets", "range", "rise", "past the unit")
	}
	if len(groups) > 0 {
		g.Header = append(g.Header, "jets today", "jets after", "range")
	}
	for _, m := range sums {
		row := []string{m.Mode}
		spread := p.Ranges.Of(m.Mode, graph.After)
		if unit != nil {
			rise := cmp.Or(m.RiseWords().In(units), "-")
			row = append(row, flow(m.Unit), spreadOf(p, spread, m.Mode, unit, units), rise, flow(m.Bypass))
		}
		if len(groups) > 0 {
			today, span := "-", ""
			if m.HasToday {
				today = flow(m.JetsToday)
			}
			if len(groups) == 1 {
				span = spreadOf(p, spread, m.Mode, groups[0], units)
			}
			row = append(row, today, flow(m.Jets), span)
		}
		g.Rows = append(g.Rows, row)
	}
	return table.Block{Grid: g, Lines: []string{"Ranges: nine in ten of the samples of what is not known exactly. The rise is at the greatest of the unit's ratings; a colder day gives less."}}
}

// noFlow is the flow that prints as nothing, m³/s.
const noFlow = 0.005 / 3600

// spreadOf prints the range of the flow through a part.
func spreadOf(p *plan.Plan, ranges *spread.ModeRanges, mode string, part *graph.Part, units quantity.System) string {
	sol := plan.SolutionOf(p.After, mode)
	if ranges == nil || sol == nil {
		return ""
	}
	for i, f := range sol.Parts {
		if f.Part == part && i < len(ranges.Parts) {
			r := ranges.Parts[i]
			if math.Abs(r.Low) < noFlow && math.Abs(r.High) < noFlow {
				return "none"
			}
			return quantity.Format(r.Low, quantity.Flow, units) + " to " + quantity.Format(r.High, quantity.Flow, units)
		}
	}
	return ""
}
