package pack

import (
	"fmt"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
)

// reading is one line of the commissioning sheet: what this pack expects, and a blank.
type reading struct{ What, Expected string }

// record lists the blanks of the commissioning sheet. Common practice, no source.
func record(p *plan.Plan, units quantity.System) []reading {
	out := []reading{{"Date", ""}, {"Fitter", ""}, {"Filter clean (yes/no)", "yes"}, {"Temperature of the air", ""}}
	if p.After == nil {
		return out
	}
	c := p.After.Circuit
	unit := c.TheUnit()
	for _, m := range plan.Summarise(p) {
		if m.HasUnit {
			rise := ""
			if m.RiseK > 0 {
				rise = fmt.Sprintf("%.1f K at full output", m.RiseK)
			}
			out = append(out, reading{m.Mode + ": water in / out of the unit", ""},
				reading{m.Mode + ": rise (one thermometer, moved)", rise},
				reading{m.Mode + ": the unit's flow (meter, or from the rise)", quantity.Format(m.Unit, quantity.Flow, units)})
		}
		if m.HasJets && m.Jets > 0 {
			change := ""
			if m.HasToday {
				change = fmt.Sprintf("%+.0f %% of flow", 100*m.JetsChange())
			}
			out = append(out, reading{m.Mode + ": jets feel, before / after", change})
		}
	}
	for _, b := range unitBranches(c) {
		e := b.Element()
		switch {
		case e == nil:
		case e.Kind == graph.CheckValve:
			label := ""
			if pa := crackingOf(p, e); pa > 0 {
				label = quantity.Format(pa, quantity.Pressure, units)
			}
			out = append(out, reading{e.ID + ": cracking pressure on its label", label}, reading{e.ID + ": arrow with the flow", "yes"})
		default:
			out = append(out, reading{e.ID + ": angle or turns, handle marked", ""})
		}
	}
	if unit != nil {
		current := ""
		if u := unit.Unit; u != nil && u.FullLoadA > 0 {
			current = fmt.Sprintf("at most %.1f A", u.FullLoadA)
		}
		supply := ""
		if u := unit.Unit; u != nil && u.VoltageV > 0 {
			supply = fmt.Sprintf("%.0f V", u.VoltageV)
		}
		out = append(out, reading{"Current", current}, reading{"Supply voltage", supply},
			reading{"Flow switch tried by shutting the isolator to the unit slowly: stops within", "s"},
			reading{"Condensate runs away", "yes"})
	}
	for _, e := range c.OfKind(graph.ElementHeater) {
		expected := "settle it"
		if e.Element != nil && e.Element.Disconnected {
			expected = "disconnected"
		} else if e.Element != nil && e.Element.Interlock != "" {
			expected = "interlock tried"
		}
		out = append(out, reading{e.ID + ": seen to by (name, licence)", expected})
	}
	return append(out, reading{"Controller errors", "none"}, reading{"Residual current device tested by", ""},
		reading{"Seen again after a week", ""}, reading{"Seen again after the first refill", ""},
		reading{"Fitter's signature", ""}, reading{"Owner's signature", ""})
}

// crackingOf is the cracking pressure a check was reckoned with, Pa; 0 where none is known.
func crackingOf(p *plan.Plan, e *graph.Part) float64 {
	if e.Check != nil && e.Check.CrackingPa > 0 {
		return e.Check.CrackingPa
	}
	if p.After.Layout == nil {
		return 0
	}
	return p.After.Layout.Fits[e.ID].Row.CrackingPa
}

// jointLine is two joints side by side, each with its blanks.
type jointLine struct{ Left, Right *jointBlank }

type jointBlank struct {
	Number int
	What   string
}

// jointLines lists the joints of the new work in two columns.
func jointLines(p *plan.Plan) []jointLine {
	n := joints(p)
	if n == 0 {
		return nil
	}
	blank := func(i int) *jointBlank {
		if i >= n {
			return nil
		}
		j := p.After.Layout.Joints[i]
		return &jointBlank{j.Number, j.A + " / " + j.B}
	}
	half := (n + 1) / 2
	var out []jointLine
	for i := range half {
		out = append(out, jointLine{blank(i), blank(half + i)})
	}
	return out
}
