package table

import (
	"fmt"
	"regexp"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// PlainLines says of each mode, in sentences anybody follows, what the unit gets, what it
// needs and what the jets lose.
func PlainLines(p *plan.Plan, style form.Style) []string {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, style.Units) }
	var out []string
	names := tag.Of(p.Circuit, p.Net())
	for _, m := range plan.Likely(p) {
		at := quantity.Capital(names.Mode(m.Mode)) + " "
		if !strings.HasPrefix(at, "At ") {
			at = strings.TrimSpace(at) + ", "
		}
		if !m.HasUnit {
			continue
		}
		units := m.Units()
		for i, u := range units {
			who := "the heat pump"
			if len(units) > 1 {
				who = "heat pump " + names.Tag(u.ID)
			}
			line := plainUnit(who, u, howSure(p, m.Mode, u.ID, flow), flow, style.FlowLimit)
			if i == 0 {
				out = append(out, at+line)
			} else {
				out[len(out)-1] += " " + quantity.Capital(line)
			}
		}
		if m.HasJets && m.HasToday && m.JetsToday > 0 {
			out[len(out)-1] += " " + jetsChange(m)
		}
		if m.Moving > m.Pump+hydraulic.Standing {
			out[len(out)-1] += fmt.Sprintf(" The pump would hold %s if its water was moving already; a start from rest does not come to that.", flow(m.Moving))
		}
	}
	return out
}

// howSure is the range of a unit's flow in a mode, in brackets, nine of ten samples in it: once the
// throttle in its bypass is set by its reading, where one is. "" where none was made.
func howSure(p *plan.Plan, mode, unit string, flow func(float64) string) string {
	sol, ranges := p.After.Solution(mode), p.Ranges.Of(mode, graph.After)
	if sol == nil || ranges == nil {
		return ""
	}
	if set := p.Ranges.SetIn(mode, unit); set != nil {
		return " (nine in ten: " + set.Unit.Words(flow) + ", once the bypass is set by its reading)"
	}
	for i, f := range sol.Parts {
		if f.Part.ID == unit && i < len(ranges.Parts) {
			return " (nine in ten: " + ranges.Parts[i].Words(flow) + ")"
		}
	}
	return ""
}

// plainUnit says what one unit gets, how sure that is, and what it needs.
func plainUnit(who string, u plan.UnitSummary, sure string, flow, limit func(float64) string) string {
	if u.AsDescribed > 0 {
		sure = " by what was read at the tub" + sure + ", not the " + flow(u.AsDescribed) + " as described"
	}
	gets := fmt.Sprintf("%s gets %s%s; ", who, flow(u.Flow), sure)
	switch {
	case u.Flow <= 0:
		return "no water comes to " + who + "."
	case u.Least > 0 && u.Flow < u.Least:
		return gets + fmt.Sprintf("it needs %s: TOO LITTLE.", limit(u.Least))
	case u.Most > 0 && u.Flow > u.Most:
		return gets + fmt.Sprintf("it may have %s: TOO MUCH.", limit(u.Most))
	case u.Least > 0 && u.Most > 0 && u.Flow > (max(u.Least, u.Rated)+u.Most)/2: // as unitWords says it
		return gets + fmt.Sprintf("it needs %s and may have %s.", limit(u.Least), limit(u.Most))
	case u.Least > 0:
		return gets + fmt.Sprintf("it needs %s.", limit(u.Least))
	}
	return gets + "what it needs is not known."
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

// unitWord is what the trade calls the heat pump.
var unitWord = regexp.MustCompile(`\b([Uu])nit(s?)\b`)

// ForOwner calls the unit what its owner calls it: one thing has one name on what he reads.
func ForOwner(text string) string {
	return unitWord.ReplaceAllStringFunc(text, func(unit string) string {
		plain := "heat pump" + strings.TrimPrefix(unit[1:], "nit")
		if unit[0] == 'U' {
			plain = quantity.Capital(plain)
		}
		return plain
	})
}
