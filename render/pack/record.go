package pack

import (
	"fmt"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/settle"
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
	out := []reading{{"Date", ""}, {"Fitter", ""}, {filterDone(j), "yes"}, {"Temperature of the air", ""}}
	if p.After == nil {
		return out
	}
	c := p.After.Circuit
	names := tag.Of(p.Circuit, p.Net())
	out = append(out, modeReadings(p, j, names)...)
	out = append(out, bypassReadings(p, j, names)...)
	out = append(out, unitReadings(p, names)...)
	out = append(out, elementReadings(j)...)
	hot := "Water too hot: unit stopped by (high limit, own cut-out), proved"
	if j.Cold {
		hot = "Water too cold, or no flow: unit stopped by (its frost cut-out, its flow switch), proved"
	}
	if c.TheUnit() != nil {
		device, _ := j.FaultProtection()
		out = append(out, reading{"Set points: unit / controller or element", ""},
			reading{"Controller: mode, circulation hours, time-outs as set", ""},
			reading{hot, ""},
			reading{device + ": type, tested", ""}, reading{"Earthing and bonding proved by", ""})
	}
	return append(out, reading{"Free chlorine / pH before bathing", "3 to 5 mg/l / 7.0 to 7.6"}, reading{"Controller messages", "none"},
		reading{"Seen again after a week", ""}, reading{"Seen again after the first refill", ""},
		reading{"Fitter's signature", ""}, reading{"Electrician's signature", ""}, reading{"Owner's signature", ""})
}

// modeReadings are what is read in every mode, on a clean filter.
func modeReadings(p *plan.Plan, j jobIn, names *tag.Names) (out []reading) {
	for _, m := range plan.Summarise(p) {
		if dirty(p.After.Circuit, m.Mode) {
			continue // the record is taken on a clean filter
		}
		mode := quantity.Capital(names.Mode(m.Mode))
		for _, u := range m.Units() {
			who, whose, across := "the unit", "the unit's flow", ""
			if len(m.Beside) > 0 {
				who = names.Tag(u.ID)
				whose, across = who+"'s flow", " across "+who
			}
			if hydraulic.Passing(u.Flow) == 0 { // what is read of moving water says nothing of it
				out = append(out, reading{mode + ": " + who, "stands, and does not run"})
				continue
			}
			rise := j.say(u.RiseWords())
			switch airs := drawing.RiseWords(p.Rises(u.ID, m.Mode), j.units); {
			case airs != "":
				rise = airs + ", at full output"
			case u.RiseK > 0:
				rise += " at full output; less in colder air"
			}
			change, from := ": rise", ", or from the rise"
			if j.Cold {
				change, from = ": fall", ""
			}
			out = append(out, reading{mode + ": water in / out of " + who, ""},
				reading{mode + change + across + " (one thermometer, moved from pipe to pipe)", rise},
				reading{mode + ": " + whose + " (meter" + from + ")", quantity.Format(u.Flow, quantity.Flow, j.units)})
		}
		if m.HasJets && m.Jets > 0 {
			what, change := ": jets feel, before / after", ""
			switch {
			case m.HasToday && !p.AsItStands(): // else nobody knows yet what the work does to them
				change = jetsFeel(m.JetsChange())
			case p.Circuit.TheUnit() == nil:
				what = ": jets feel"
			}
			out = append(out, reading{mode + what, change})
		}
	}
	return out
}

// jetsFeel is the change of the jets' flow, a share of today's, in a cell.
func jetsFeel(change float64) string {
	if math.Abs(change) < 0.005 {
		return "as before"
	}
	return fmt.Sprintf("%+.0f %% of flow", 100*change)
}

// bypassReadings are what is read of what stands in the bypass of each unit.
func bypassReadings(p *plan.Plan, j jobIn, names *tag.Names) (out []reading) {
	seen := map[string]bool{} // two units may share a bypass
	for _, b := range p.After.Layout.Stage.Branches() {
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
	return out
}

// unitReadings are what is read and tried at each unit.
func unitReadings(p *plan.Plan, names *tag.Names) (out []reading) {
	units := p.After.Circuit.Units()
	for _, u := range units {
		whose, to := "", "the unit"
		if len(units) > 1 {
			whose, to = " of "+names.Tag(u.ID), names.Tag(u.ID)
		}
		current, supply := "", ""
		set := p.After.Layout.Stage.Part(u.ID)
		if set.FullLoad.Known {
			current = "at most " + quantity.Current.Of(set.FullLoad.V).String()
		}
		if set.Voltage.How == settle.Given {
			supply = quantity.Voltage.Of(set.Voltage.V).String()
		}
		out = append(out, reading{"Current" + whose, current}, reading{"Supply voltage" + whose, supply},
			reading{"Flow switch" + whose + " tried by shutting the isolator to " + to + " slowly: stops within how many seconds", ""},
			reading{"Condensate" + whose + " runs away", "yes"})
	}
	return out
}

// elementReadings say who saw to each element heater, and how.
func elementReadings(j jobIn) (out []reading) {
	for _, e := range j.Elements {
		expected := "settle it"
		if e.Disconnected {
			expected = "disconnected"
		} else if e.Interlock != "" {
			expected = "tried: " + keptApart(e.Interlock)
		}
		out = append(out, reading{e.ID + ": seen to by (name, licence)", expected})
		if e.Interlock == graph.InterlockChangeover && !e.Disconnected && j.Unit != nil {
			least := "not below the unit's least air"
			if j.Unit.LeastAir.Known {
				least = "not below " + quantity.Format(j.Unit.LeastAir.C, quantity.Temperature, j.units)
			}
			out = append(out, reading{e.ID + ": changed over to in air of", least})
		}
	}
	return out
}

// filterDone asks whether the filter was seen to, by its kind.
func filterDone(j jobIn) string {
	if j.Filter == "sand" {
		return "Filter backwashed and rinsed (yes/no)"
	}
	return "Filter clean (yes/no)"
}
