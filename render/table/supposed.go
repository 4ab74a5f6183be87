package table

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// SupposedLines say what the unit would get if the work fitted into a run that nobody measured leg by
// leg, and how sure that is; none where a place is known, or none helps.
// Modes are called by their words among names; nil: as the file does.
func SupposedLines(p *plan.Plan, names *tag.Names, s form.Style) []string {
	if p.Supposed == nil {
		return nil
	}
	out := []string{s.Say(graph.Say("Whether the work fits only the legs of %q tell: it needs %s straight. If it does, the unit standing beside it:", p.Supposed.Place.Run, quantity.Length.Of(p.Supposed.Place.NeededMM)))}
	for _, m := range plan.Summarise(p.Supposed.Plan) {
		line := m.Mode + ":"
		if names != nil {
			line = quantity.Capital(names.Mode(m.Mode)) + ":"
		}
		for i, u := range m.Units() {
			if i > 0 {
				line += ";"
			}
			line += " " + unitWords(s, u, len(m.Beside) > 0) + flowSpread(s, p.Supposed.Plan, m.Mode, u.ID)
		}
		if m.HasJets {
			line += "; " + jetsWords(m, s) + jetsSpread(p.Supposed.Ranges.Of(m.Mode, graph.After))
		}
		out = append(out, line)
	}
	out = append(out, FartherLines(p.Supposed.Plan, s, "")...)
	for _, d := range p.Supposed.Against() {
		out = append(out, "nor would it do there: "+s.Say(d.Message))
	}
	return out
}

// supposedFirst says what of that to measure first, where it is not what comes first of the circuit as
// it stands.
func supposedFirst(p *plan.Plan, s form.Style) []string {
	if p.Supposed == nil || p.Supposed.Ranges == nil || len(p.Supposed.Ranges.MeasureFirst) == 0 {
		return nil
	}
	f := &p.Supposed.Ranges.MeasureFirst[0]
	if p.Ranges != nil && len(p.Ranges.MeasureFirst) > 0 && p.Ranges.MeasureFirst[0].What == f.What {
		return nil
	}
	line := fmt.Sprintf("measure this first: %s: it moves %s by ±%s %%", f.Said(), f.Moves.Of(f.OneOf()), form.Fixed(f.Effect*100, 0))
	if f.Reading != "" {
		line += "; by " + s.Say(f.Reading)
	}
	return []string{line}
}

// flowRangeOf is the range of a part's flow in a mode, after the work where there is any; nil where none was
// made, or nothing moves it.
func flowRangeOf(p *plan.Plan, mode, part string) *spread.Range {
	sol := p.After.Solution(mode)
	if sol == nil {
		sol = p.Before.Solution(mode)
	}
	if sol == nil {
		return nil
	}
	r := p.Ranges.Of(mode, sol.Stage)
	i := slices.IndexFunc(sol.Parts, func(f hydraulic.PartFlow) bool { return f.Part.ID == part })
	if r == nil || i < 0 || i >= len(r.Parts) || r.Parts[i].High <= r.Parts[i].Low {
		return nil
	}
	return &r.Parts[i]
}

type supposedJSON struct {
	Run     string             `json:"run"`
	NeedsMM float64            `json:"needs_straight_mm"`
	Modes   []supposedModeJSON `json:"modes"`
	Text    []string           `json:"text"`
}

type supposedModeJSON struct {
	Mode  string     `json:"mode"`
	Unit  float64    `json:"unit_flow_m3_h"`
	Range *rangeJSON `json:"unit_flow_m3_h_range,omitempty"`
}

// supposedOf is SupposedLines for a machine; nil where there are none.
func supposedOf(p *plan.Plan, s form.Style) *supposedJSON {
	if p.Supposed == nil {
		return nil
	}
	out := &supposedJSON{Run: p.Supposed.Place.Run, NeedsMM: form.Round(p.Supposed.Place.NeededMM, 1), Text: append(SupposedLines(p, nil, s), supposedFirst(p, s)...)}
	for _, m := range plan.Summarise(p.Supposed.Plan) {
		one := supposedModeJSON{Mode: m.Mode, Unit: form.M3h(m.Unit)}
		if r := flowRangeOf(p.Supposed.Plan, m.Mode, m.UnitID); r != nil {
			one.Range = flowRange(*r)
		}
		out.Modes = append(out.Modes, one)
	}
	return out
}
