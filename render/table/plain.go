package table

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// mostPlain is how many modes are told one by one: more are read by nobody, and fill the first page. Of
// so many more some are picked, fewer. Judgement, no source.
const (
	mostPlain = 8
	picked    = 6
)

// plainMode is a mode in a sentence or two.
type plainMode struct {
	plan.ModeSummary
	line  string
	wrong float64 // by how much of its bound a unit gets too little or too much; below nothing: it does not
}

// PlainLines says of each mode, in sentences anybody follows, what the unit gets, what it
// needs and what the jets lose. Of many modes the worst are told and the first described, and the rest
// together; where says where each of them stands, "" where it does nowhere.
func PlainLines(p *plan.Plan, style form.Style, where string) []string {
	flow := func(v float64) string { return quantity.Format(v, quantity.Flow, style.Units) }
	names := tag.Of(p.Circuit, p.Net())
	var all []plainMode
	for _, m := range plan.Summarise(p) {
		if !m.HasUnit || m.OtherWater {
			continue
		}
		at := quantity.Capital(names.Mode(m.Mode)) + " "
		if !strings.HasPrefix(at, "At ") {
			at = strings.TrimSpace(at) + ", "
		}
		one := plainMode{ModeSummary: m, wrong: math.Inf(-1)}
		for i, u := range m.Units() {
			line := plainUnit(plainWho(names, m, u), u, howSure(p, m.Mode, u.ID, flow), flow, style.FlowLimit)
			if i == 0 {
				one.line = at + line
			} else {
				one.line += " " + quantity.Capital(line)
			}
			if u.Least > 0 {
				one.wrong = max(one.wrong, (u.Least-u.Flow)/u.Least)
			}
			if u.Most > 0 {
				one.wrong = max(one.wrong, (u.Flow-u.Most)/u.Most)
			}
		}
		if m.HasJets && m.HasToday && m.JetsToday > 0 {
			one.line += " " + jetsChange(m)
		}
		if m.Moving > m.Pump+hydraulic.Standing {
			one.line += fmt.Sprintf(" The pump would hold %s if its water was moving already; a start from rest does not come to that.", flow(m.Moving))
		}
		all = append(all, one)
	}
	told := toldApart(all, p.Circuit)
	var out []string
	var rest []plainMode
	for i, m := range all {
		if told[i] {
			out = append(out, m.line)
		} else {
			rest = append(rest, m)
		}
	}
	if len(rest) > 0 {
		out = append(out, restLine(rest, names, flow, where))
	}
	for _, l := range FartherLines(p, style, "the heat pump") {
		out = append(out, quantity.Capital(l)+".")
	}
	return out
}

// plainWho is what a unit of a mode is called.
func plainWho(names *tag.Names, m plan.ModeSummary, u plan.UnitSummary) string {
	if len(m.Units()) > 1 {
		return "heat pump " + names.Tag(u.ID)
	}
	return "the heat pump"
}

// toldApart are the modes, by index, that are told one by one: all where they are few; else that nearest
// to what a unit may not have, or farthest beyond it, that in which the jets lose most, the first described of
// each speed or mix of speeds, and more of those that are beyond it.
func toldApart(all []plainMode, c *graph.Circuit) map[int]bool {
	told := map[int]bool{}
	worst := make([]int, len(all))
	for i := range worst {
		worst[i] = i
	}
	if len(all) <= mostPlain {
		for i := range all {
			told[i] = true
		}
		return told
	}
	slices.SortStableFunc(worst, func(a, b int) int { return cmp.Compare(all[b].wrong, all[a].wrong) })
	jets, seen := worst[0], map[string]bool{}
	var first, beyond []int
	for i, m := range all {
		if m.JetsToday > 0 && (all[jets].JetsToday <= 0 || m.JetsChange() < all[jets].JetsChange()) {
			jets = i
		}
		speeds := ""
		if k := slices.IndexFunc(c.Modes, func(o graph.Mode) bool { return o.Name == m.Mode }); k >= 0 {
			speeds = fmt.Sprint(c.Modes[k].Speeds) // in the order of their keys
		}
		if !seen[speeds] {
			seen[speeds] = true
			first = append(first, i)
		}
	}
	for _, i := range worst {
		if all[i].wrong > 0 {
			beyond = append(beyond, i)
		}
	}
	for _, i := range slices.Concat([]int{worst[0], jets}, first, beyond) {
		if len(told) < picked {
			told[i] = true
		}
	}
	return told
}

// restLine says of the modes that are not told one by one what the units get in them.
func restLine(rest []plainMode, names *tag.Names, flow func(float64) string, where string) string {
	type span struct {
		who       string
		low, high float64
	}
	var units []span
	wrong, jets := 0, 0.0
	for _, m := range rest {
		if m.wrong > 0 {
			wrong++
		}
		if m.HasJets && m.HasToday && m.JetsToday > 0 {
			jets = min(jets, m.JetsChange())
		}
		for _, u := range m.Units() {
			who := plainWho(names, m.ModeSummary, u)
			i := slices.IndexFunc(units, func(s span) bool { return s.who == who })
			if i < 0 {
				i = len(units)
				units = append(units, span{who, u.Flow, u.Flow})
			}
			units[i].low, units[i].high = min(units[i].low, u.Flow), max(units[i].high, u.Flow)
		}
	}
	var gets []string
	for _, s := range units {
		gets = append(gets, fmt.Sprintf("%s gets %s to %s", s.who, flow(s.low), flow(s.high)))
	}
	out := fmt.Sprintf("In %d further modes %s", len(rest), strings.Join(gets, ", "))
	if jets < -0.005 {
		out += fmt.Sprintf(", and the jets lose at most %.0f %% of today's flow", -100*jets)
	}
	if wrong > 0 {
		out += fmt.Sprintf("; in %d of them a heat pump gets TOO LITTLE or TOO MUCH", wrong)
	}
	if where != "" {
		out += ": see " + where
	}
	return out + "."
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
			r := &ranges.Parts[i]
			return " (nine in ten: " + r.Words(flow) + r.Aside(flow) + ")"
		}
	}
	return ""
}

// plainUnit says what one unit gets, how sure that is, and what it needs.
func plainUnit(who string, u plan.UnitSummary, sure string, flow, limit func(float64) string) string {
	if as := flow(u.AsDescribed); u.AsDescribed > 0 && as != flow(u.Flow) {
		sure = " by what was read at the tub" + sure + ", not the " + as + " as described"
	}
	gets := fmt.Sprintf("%s gets %s%s; ", who, flow(u.Flow), sure)
	switch {
	case u.Astray > 0:
		return who + " stands, for its pump is off."
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
