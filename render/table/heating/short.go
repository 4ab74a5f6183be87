package heating

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat/job"
	"dryfit/graph/practice"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// Short says in sentences what a plan comes to in heat and money, with what would change it;
// for papers, which name no keys of the description. It lists units in the order of their names; nil: as the
// report does.
func Short(r *job.Report, j graph.Job, names *tag.Names, s form.Style) []string {
	return reporter{r: r, s: s, currency: j.Currency, paper: true, names: names}.short()
}

// ForOwner says of Short what a customer asks: no keys of the description, and nothing of what the figures hang on.
func ForOwner(r *job.Report, j graph.Job, names *tag.Names, s form.Style) []string {
	h := reporter{r: r, s: s, currency: j.Currency, paper: true, names: names}
	out := append(h.holds(), h.alone()...)
	y := r.Year
	if y == nil {
		return out
	}
	out = append(out, h.saves(y)...)
	if a := y.Planned; a != nil && a.Short > 0 && (a.Bathed < a.Short || !y.BathsSpread) { // after a bath it is told above
		out = append(out, fmt.Sprintf("the coldest the water gets in a usual year is %s", h.warm(a.ColdestC)))
	}
	return out
}

func (h reporter) short() []string {
	r := h.r
	out := h.holds()
	if r.Cold {
		return append(out, h.alone()...)
	}
	switch y := r.Year; {
	case y != nil:
		out = append(out, h.year(y)...)
	case len(r.Problems) > 0:
		out = append(out, "a year's energy and cost: not worked out, the climate has to be mended first")
	case r.Unheated:
		out = append(out, "there is no year to tell: nothing that is described heats the water")
	case h.paper:
		out = append(out, "what a year takes and costs isn't told: the climate isn't described")
	default:
		out = append(out, "a year's energy and cost: say [climate], a weather file or twelve months")
	}
	return append(out, h.alone()...)
}

// alone says which of several units the figures are of; nothing where there is one.
func (h reporter) alone() []string {
	var out []string
	if len(h.r.Beside) > 0 {
		out = append(out, "reckoned with all that heat this water together: "+h.units()+h.carries())
	}
	if len(h.r.Foreign) > 0 {
		out = append(out, "as if the heat exchanger of another source brought nothing, today and as planned: "+quoted(h.r.Foreign))
	}
	if len(h.r.Others) > 0 {
		with := ""
		if len(h.r.Beside) == 0 {
			with = fmt.Sprintf("reckoned with %q alone; ", h.r.Unit.ID)
		}
		out = append(out, fmt.Sprintf("%snot counted, for no water comes to it in the mode that heats: %s", with, quoted(h.r.Others)))
	}
	return out
}

// carries says how several units share a year; "" where there is none.
func (h reporter) carries() string {
	var shares []string
	for _, u := range h.r.Unit.Each {
		if !u.Year {
			return ""
		}
		words := fmt.Sprintf("%q %s %%", u.ID, form.Fixed(100*u.Share, 0))
		if u.HeatKWh <= 0 {
			words = fmt.Sprintf("%q none", u.ID)
		}
		shares = append(shares, words)
	}
	return "; of the heat of a year they carry " + strings.Join(shares, ", ")
}

// units names those that heat together: "a" and "b".
func (h reporter) units() string {
	return quoted(h.byName(append([]string{h.r.Unit.ID}, h.r.Beside...)))
}

// byName sorts ids by what the papers call them.
func (h reporter) byName(ids []string) []string {
	if h.names != nil {
		slices.SortStableFunc(ids, func(a, b string) int { return practice.Compare(h.names.Tag(a), h.names.Tag(b)) })
	}
	return ids
}

// quoted lists ids: "a", "b" and "c".
func quoted(ids []string) string {
	var out []string
	for _, id := range ids {
		out = append(out, strconv.Quote(id))
	}
	return quantity.Listed(out, "and")
}

// with is what heats today, as a year is told of: "the element".
func (h reporter) with() string {
	switch len(h.r.OldHeats) {
	case 0:
		return "the element"
	case 1:
		return "the old unit"
	}
	return "the old units"
}

