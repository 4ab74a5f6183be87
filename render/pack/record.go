package pack

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/render/drawing"
	"dryfit/render/tag"
)

// reading is one line of the commissioning sheet: what this pack expects, and a blank.
type reading struct{ What, Expected string }

// dirty reports whether a mode is that of a filter that is due.
func dirty(c *graph.Circuit, mode string) bool {
	return slices.ContainsFunc(c.AllModes(), func(m graph.Mode) bool { return m.Name == mode && m.Dirty })
}

// record lists the blanks of the commissioning sheet. Common practice, no source.
func record(p *plan.Plan, j jobIn) []reading {
	out := []reading{{"Date", ""}, {"Fitter", ""}, {"Filter clean (yes/no)", "yes"}, {"Temperature of the air", ""}}
	if p.After == nil {
		return out
	}
	c := p.After.Circuit
	unit, names := c.TheUnit(), tag.Of(p.Circuit, p.Net())
	for _, m := range plan.Summarise(p) {
		if dirty(c, m.Mode) {
			continue // the record is taken on a clean filter
		}
		if m.HasUnit {
			rise := j.say(m.RiseWords())
			if m.RiseK > 0 {
				rise += " at full output"
			}
			out = append(out, reading{m.Mode + ": water in / out of the unit", ""},
				reading{m.Mode + ": rise (one thermometer, moved from pipe to pipe)", rise},
				reading{m.Mode + ": the unit's flow (meter, or from the rise)", quantity.Format(m.Unit, quantity.Flow, j.units)})
		}
		if m.HasJets && m.Jets > 0 {
			change := ""
			if m.HasToday {
				change = fmt.Sprintf("%+.0f %% of flow", 100*m.JetsChange())
			}
			out = append(out, reading{m.Mode + ": jets feel, before / after", change})
		}
	}
	seen := map[string]bool{} // two units may share a bypass
	for _, b := range unitBranches(c, p.After.Layout.Stage.Net()) {
		e := b.Element()
		if e != nil && seen[e.ID] {
			continue
		}
		if e != nil {
			seen[e.ID] = true
		}
		switch {
		case e == nil:
		case e.Kind == graph.CheckValve:
			label := ""
			if pa := p.After.Layout.Stage.Part(e.ID).Cracking.V; pa > 0 {
				label = quantity.Format(pa, quantity.Pressure, j.units)
			}
			out = append(out, reading{names.Tag(e.ID) + ": cracking pressure on its label", label}, reading{names.Tag(e.ID) + ": arrow with the flow", "yes"})
		default:
			out = append(out, reading{names.Tag(e.ID) + ": set", drawing.AimWords(p, e, j.units)}, reading{names.Tag(e.ID) + ": where its handle stands then, marked", ""})
		}
	}
	if unit != nil {
		current := ""
		if full := p.After.Layout.Stage.Part(unit.ID).FullLoad; full.Known {
			current = "at most " + quantity.Current.Of(full.V).String()
		}
		supply := ""
		if u := unit.Unit; u != nil && u.VoltageV > 0 {
			supply = quantity.Voltage.Of(u.VoltageV).String()
		}
		out = append(out, reading{"Current", current}, reading{"Supply voltage", supply},
			reading{"Flow switch tried by shutting the isolator to the unit slowly: stops within", "s"},
			reading{"Condensate runs away", "yes"})
	}
	for _, e := range j.Elements {
		expected := "settle it"
		if e.Disconnected {
			expected = "disconnected"
		} else if e.Interlock != "" {
			expected = "interlock tried: " + e.Interlock
		}
		out = append(out, reading{e.ID + ": seen to by (name, licence)", expected})
	}
	if unit != nil {
		out = append(out, reading{"Set points: unit / controller or element", ""},
			reading{"Controller: mode, circulation hours, time-outs as set", ""},
			reading{"Water too hot: unit stopped by (high limit, own cut-out), proved", ""},
			reading{"Residual current device: type (A, F or B), tested", ""}, reading{"Earthing and bonding proved by", ""})
	}
	return append(out, reading{"Free chlorine / pH before bathing", "3 to 5 mg/l / 7.0 to 7.6"}, reading{"Controller messages", "none"},
		reading{"Seen again after a week", ""}, reading{"Seen again after the first refill", ""},
		reading{"Fitter's signature", ""}, reading{"Electrician's signature", ""}, reading{"Owner's signature", ""})
}
