package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/plan/advice"
	"dryfit/graph/plan/stage"
	"dryfit/render/table/form"
)

// SummaryLines says in words what every mode comes to.
func SummaryLines(p *plan.Plan, s form.Style) []string {
	var out []string
	for _, m := range plan.Summarise(p) {
		out = append(out, summaryLine(s, m, func(part string) string { return flowSpread(s, p, m.Mode, part) })+jetsSpread(p.Ranges.Of(m.Mode, graph.After)))
	}
	return out
}

// flowSpread says how far the flow of a part may be off in a mode; "" where no range was made or both its
// ends print alike.
func flowSpread(s form.Style, p *plan.Plan, mode, part string) string {
	r := flowRangeOf(p, mode, part)
	if r == nil {
		return ""
	}
	if low, high := r.Ends(s.Flow); low == high {
		return ""
	}
	return ", nine in ten lie " + r.Between(s.Flow, "") + r.Aside(s.Flow)
}

// InShort is SummaryLines with the modes that come to the same in one line.
func InShort(p *plan.Plan, s form.Style) []string {
	var names [][]string
	var words []string
	modes := plan.Summarise(p)
	for i, l := range SummaryLines(p, s) {
		said := strings.TrimPrefix(l, modes[i].Mode+": ")
		k := slices.Index(words, said)
		if k < 0 {
			k, names, words = len(words), append(names, nil), append(words, said)
		}
		names[k] = append(names[k], modes[i].Mode)
	}
	out := make([]string, len(words))
	for k, said := range words {
		out[k] = strings.Join(names[k], ", ") + ": " + said
	}
	return append(append(out, FartherLines(p, s, "")...), WithoutAnswer(p, s)...)
}

// WithoutAnswer names the modes that have none, and why.
func WithoutAnswer(p *plan.Plan, s form.Style) []string {
	if p.After == nil {
		return nil
	}
	var out []string
	for _, n := range p.After.NoAnswer {
		out = append(out, n.Mode+": no answer: "+s.Say(n.Why))
	}
	for _, n := range todayWithoutAnswer(p) {
		out = append(out, n.Mode+", as it stands today: no answer: "+s.Say(n.Why))
	}
	return out
}

// todayWithoutAnswer are the modes that have an answer after the work and none before it, so that
// nothing can be held against today.
func todayWithoutAnswer(p *plan.Plan) []stage.NoAnswer {
	if p.Before == nil || p.After == nil {
		return nil
	}
	var out []stage.NoAnswer
	for _, n := range p.Before.NoAnswer {
		if p.After.Solution(n.Mode) != nil {
			out = append(out, n)
		}
	}
	return out
}

// summaryLine says what a mode comes to; sure, how far the flow of a part may be off.
func summaryLine(s form.Style, m plan.ModeSummary, sure func(part string) string) string {
	var said []string
	units := m.Units()
	for _, u := range units {
		words := unitWords(s, u, len(m.Beside) > 0)
		if u.Astray <= 0 {
			words += sure(u.ID)
		}
		said = append(said, words)
	}
	said = append(said, bypasses(units, s)...)
	if !m.HasUnit && m.Pump > 0 {
		said = append(said, "the pump moves "+s.Flow(m.Pump)+read(s, m.PumpAsDescribed, m.Pump)+sure(m.PumpID))
	}
	if m.HasJets {
		said = append(said, jetsWords(m, s))
	}
	if m.Moving > m.Pump+hydraulic.Standing {
		said = append(said, "the pump holds "+s.Flow(m.Moving)+" only if its water was moving already: what stands here is what a start from rest comes to")
	}
	said = slicesWithout(said, "")
	if len(said) == 0 {
		said = append(said, "no water moves"+sure(m.PumpID))
	}
	return m.Mode + ": " + strings.Join(said, "; ")
}

func slicesWithout(list []string, drop string) []string {
	var out []string
	for _, t := range list {
		if t != drop {
			out = append(out, t)
		}
	}
	return out
}

