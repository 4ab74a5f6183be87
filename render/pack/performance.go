package pack

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// performanceBlocks prints what the job promises: by mode.
func performanceBlocks(p *plan.Plan, units quantity.System) []form.Block {
	var out []form.Block
	sums := plan.Summarise(p)
	if len(sums) > 0 && p.After != nil && (p.After.Circuit.TheUnit() != nil || len(p.After.Circuit.OfKind(graph.JetGroup)) > 0) {
		if b := modesBlock(p, sums, units); b.Grid != nil {
			out = append(out, b)
		}
	}
	return out
}

// modesBlock is a line a mode; without a grid where there is neither a unit with a place nor jets.
func modesBlock(p *plan.Plan, sums []plan.ModeSummary, units quantity.System) form.Block {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, units) }
	unit, groups := p.After.Circuit.TheUnit(), p.After.Circuit.OfKind(graph.JetGroup)
	if unit != nil && p.Proposal == nil && !slices.ContainsFunc(sums, func(m plan.ModeSummary) bool { return math.Abs(m.Unit) >= unprinted }) { // it found no place
		unit = nil
	}
	if unit == nil && len(groups) == 0 {
		return form.Block{}
	}
	stands := unit == nil && p.AsItStands() // nothing comes of the work
	g := modesGrid(unit != nil, len(groups), stands)
	names, byReading := tag.Of(p.Circuit, p.Net()), false
	for _, m := range sums {
		spread := p.Ranges.Of(m.Mode, graph.After)
		var jets []string
		if len(groups) > 0 {
			today, span := "-", ""
			if m.HasToday {
				today = flow(m.JetsToday)
			}
			if len(groups) == 1 {
				_, span = spreadOf(p, spread, m.Mode, groups[0], units)
			}
			jets = []string{today, flow(m.Jets), span}
			if stands {
				jets = jets[1:]
			}
		}
		if unit == nil {
			g.Rows = append(g.Rows, append([]string{quantity.Capital(names.Mode(m.Mode))}, jets...))
			continue
		}
		all := m.Units()
		if len(all) == 0 {
			all = []plan.UnitSummary{{ID: unit.ID}}
		}
		for _, u := range all {
			mode := quantity.Capital(names.Mode(m.Mode))
			if len(all) > 1 || u.ID != unit.ID {
				mode += ", " + names.Tag(u.ID)
			}
			middle, span := spreadOf(p, spread, m.Mode, p.After.Circuit.Part(u.ID), units)
			if p.Ranges != nil {
				if set := p.Ranges.SetIn(m.Mode, u.ID); set != nil { // as the first page has it
					middle, span, byReading = flow(set.Unit.Middle), set.Unit.Words(flow), true
				}
			}
			past := flow(u.Bypass)
			switch {
			case u.Shares != "":
				past = "as " + names.Tag(u.Shares)
			case u.Past == "": // bare pipe, or none
				past = "-"
			}
			row := []string{mode, flow(u.Flow), middle, span, cmp.Or(u.RiseWords().In(units), "-"), past}
			g.Rows = append(g.Rows, append(row, jets...))
			jets = make([]string, len(jets)) // said once of a mode
		}
	}
	if len(groups) > 1 { // their ranges stand by the group, in the numbers behind it
		g.DropLast()
	}
	return form.Block{Grid: g, Lines: modeLines(p, sums, names, unit != nil, len(groups), byReading)}
}

// modesGrid is the head of the modes: of a unit with its place, and of groups of jets, which stand as they are where
// nothing comes of the work.
func modesGrid(unit bool, groups int, stands bool) *form.Grid {
	g := &form.Grid{Header: []string{"mode"}}
	if unit {
		g.Header = append(g.Header, "unit gets", "middle", "range", "rise", "past the unit")
	}
	switch {
	case groups == 0:
	case stands:
		g.Header = append(g.Header, "jets, as it stands", "range")
	default:
		g.Header = append(g.Header, "jets today", "jets after", "range")
	}
	return g
}

// modeLines says what the columns of the modes hold, and which modes run past a pump's curve.
func modeLines(p *plan.Plan, sums []plan.ModeSummary, names *tag.Names, unit bool, groups int, byReading bool) []string {
	who := "What the unit gets is"
	switch {
	case !unit:
		who = "What the jets get is"
	case groups > 0:
		who = "What the unit and the jets get is"
	}
	of := "the unit"
	if byReading && p.Ranges.Unit != "" {
		of = names.Tag(p.Ranges.Unit)
	}
	samples := "; middle and range are of the samples of what is not known exactly: half lie below the middle, nine in ten in the range."
	switch {
	case unit:
	case groups == 1:
		samples = "; the range is of the samples of what is not known exactly: nine in ten lie in it."
	default:
		samples = "."
	}
	lines := []string{who + " the case " + p.AsSaid() + samples +
		ifSo(byReading, " Those of "+of+" are once the bypass is set by its reading.") + ifSo(unit && !p.After.Layout.Stage.KeptCold(), " The rise is at the greatest of the unit's ratings; a colder day gives less.")}
	for _, m := range sums {
		if past := p.Ranges.Of(m.Mode, graph.After).PastWords(); past != "" {
			lines = append(lines, quantity.Capital(names.Mode(m.Mode))+": "+past+".")
		}
	}
	return lines
}

// unprinted is the flow below which nothing of it is printed, m³/s.
const unprinted = 0.005 / 3600

// spreadOf prints the middle and the range of the flow through a part.
func spreadOf(p *plan.Plan, ranges *spread.ModeRanges, mode string, part *graph.Part, units quantity.System) (middle, span string) {
	sol := p.After.Solution(mode)
	if ranges == nil || sol == nil {
		return "", ""
	}
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, units) }
	for i, f := range sol.Parts {
		if f.Part == part && i < len(ranges.Parts) {
			r := ranges.Parts[i]
			if math.Abs(r.Low) < unprinted && math.Abs(r.High) < unprinted {
				return "none", "none"
			}
			return flow(r.Middle), r.Words(flow)
		}
	}
	return "", ""
}
