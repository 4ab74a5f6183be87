package table

import (
	"fmt"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
)

// PlainLines says of each mode, in sentences anybody follows, what the unit gets, what it
// needs and what the jets lose.
func PlainLines(p *plan.Plan, style Style) []string {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, style.Units) }
	var out []string
	for _, m := range plan.Summarise(p) {
		at := atMode(m.Mode)
		switch {
		case !m.HasUnit:
			continue
		case m.Unit <= 1e-9:
			out = append(out, at+" no water comes to the heat pump.")
		case m.Least > 0 && m.Unit < m.Least:
			out = append(out, fmt.Sprintf("%s the heat pump gets %s; it needs %s: TOO LITTLE.", at, flow(m.Unit), flow(m.Least)))
		case m.Most > 0 && m.Unit > m.Most:
			out = append(out, fmt.Sprintf("%s the heat pump gets %s; it may have %s: TOO MUCH.", at, flow(m.Unit), flow(m.Most)))
		case m.Least > 0:
			out = append(out, fmt.Sprintf("%s the heat pump gets %s; it needs %s.", at, flow(m.Unit), flow(m.Least)))
		default:
			out = append(out, fmt.Sprintf("%s the heat pump gets %s; what it needs is not known.", at, flow(m.Unit)))
		}
		if m.HasJets && m.HasToday && m.JetsToday > 0 {
			out[len(out)-1] += " " + jetsChange(m)
		}
	}
	return out
}

// atMode names a mode in a sentence.
func atMode(mode string) string {
	switch mode {
	case "low", "high", "middle":
		return "At " + mode + " speed"
	}
	return fmt.Sprintf("In mode %q", mode)
}

func jetsChange(m plan.ModeSummary) string {
	switch c := m.JetsChange(); {
	case c < -0.005:
		return fmt.Sprintf("The jets lose %.0f %% of today's flow.", -100*c)
	case c > 0.005:
		return fmt.Sprintf("The jets gain %.0f %%.", 100*c)
	}
	return "The jets lose nothing to speak of."
}

// Capital is a text that begins a sentence.
func Capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
