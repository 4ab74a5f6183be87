package pack

import (
	"cmp"
	"fmt"
	"math"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
	"dryfit/render/table"
)

// kWhPerM3K is the heat that warms 1 m³ of water by 1 K, kWh: 997 kg/m³ · 4.18 kJ/(kg·K) /
// 3600. Source: IAPWS, water at 25 °C, from memory.
const kWhPerM3K = 997 * 4.18 / 3600

// coldFill is the temperature of water from the main a heat-up is reckoned from, °C.
// Source: common practice, no source.
const coldFill = 12.0

// performanceBlocks prints what the job promises: by mode, then of the unit by its ratings.
func performanceBlocks(p *plan.Plan, units quantity.System) []table.Block {
	var out []table.Block
	sums := plan.Summarise(p)
	if len(sums) > 0 && p.After != nil {
		out = append(out, modesBlock(p, sums, units))
	}
	if p.After != nil && p.Heat == nil { // the chapter on heat has them beside this tub's own temperatures
		if u := p.After.Circuit.TheUnit(); u != nil && u.Unit != nil && len(u.Unit.Ratings) > 0 {
			out = append(out, ratingsBlock(p.After.Layout.Stage, u, units))
		}
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
func spreadOf(p *plan.Plan, spread *hydraulic.ModeRanges, mode string, part *graph.Part, units quantity.System) string {
	sol := plan.SolutionOf(p.After, mode)
	if spread == nil || sol == nil {
		return ""
	}
	for i, f := range sol.Parts {
		if f.Part == part && i < len(spread.Parts) {
			r := spread.Parts[i]
			if math.Abs(r.Low) < noFlow && math.Abs(r.High) < noFlow {
				return "none"
			}
			return quantity.Format(r.Low, quantity.Flow, units) + " to " + quantity.Format(r.High, quantity.Flow, units)
		}
	}
	return ""
}

// ratingsBlock is a line for each rating of the unit: what it gives, takes and lasts.
func ratingsBlock(set *settle.Stage, u *graph.Part, units quantity.System) table.Block {
	in := func(d quantity.Dimension, v float64) string { return quantity.Format(v, d, units) }
	g := &table.Grid{Header: []string{"air", "water", "heat", "electricity", "COP", "current", "to warm the tub"}}
	want := set.Water.TemperatureC.V
	energy := kWhPerM3K * set.Circuit.Water.VolumeM3 * (want - coldFill)
	for _, r := range u.Unit.Ratings {
		row := []string{in(quantity.Temperature, r.AirC), in(quantity.Temperature, r.WaterC), in(quantity.Power, r.OutputW), "-", "-", "-", "-"}
		if r.Input() > 0 {
			row[3], row[4] = in(quantity.Power, r.Input()), fmt.Sprintf("%.1f", r.OutputW/r.Input())
			if u.Unit.VoltageV > 0 {
				row[5] = in(quantity.Current, r.Input()/u.Unit.VoltageV)
			}
		}
		if energy > 0 && r.OutputW > 0 {
			row[6] = "at least " + in(quantity.Time, 3600*energy/(r.OutputW/1000))
			if r.Input() > 0 {
				row[6] += ", " + quantity.Energy.About(energy*r.Input()/r.OutputW).In(units)
			}
		}
		g.Rows = append(g.Rows, row)
	}
	lines := []string{fmt.Sprintf("The unit's own ratings (%s); nothing here is measured on this tub.", u.Known)}
	if energy > 0 {
		lines = append(lines, quantity.Say("To warm the tub: %s of heat take %s from %s to %s, cover on, no loss to the air counted; the current is at power factor 1 and without the start.",
			quantity.Energy.About(energy), quantity.Volume.Of(set.Circuit.Water.VolumeM3), about(coldFill), about(want)).In(units))
	}
	return table.Block{Title: "The unit", Grid: g, Lines: lines}
}
