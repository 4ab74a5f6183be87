package table

import (
	"fmt"

	"dryfit/graph/hydraulic"
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
}

type remedyJSON struct {
	What   string `json:"what"`
	Effect string `json:"effect"`
	Works  bool   `json:"works"`
}

func advice(a *hydraulic.Advice, s Style) *adviceJSON {
	if a == nil {
		return nil
	}
	out := &adviceJSON{Pump: a.Pump, Constant: a.Constant, Choices: []choiceJSON{}, Why: s.say(a.Why), Remedies: []remedyJSON{}}
	if a.Best >= 0 {
		out.Best = s.say(a.Choices[a.Best].Name)
	}
	for _, c := range a.Choices {
		one := choiceJSON{Name: s.say(c.Name), Kv: round(c.Kv, 2), Keeps: c.Keeps, Rated: c.Rated, Why: s.say(c.Why), Modes: []choiceModeJSON{}}
		for _, m := range c.Modes {
			one.Modes = append(one.Modes, choiceModeJSON{
				m.Mode, m3h(m.UnitFlow), m3h(m.BypassFlow), m.State, kPa(m.MarginPa), round(m.JetsChange*100, 2), m3h(m.PumpFlow), round(m.RiseK, 3), s.say(m.Error),
			})
		}
		out.Choices = append(out.Choices, one)
	}
	for _, r := range a.Remedies {
		out.Remedies = append(out.Remedies, remedyJSON{s.say(r.What), s.say(r.Effect), r.Works})
	}
	return out
}

// adviceBlocks prints the comparison of bypass elements.
func adviceBlocks(a *hydraulic.Advice, s Style) []Block {
	g := newGrid(column{head: " "}, column{head: "bypass element", widest: 34}, column{head: "mode"}, column{head: "unit", right: true},
		column{head: "bypass", right: true}, column{head: "check"}, column{head: "margin", right: true}, column{head: "jets, %", right: true}, column{head: "keeps"})
	var lines []string
	for i, c := range a.Choices {
		mark := ""
		if i == a.Best {
			mark = ">"
		}
		for k, m := range c.Modes {
			name, keeps := "", ""
			if k == 0 {
				name, keeps = s.say(c.Name), map[bool]string{true: "yes", false: "no"}[c.Keeps]
			}
			if m.Error != "" {
				g.add(mark, name, m.Mode, "none", "", "", "", "", keeps)
				lines = append(lines, fmt.Sprintf("  %s, %s: %s", s.say(c.Name), m.Mode, s.say(m.Error)))
				continue
			}
			g.add(mark, name, m.Mode, s.flow(m.UnitFlow), s.flow(m.BypassFlow), m.State, s.pressure(m.MarginPa), signed(m.JetsChange*100), keeps)
			mark = ""
		}
	}
	for i, c := range a.Choices {
		if i != a.Best && c.Why != "" {
			lines = append(lines, fmt.Sprintf("  not %s: %s", s.say(c.Name), s.say(c.Why)))
		}
	}
	if a.Why != "" {
		lines = append(lines, s.say(a.Why))
	}
	for _, r := range a.Remedies {
		works := "would not be enough"
		if r.Works {
			works = "would do"
		}
		lines = append(lines, fmt.Sprintf("  %s: %s (%s)", s.say(r.What), s.say(r.Effect), works))
	}
	return []Block{{Title: "Which bypass", Grid: g, Lines: lines}}
}

// signed prints a share in per cent with its sign.
func signed(v float64) string {
	if round(v, 1) > 0 {
		return "+" + fixed(v, 1)
	}
	return fixed(v, 1)
}