// holds says down to which air the unit holds the tub, and how long it takes to heat it.
func (h reporter) holds() []string {
	r := h.r
	if r.Cold {
		return []string{
			fmt.Sprintf("water of %s is kept cold: a heat pump would have to cool it, and that is not worked out: neither whether it is large enough nor what a year takes", h.warm(r.Loss.WaterC)),
			"ask its maker for the cooling it gives at this water and the warmest air, and for the coldest water it may be set to",
		}
	}
	var out []string
	if u := r.UnitHolds(); u != nil {
		who, own, hold, does, it, gives := "the unit", "the unit", "holds", "does", "it", "gives"
		if len(r.Others) > 0 {
			who, own = strconv.Quote(r.Unit.ID), strconv.Quote(r.Unit.ID)
		}
		if len(r.Beside) > 0 {
			who, own, hold, does, it, gives = h.units()+" together", strconv.Quote(r.Unit.ID), "hold", "do", "they", "give"
		}
		hours := ""
		if may := r.Unit.MayRun; may > 0 && may < 0.995 && !u.Hold {
			runs := "runs"
			if len(r.Beside) > 0 {
				runs = "run"
			}
			hours = fmt.Sprintf(" while %s %s, which %s may %s %% of the day", it, runs, it, form.Fixed(100*may, 0))
		}
		switch {
		case u.Hold && u.HoldsKnown:
			stops := ""
			if r.Unit.StopsAt(u.HoldsC) {
				stops = ", where it is taken to stop, for nobody says it"
			}
			out = append(out, fmt.Sprintf("%s %s %s down to %s outside%s; asked for: %s", who, hold, h.warm(r.Loss.WaterC), h.warm(u.HoldsC), stops, h.warm(r.Loss.AirC)))
		case u.HoldsKnown && r.Unit.StopsAt(u.HoldsC):
			out = append(out, fmt.Sprintf("%s %s %s down to %s outside, where %s is taken to stop, for nobody says it; asked for: %s, where the tub loses %s", who, hold, h.warm(r.Loss.WaterC), h.warm(u.HoldsC), own, h.warm(r.Loss.AirC), h.power(u.LostW)))
		case u.HoldsKnown:
			out = append(out, fmt.Sprintf("%s %s %s only down to %s outside; asked for: %s, where the tub loses %s and %s %s %s%s", who, hold, h.warm(r.Loss.WaterC), h.warm(u.HoldsC), h.warm(r.Loss.AirC), h.power(u.LostW), it, gives, h.power(u.HeldW), hours))
		default:
			out = append(out, fmt.Sprintf("%s %s not hold %s in any air", who, does, h.warm(r.Loss.WaterC)))
		}
		if !u.Water {
			out = append(out, fmt.Sprintf("%s does not make water of %s", own, h.warm(r.Loss.WaterC)))
		}
	}
	if c, ok := h.pumpAlone(); ok {
		out = append(out, fmt.Sprintf("in air of %s and above the pump's own heat is more than the tub loses, cover on: the water rises past %s by itself; fewer hours of the pump cost less", h.warm(c), h.warm(r.Loss.WaterC)))
	}
	if r.HeatUp != nil {
		out = append(out, h.rise("filled", r.HeatUp))
	}
	if r.Recovery != nil && r.Recovery.FromC < r.Recovery.ToC-0.05 {
		out = append(out, h.rise("left by a bath", r.Recovery))
	}
	return out
}

// warmEver is how cold the air is, °C, up to which a tub that its pump alone overheats is told
// of: in warmer air most tubs drift up by themselves. Judgement.
const warmEver = 15

// pumpAlone returns the coldest air in which nothing is left to heat, for the pump does it.
func (h reporter) pumpAlone() (airC float64, ok bool) {
	i := slices.IndexFunc(h.r.Airs, func(a job.AtAir) bool { return a.LosesW <= 0 })
	if i < 0 || h.r.Airs[i].AirC > warmEver {
		return 0, false
	}
	return h.r.Airs[i].AirC, true
}

func (h reporter) rise(when string, x *job.Rise) string {
	air := "in air of " + h.warm(x.AirC)
	if x.Through != "" {
		air = "through the weather from " + x.Through + " on"
	}
	if !x.Warmed.Reached {
		return fmt.Sprintf("%s at %s, the water never comes to %s %s; it ends at %s", when, h.warm(x.FromC), h.warm(x.ToC), air, h.warm(x.Warmed.EndsC))
	}
	of := kWh(x.Warmed.HeatKWh) + " kWh of heat"
	if share := x.ElementShare(); share > 0.005 {
		of += fmt.Sprintf(", %s %% of it the element's", form.Fixed(100*share, 0))
	}
	return fmt.Sprintf("%s at %s, the water is at %s after %s h %s (%s)", when, h.warm(x.FromC), h.warm(x.ToC), form.Fixed(x.Warmed.Hours, 1), air, of)
}

