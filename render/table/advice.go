package table

import (
	"fmt"
	"strings"

	"dryfit/graph/plan/advice"
	"dryfit/render/table/form"
)

type adviceJSON struct {
	Pump     string       `json:"pump"`
	Constant bool         `json:"constant_pump"`
	Choices  []choiceJSON `json:"choices"`
	Best     string       `json:"best"`
	Why      string       `json:"why"`
	Remedies []remedyJSON `json:"remedies"`
}

type choiceJSON struct {
	Name  string           `json:"name"`
	Kv    float64          `json:"kv_m3_h,omitempty"`
	Keeps bool             `json:"keeps_the_promise"`
	Fits  bool             `json:"fits_the_pump"`
	Rated bool             `json:"rated_at_low"`
	Why   string           `json:"why"`
	Modes []choiceModeJSON `json:"modes"`
}

type choiceModeJSON struct {
	Mode       string  `json:"mode"`
	Unit       float64 `json:"unit_flow_m3_h"`
	Bypass     float64 `json:"bypass_flow_m3_h"`
	State      string  `json:"state,omitempty"`
	Margin     float64 `json:"margin_kPa"`
	JetsChange float64 `json:"jets_change_percent"`
	Pump       float64 `json:"pump_flow_m3_h"`
	Rise       float64 `json:"temperature_rise_K"`
	Error      string  `json:"error,omitempty"`

	Spring *rangeJSON `json:"spring_opens_kPa,omitempty"` // a margin means nothing within it
}

type remedyJSON struct {
	What   string `json:"what"`
	Effect string `json:"effect"`
	Works  bool   `json:"works"`
}

func adviceOf(a *advice.Comparison, s form.Style) *adviceJSON {
	if a == nil {
		return nil
	}
	out := &adviceJSON{Pump: a.Pump, Constant: a.Constant, Choices: []choiceJSON{}, Why: s.Say(a.Why), Remedies: []remedyJSON{}}
	if a.Best >= 0 {
		out.Best = s.Say(a.Choices[a.Best].Name)
	}
	for _, c := range a.Choices {
		one := choiceJSON{Name: s.Say(c.Name), Kv: form.Round(c.Kv, 2), Keeps: c.Keeps, Fits: !c.Unfit, Rated: c.Rated, Why: s.Say(c.Why), Modes: []choiceModeJSON{}}
		for _, m := range c.Modes {
			one.Modes = append(one.Modes, choiceModeJSON{
				m.Mode, form.M3h(m.UnitFlow), form.M3h(m.BypassFlow), m.State, form.KPa(m.MarginPa), form.Round(m.JetsChange*100, 2), form.M3h(m.PumpFlow), form.Round(m.RiseK, 3), s.Say(m.Error), springRange(m.Spring),
			})
		}
		out.Choices = append(out.Choices, one)
	}
	for _, r := range a.Remedies {
		out.Remedies = append(out.Remedies, remedyJSON{s.Say(r.What), s.Say(r.Effect), r.Works})
	}
	return out
}

// adviceBlocks prints the comparison of bypass elements.
func adviceBlocks(a *advice.Comparison, s form.Style) []form.Block {
	g := form.NewGrid(form.Column{Head: " "}, form.Column{Head: "bypass element", Widest: 34}, form.Column{Head: "mode"}, form.Column{Head: "unit", Right: true},
		form.Column{Head: "bypass", Right: true}, form.Column{Head: "check"}, form.Column{Head: "margin", Right: true}, form.Column{Head: "jets, %", Right: true}, form.Column{Head: "keeps"})
	var lines []string
	warned, within := false, false
	for i, c := range a.Choices {
		mark := ""
		if i == a.Best {
			mark = ">"
		}
		for k, m := range c.Modes {
			name, keeps := "", ""
			if k == 0 {
				name, keeps = s.Say(c.Name), keepsWords(a, &c)
				warned = warned || keeps == keepsUnfit
			}
			if m.Error != "" {
				g.Add(mark, name, m.Mode, "none", "", "", "", "", keeps)
				lines = append(lines, fmt.Sprintf("  %s, %s: %s", s.Say(c.Name), m.Mode, s.Say(m.Error)))
				continue
			}
			within = within || marginWords(s, &m) == marginWithin
			g.Add(mark, name, m.Mode, s.Flow(m.UnitFlow), s.Flow(m.BypassFlow), standing(m.State), marginWords(s, &m), jetsLose(a, &m), keeps)
			mark = ""
		}
	}
	if warned {
		lines = append(lines, "* the unit's flow is kept, but bypass-fits-pump warns of such an element on this pump")
	}
	if within {
		lines = append(lines, "  "+marginWithin+": the spring may be off by more than it is from its other state")
	}
	lines = append(lines, reasons(a, s)...)
	if a.Why != "" {
		lines = append(lines, s.Say(a.Why))
	}
	for _, r := range a.Remedies {
		works := "would not be enough"
		if r.Works {
			works = "would do"
		}
		lines = append(lines, fmt.Sprintf("  %s: %s (%s)", s.Say(r.What), s.Say(r.Effect), works))
	}
	return []form.Block{{Title: "Which bypass", Grid: g, Lines: lines}}
}

// jetsLose prints by how much the jets' flow changes; nothing of a tub without jets.
func jetsLose(a *advice.Comparison, m *advice.ChoiceMode) string {
	if !a.Jets {
		return ""
	}
	return signed(m.JetsChange * 100)
}

// marginWithin is the margin that means nothing.
const marginWithin = "within spread"

// marginWords prints how far the check of a choice is from its other state, where that means
// anything beside what its spring may be off.
func marginWords(s form.Style, m *advice.ChoiceMode) string {
	if m.Spring.HighPa == 0 {
		return ""
	}
	if a, means := m.Spring.Margin(m.MarginPa, m.State); means {
		return a.In(s.Units)
	}
	return marginWithin
}

const keepsUnfit = "yes *"

// keepsWords says whether a choice keeps what the unit asks.
func keepsWords(a *advice.Comparison, c *advice.BypassChoice) string {
	switch {
	case !c.Keeps:
		return "no"
	case !a.Asked:
		return "not known"
	case c.Unfit:
		return keepsUnfit
	}
	return "yes"
}

// reasons says of each choice why it is not the one to take: of those with one reason in one
// line.
func reasons(a *advice.Comparison, s form.Style) []string {
	var whys []string
	names := map[string][]string{}
	for i, c := range a.Choices {
		if i == a.Best || c.Why == "" {
			continue
		}
		why := s.Say(c.Why)
		if names[why] == nil {
			whys = append(whys, why)
		}
		names[why] = append(names[why], s.Say(c.Name))
	}
	var out []string
	for _, why := range whys {
		out = append(out, fmt.Sprintf("  not %s: %s", strings.Join(names[why], ", nor "), why))
	}
	return out
}

// standing says how what is in the bypass stands, in a column of that.
func standing(state string) string {
	if state == "lifting" {
		return "part open"
	}
	return state
}

// signed prints a share in per cent with its sign.
func signed(v float64) string {
	if form.Round(v, 1) > 0 {
		return "+" + form.Fixed(v, 1)
	}
	return form.Fixed(v, 1)
}