// unitWords says a unit's flow with the limit it is closest to breaking; by its id where there
// are several.
func unitWords(s form.Style, u plan.UnitSummary, several bool) string {
	who := "the unit"
	if several {
		who = fmt.Sprintf("%q", u.ID)
	}
	aside := read(s, u.AsDescribed, u.Flow)
	got := who + " gets " + s.Flow(u.Flow) + aside
	read := ""
	if aside != "" {
		read = aside + ","
	}
	switch {
	case u.Astray > 0:
		return fmt.Sprintf("%s stands, its pump off: %s of another pump's water passes it", who, s.Flow(u.Astray))
	case u.Flow == 0:
		return who + " gets no water" + aside
	case u.Least > 0 && u.Flow < u.Least:
		return s.Say(graph.Say("%s gets %s%s and needs at least %s: TOO LITTLE", who, quantity.Flow.Of(u.Flow), read, quantity.Flow.Limit(u.Least)))
	case u.Most > 0 && u.Flow > u.Most:
		return s.Say(graph.Say("%s gets %s%s and may have %s at the most: TOO MUCH", who, quantity.Flow.Of(u.Flow), read, quantity.Flow.Limit(u.Most)))
	case u.Rated > 0 && u.Flow < u.Rated:
		return got + " (rated " + s.FlowLimit(u.Rated) + ", least " + s.FlowLimit(u.Least) + ")"
	case u.Rated > 0 && u.Most > 0 && u.Flow > (u.Rated+u.Most)/2:
		return got + " (most " + s.FlowLimit(u.Most) + ")"
	case u.Rated > 0:
		return got + " (rated " + s.FlowLimit(u.Rated) + ")"
	case u.Least == 0 && u.Most == 0:
		return got + " (what it needs is not known)"
	}
	return got
}

// read says of a flow that it is by what was read, and what it is as described; "" where both print alike.
func read(s form.Style, described, flow float64) string {
	if as := s.Flow(described); described > 0 && as != s.Flow(flow) {
		return " by what was read, not the " + as + " as described"
	}
	return ""
}

// bypasses says what each bypass does, once where units share it; by the id of what stands in it where
// there are several.
func bypasses(units []plan.UnitSummary, s form.Style) []string {
	var own []plan.UnitSummary
	for _, u := range units {
		if u.Past != "" && u.Shares == "" {
			own = append(own, u)
		}
	}
	var out []string
	for _, u := range own {
		name := "bypass"
		if len(own) > 1 {
			name = fmt.Sprintf("%q", u.Past)
		}
		out = append(out, bypassWords(name, u, s))
	}
	return out
}

func bypassWords(name string, u plan.UnitSummary, s form.Style) string {
	switch {
	case u.State != "" && u.Bypass > 0:
		return name + " " + advice.StateWords(u.State) + ", it takes " + s.Flow(u.Bypass)
	case u.State != "":
		return name + " " + advice.StateWords(u.State)
	case u.Bypass > 0 && name == "bypass":
		return "the bypass takes " + s.Flow(u.Bypass)
	case u.Bypass > 0:
		return name + " takes " + s.Flow(u.Bypass)
	}
	return ""
}

func jetsWords(m plan.ModeSummary, s form.Style) string {
	switch {
	case m.Jets == 0 && m.JetsToday == 0:
		return ""
	case !m.HasToday:
		return "the jets get " + s.Flow(m.Jets)
	}
	change := m.JetsChange() * 100
	switch {
	case math.Abs(change) < 0.5:
		return "the jets get what they get today, " + s.Flow(m.Jets)
	case change < 0:
		return fmt.Sprintf("the jets get %s, %s %% less than today", s.Flow(m.Jets), form.Fixed(-change, 0))
	default:
		return fmt.Sprintf("the jets get %s, %s %% more than today", s.Flow(m.Jets), form.Fixed(change, 0))
	}
}

// jetsSpread says how far the change of the jets may be off; "" where there is no range.
func jetsSpread(r *spread.ModeRanges) string {
	if r == nil || !r.HasJets || r.JetsChange.High-r.JetsChange.Low < 0.005 {
		return ""
	}
	return "; nine in ten lie " + r.JetsChange.Between(signedPercent, " %")
}

// signedPercent prints a share as whole per cent, with its sign.
func signedPercent(v float64) string {
	switch v = math.Round(v * 100); {
	case v > 0:
		return "+" + form.Fixed(v, 0)
	case v < 0:
		return form.Fixed(v, 0)
	}
	return "0"
}