func (h reporter) year(y *job.YearReport) []string {
	out := h.saves(y)
	if words := h.moves(); words != "" && !y.Cold() {
		out = append(out, words)
	}
	if words := h.paysFirst(y); words != "" && !y.Cold() {
		out = append(out, words)
	}
	if words := h.coolHours(y); words != "" {
		out = append(out, words)
	}
	return out
}

// coldTodayK is by how much colder the water may get today than as planned before that is told, K. Judgement.
const coldTodayK = 3

// saves says what a year takes, what is saved and when that has paid for the work.
func (h reporter) saves(y *job.YearReport) []string {
	var out []string
	both := func(r job.Range) string {
		return fmt.Sprintf("%s kWh (%s to %s)", kWh(r.Likely), kWh(r.Low), kWh(r.High))
	}
	switch {
	case y.Cold():
		return append(out, fmt.Sprintf("a year takes %s instead of %s with %s, but lets the water go down to %s: that is heat which is missing, and no saving",
			both(y.PlannedKWh), both(y.TodayKWh), h.with(), h.warm(y.Planned.ColdestC)))
	case y.Planned != nil && y.Today != nil:
		out = append(out, fmt.Sprintf("a year takes %s instead of %s with %s: %s", both(y.PlannedKWh), both(y.TodayKWh), h.with(), lessOrMore(y.SavingShare)))
		if y.Today.ColdestC < y.Planned.ColdestC-coldTodayK {
			out = append(out, fmt.Sprintf("today the water goes down to %s in the coldest hours, so that the two years are not of the same water", h.warm(y.Today.ColdestC)))
		}
	case y.Planned != nil && len(h.r.OldHeats) > 0:
		ratings := "; with the ratings of its sheet there would be"
		if h.paper {
			ratings = ""
		}
		out = append(out, "a year takes "+both(y.PlannedKWh)+"; of the old unit nothing is known to work out what it takes, so there is no saving to tell"+ratings)
	case y.Planned != nil && len(h.r.Foreign) > 0:
		out = append(out, "a year takes "+both(y.PlannedKWh)+"; what the heat exchanger's own source takes today isn't worked out, so there is no saving to tell")
	case y.Planned != nil:
		out = append(out, "a year takes "+both(y.PlannedKWh)+"; nothing that heats today is described, so there is no saving to tell")
	default:
		out = append(out, "a year takes "+both(y.TodayKWh))
	}
	if y.Planned != nil && y.Today != nil {
		switch {
		case !y.Priced && h.paper:
			out = append(out, "what that is in money isn't told: the price of electricity isn't described")
		case !y.Priced:
			out = append(out, "what that is in money: say [tariff] price")
		default:
			out = append(out, h.saved(y.SavingCost))
			if y.SavingCost.Likely < 0.5 && !y.Stands {
				out = append(out, "so the work does not pay for itself")
			}
		}
	}
	switch {
	case y.PaybackWantsUnit && h.paper:
		out = append(out, "how soon the work pays for itself isn't told: what the unit costs isn't given")
	case y.PaybackWantsUnit:
		out = append(out, "how soon the work pays for itself: say what the unit costs, under its id in [prices]")
	}
	if y.PaybackKnown {
		line := "the work pays for itself in " + paysIn(y.Payback, y.PaybackAtLeast)
		if y.PaybackAtLeast {
			line += "; some of the bill or the labour has no price"
		}
		out = append(out, line)
	}
	return out
}

// paysIn words years until something has paid for itself: "at least 7.8 years (5.3 to 11.0)". What lies beyond
// fifty is not counted out: nothing here lasts so long.
func paysIn(r job.Range, atLeast bool) string {
	const most = 50
	years := func(v float64) string {
		if v < most {
			return form.Fixed(v, 1)
		}
		return fmt.Sprintf("more than %d", most)
	}
	out := years(r.Likely) + " years"
	if atLeast && r.Likely < most {
		out = "at least " + out
	}
	if r.Low < most {
		out += fmt.Sprintf(" (%s to %s)", years(r.Low), years(r.High))
	}
	return out
}

// lessOrMore words a share that is saved, or lost: "55 % less (48 to 60 %)", "8 % more (2 to 15 %)", and where
// its range has both "3 % less (5 % more to 9 % less)".
func lessOrMore(r job.Range) string {
	percent := func(v float64) float64 { return math.Round(100*v) + 0 } // no -0
	low, likely, high := percent(r.Low), percent(r.Likely), percent(r.High)
	word := func(v float64) string {
		if v < 0 {
			return form.Fixed(-v, 0) + " % more"
		}
		return form.Fixed(v, 0) + " % less"
	}
	switch {
	case low >= 0:
		return fmt.Sprintf("%s (%s to %s %%)", word(likely), form.Fixed(low, 0), form.Fixed(high, 0))
	case high < 0:
		return fmt.Sprintf("%s (%s to %s %%)", word(likely), form.Fixed(-high, 0), form.Fixed(-low, 0))
	}
	return fmt.Sprintf("%s (%s to %s)", word(likely), word(low), word(high))
}

// saved says what is saved in money, or plainly that more is spent.
func (h reporter) saved(r job.Range) string {
	low, likely, high := math.Round(r.Low)+0, math.Round(r.Likely)+0, math.Round(r.High)+0
	word := func(v float64) string {
		if v < 0 {
			return form.Fixed(-v, 0) + " more"
		}
		return form.Fixed(v, 0) + " less"
	}
	switch {
	case likely < 0 && high < 0:
		return fmt.Sprintf("that costs %s more a year (%s to %s)", h.money(-likely), form.Fixed(-high, 0), form.Fixed(-low, 0))
	case likely < 0:
		return fmt.Sprintf("that costs %s more a year (%s to %s)", h.money(-likely), word(low), word(high))
	case low < 0:
		return fmt.Sprintf("that saves %s a year (%s to %s)", h.money(likely), word(low), word(high))
	}
	return fmt.Sprintf("that saves %s a year (%s to %s)", h.money(likely), form.Fixed(low, 0), form.Fixed(high, 0))
}

// coolHours says how long in a year the water is below its set point; "" never.
func (h reporter) coolHours(y *job.YearReport) string {
	if a := y.Planned; a != nil && a.Short > 0 {
		line := fmt.Sprintf("%d hours of the year end more than %s below the set point, the coldest at %s", a.Short, quantity.TemperatureDifference.Of(0.1).In(h.s.Units), h.warm(a.ColdestC))
		switch {
		case y.Cold(): // and never warms up: who bathed when says nothing
		case a.Bathed == a.Short:
			line += ": all of them after a bath, while it warms up again"
		case a.Bathed == 0:
			line += ": none of them after a bath, so the unit does not hold it there"
		default:
			line += fmt.Sprintf(": %d of them after a bath, while it warms up again", a.Bathed)
		}
		if a.Bathed > 0 && y.BathsSpread && !y.Cold() {
			line += " (each day is given its share of the week's baths: after a whole one it is colder)"
		}
		if o := y.Other; o != nil && o.Short != a.Short {
			way := "with the element kept as a back-up"
			if y.OtherWay == job.UnitAlone {
				way = "with the unit alone"
			}
			line += fmt.Sprintf("; %s it is %d hours, for %s kWh a year", way, o.Short, kWh(o.KWh))
		}
		return line
	}
	return ""
}

// moves names what moves the saving most.
func (h reporter) moves() string {
	var out []string
	for _, a := range h.r.Moves {
		if math.Abs(a.Saving) >= 1 {
			out = append(out, fmt.Sprintf("%s (± %s kWh)", h.s.Say(a.What), kWh(math.Abs(a.Saving))))
		}
	}
	if len(out) == 0 {
		return ""
	}
	of := "the saving"
	if y := h.r.Year; y.Today == nil || y.Planned == nil {
		of = "that"
	}
	return "what would change " + of + " most: " + strings.Join(out, ", ")
}

// paysFirst says what a larger unit, a better cover and another tariff would take off the planned
// year, the best first.
func (h reporter) paysFirst(y *job.YearReport) string {
	var out []string
	seen := map[job.Change]bool{}
	for _, p := range y.Pays {
		if seen[p.Of] || p.Of != job.LargerUnit && p.Of != job.BetterCover && p.Of != job.OtherTariff {
			continue
		}
		seen[p.Of] = true
		less, amount := p.KWh, func(v float64) string { return kWh(v) + " kWh" }
		if y.Priced {
			less, amount = p.Cost, h.money
		}
		words := amount(less) + " less"
		switch {
		case math.Abs(less) < 0.5:
			words = "nothing"
		case less < 0:
			words = amount(-less) + " more"
		}
		out = append(out, h.s.Say(p.What)+", "+words)
	}
	if len(out) == 0 {
		return ""
	}
	return "what one more change would do to a year, what it costs itself not counted: " + strings.Join(out, "; ")
}
