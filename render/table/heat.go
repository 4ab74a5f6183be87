package table

import (
	"fmt"
	"math"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
)

// HeatText prints what a tub loses, what the unit makes of it, the year, sizes and supply.
func HeatText(r *job.Report, job graph.Job, s Style) []byte {
	return Text(HeatBlocks(r, job, s), s)
}

// HeatBlocks is the heat report as blocks.
func HeatBlocks(r *job.Report, j graph.Job, s Style) []Block {
	h := heatWords{r, s, j.Currency}
	out := []Block{{Title: "In short", Lines: dashed(h.short())}}
	out = append(out, h.loss(), h.unit(), h.airs())
	if r.Year != nil {
		out = append(out, h.months(), h.pays())
	}
	if r.Timer != nil {
		out = append(out, h.timer())
	}
	out = append(out, h.sizes())
	out = append(out, h.supplies()...)
	out = append(out, h.assumed())
	if len(r.Notes) > 0 {
		out = append(out, Block{Title: "Of the weather", Lines: dashed(r.Notes)})
	}
	var kept []Block
	for _, b := range out {
		if b.Grid != nil && len(b.Grid.Rows) > 0 || b.Grid == nil && len(b.Lines) > 0 {
			kept = append(kept, b)
		}
	}
	return kept
}

func dashed(lines []string) []string {
	out := make([]string, len(lines))
	for i, l := range lines {
		out[i] = "  - " + l
	}
	return out
}

// heatWords puts a report into words.
type heatWords struct {
	r        *job.Report
	s        Style
	currency string
}

func (h heatWords) warm(c float64) string {
	return quantity.Format(c, quantity.Temperature, h.s.Units)
}

func (h heatWords) power(w float64) string { return quantity.Format(w, quantity.Power, h.s.Units) }

func (h heatWords) money(v float64) string {
	return strings.TrimSpace(fixed(v, 0) + " " + h.currency)
}

// kWh prints an energy with the digits that mean something.
func kWh(v float64) string {
	switch {
	case math.Abs(v) >= 1000:
		return fixed(math.Round(v/10)*10, 0)
	case math.Abs(v) >= 10:
		return fixed(v, 0)
	}
	return fixed(v, 1)
}

// HeatShort says in plain sentences what a customer asks.
func HeatShort(r *job.Report, j graph.Job, s Style) []string {
	return heatWords{r, s, j.Currency}.short()
}

func (h heatWords) short() []string {
	r := h.r
	var out []string
	if u := r.UnitHolds(); u != nil {
		switch {
		case u.Hold && u.HoldsKnown:
			out = append(out, fmt.Sprintf("the unit holds %s down to %s outside; asked for: %s", h.warm(r.Loss.WaterC), h.warm(u.HoldsC), h.warm(r.Loss.AirC)))
		case u.HoldsKnown:
			out = append(out, fmt.Sprintf("the unit holds %s only down to %s outside; asked for: %s, where the tub loses %s and the unit gives %s", h.warm(r.Loss.WaterC), h.warm(u.HoldsC), h.warm(r.Loss.AirC), h.power(u.LostW), h.power(u.HeldW)))
		default:
			out = append(out, fmt.Sprintf("the unit does not hold %s in any air", h.warm(r.Loss.WaterC)))
		}
		if !u.Water {
			out = append(out, fmt.Sprintf("the unit does not make water of %s", h.warm(r.Loss.WaterC)))
		}
	}
	if r.HeatUp != nil {
		out = append(out, h.rise("filled", r.HeatUp))
	}
	if r.Recovery != nil && r.Recovery.FromC < r.Recovery.ToC-0.05 {
		out = append(out, h.rise("after a bath", r.Recovery))
	}
	if y := r.Year; y != nil {
		out = append(out, h.year(y)...)
	} else {
		out = append(out, "a year's energy and cost: say [climate], a weather file or twelve months")
	}
	return out
}

func (h heatWords) rise(when string, x *job.Rise) string {
	air := "in air of " + h.warm(x.AirC)
	if x.Through != "" {
		air = "through the weather from " + x.Through + " on"
	}
	if !x.Warmed.Reached {
		return fmt.Sprintf("%s at %s it never comes to %s %s; it ends at %s", when, h.warm(x.FromC), h.warm(x.ToC), air, h.warm(x.Warmed.EndsC))
	}
	of := kWh(x.Warmed.HeatKWh) + " kWh of heat"
	if share := x.ElementShare(); share > 0.005 {
		of += fmt.Sprintf(", %s %% of it the element's", fixed(100*share, 0))
	}
	return fmt.Sprintf("%s at %s it is at %s after %s h %s (%s)", when, h.warm(x.FromC), h.warm(x.ToC), fixed(x.Warmed.Hours, 1), air, of)
}

func (h heatWords) year(y *job.YearReport) []string {
	var out []string
	both := func(r job.Range) string {
		return fmt.Sprintf("%s kWh (%s to %s)", kWh(r.Likely), kWh(r.Low), kWh(r.High))
	}
	switch {
	case y.Planned != nil && y.Today != nil:
		out = append(out, fmt.Sprintf("a year takes %s instead of %s with the element: %s less (%s to %s %%)", both(y.PlannedKWh), both(y.TodayKWh),
			fixed(100*y.SavingShare.Likely, 0)+" %", fixed(100*y.SavingShare.Low, 0), fixed(100*y.SavingShare.High, 0)))
	case y.Planned != nil:
		out = append(out, "a year takes "+both(y.PlannedKWh)+"; nothing that heats today is described, so there is no saving to tell")
	default:
		out = append(out, "a year takes "+both(y.TodayKWh))
	}
	if y.Planned != nil && y.Today != nil {
		switch {
		case !y.Priced:
			out = append(out, "what that is in money: say [tariff] price")
		default:
			out = append(out, fmt.Sprintf("that saves %s a year (%s to %s)", h.money(y.SavingCost.Likely), fixed(y.SavingCost.Low, 0), fixed(y.SavingCost.High, 0)))
		}
	}
	if y.PaybackKnown {
		least := ""
		if y.PaybackAtLeast {
			least = "at least "
		}
		high := "more than 50"
		if y.Payback.High < 50 {
			high = fixed(y.Payback.High, 1)
		}
		line := fmt.Sprintf("the work pays for itself in %s%s years (%s to %s)", least, fixed(y.Payback.Likely, 1), fixed(y.Payback.Low, 1), high)
		if y.PaybackAtLeast {
			line += "; some of the bill or the labour has no price"
		}
		out = append(out, line)
	}
	if words := h.moves(); words != "" {
		out = append(out, words)
	}
	if words := h.paysFirst(y); words != "" {
		out = append(out, words)
	}
	if a := y.Planned; a != nil && a.Short > 0 {
		line := fmt.Sprintf("%d hours of the year end more than a tenth of a kelvin below the set point, the coldest at %s", a.Short, h.warm(a.ColdestC))
		switch a.Bathed {
		case a.Short:
			line += ": all of them after a bath, while it warms up again"
		case 0:
			line += ": none of them after a bath, so the unit does not hold it there"
		default:
			line += fmt.Sprintf(": %d of them after a bath, while it warms up again", a.Bathed)
		}
		out = append(out, line)
	}
	return out
}

// moves names what moves the saving most.
func (h heatWords) moves() string {
	var out []string
	for _, a := range h.r.Moves {
		if math.Abs(a.Saving) >= 1 {
			out = append(out, fmt.Sprintf("%s (± %s kWh)", h.s.say(a.What), kWh(math.Abs(a.Saving))))
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
func (h heatWords) paysFirst(y *job.YearReport) string {
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
		out = append(out, h.s.say(p.What)+", "+words)
	}
	if len(out) == 0 {
		return ""
	}
	return "what would pay first on top, a year, its own price not counted: " + strings.Join(out, "; ")
}

func (h heatWords) loss() Block {
	l := h.r.Loss
	g := newGrid(column{head: "way"}, column{head: "W", right: true}, column{head: "kWh a year", right: true})
	for _, t := range l.Terms {
		year := ""
		if l.KWhYear {
			year = kWh(t.KWhYear)
		}
		w := fixed(t.W, 0)
		if t.W == 0 {
			w = ""
		}
		g.add(string(t.Term), w, year)
	}
	return Block{Title: fmt.Sprintf("What the tub loses, water %s, air %s", h.warm(l.WaterC), h.warm(l.AirC)), Grid: g, Lines: []string{
		h.s.say(quantity.Say("cover on: %s, that is %s; cover off another %s and %s of water an hour", quantity.Power.Of(l.StandingW), quantity.Conductance.Of(l.UA), quantity.Power.Of(l.Open.Total()), quantity.Mass.Of(l.Open.EvaporationKgH))),
		"watts of the open terms are those while the cover is off",
	}}
}

func (h heatWords) unit() Block {
	g := newGrid(column{head: "air", right: true}, column{head: "water", right: true}, column{head: "output kW", right: true}, column{head: "input kW", right: true}, column{head: "COP", right: true}, column{head: "from"})
	for _, x := range h.r.Unit.At {
		from := string(x.Working.Basis)
		if x.Rated {
			from = "the sheet"
		}
		if x.Working.OutputW <= 0 {
			g.add(h.warm(x.AirC), h.warm(x.WaterC), "stands", "", "", "below its least air")
			continue
		}
		g.add(h.warm(x.AirC), h.warm(x.WaterC), fixed(x.Working.OutputW/1e3, 1), fixed(x.Working.InputW/1e3, 2), fixed(x.Working.COP(), 1), from)
	}
	b := Block{Title: "The unit at full speed", Grid: g}
	if h.r.Unit.Assumed {
		b.Lines = []string{"its sheet is not described: these are the catalogue's figures for its size, from memory; ratings of the sheet beat them"}
	}
	return b
}

// airs says what the tub loses and the unit gives every five degrees, and in the design air.
func (h heatWords) airs() Block {
	b := Block{Title: fmt.Sprintf("Does it hold %s?", h.warm(h.r.Loss.WaterC))}
	if len(h.r.Airs) == 0 {
		return b
	}
	columns := []column{{head: "air", right: true}, {head: "tub loses W", right: true}, {head: "unit gives W", right: true}, {head: "runs", right: true}}
	climate, element := h.r.Year != nil, false
	for _, a := range h.r.Airs {
		element = element || a.ElementW > 0
	}
	if element {
		columns = append(columns, column{head: "element W", right: true})
	}
	if climate {
		columns = append(columns, column{head: "hours a year colder", right: true})
	}
	g := newGrid(columns...)
	for _, a := range h.r.Airs {
		if math.Mod(a.AirC, 5) != 0 && a.AirC != math.Round(h.r.Loss.AirC) {
			continue
		}
		gives, runs := "stands", ""
		if a.GivesW > 0 {
			gives, runs = fixed(a.GivesW, 0), fixed(100*a.Share(), 0)+" %"
			if a.Share() > 1 {
				runs = "all, cools"
			}
		}
		cells := []string{h.warm(a.AirC), fixed(math.Max(0, a.LosesW), 0), gives, runs}
		if element {
			cells = append(cells, fixed(a.ElementW, 0))
		}
		if climate {
			cells = append(cells, fixed(float64(a.Colder), 0))
		}
		g.add(cells...)
	}
	b.Grid, b.Lines = g, []string{"cover on, the pump's own heat taken off; drawn with --view cold"}
	return b
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

func (h heatWords) months() Block {
	y := h.r.Year
	columns := []column{{head: "month"}}
	if y.Today != nil {
		columns = append(columns, column{head: "today kWh", right: true})
	}
	if y.Planned != nil {
		columns = append(columns, column{head: "heat kWh", right: true}, column{head: "unit kWh", right: true}, column{head: "element kWh", right: true}, column{head: "pump kWh", right: true})
	}
	if y.Priced {
		columns = append(columns, column{head: strings.TrimSpace("today " + h.currency), right: true}, column{head: strings.TrimSpace("planned " + h.currency), right: true})
	}
	g := newGrid(columns...)
	row := func(name string, of func(a *heat.Account, pick func(heat.Month) float64) float64) {
		cells := []string{name}
		if y.Today != nil {
			cells = append(cells, kWh(of(y.Today, func(m heat.Month) float64 { return m.ElementKWh + m.PumpKWh })))
		}
		if y.Planned != nil {
			for _, pick := range []func(heat.Month) float64{
				func(m heat.Month) float64 { return m.HeatKWh }, func(m heat.Month) float64 { return m.UnitKWh },
				func(m heat.Month) float64 { return m.ElementKWh }, func(m heat.Month) float64 { return m.PumpKWh }} {
				cells = append(cells, kWh(of(y.Planned, pick)))
			}
		}
		if y.Priced {
			for _, a := range []*heat.Account{y.Today, y.Planned} {
				if a == nil {
					cells = append(cells, "")
					continue
				}
				cells = append(cells, fixed(of(a, func(m heat.Month) float64 { return m.Cost }), 0))
			}
		}
		g.add(cells...)
	}
	for m, name := range monthNames {
		row(name, func(a *heat.Account, pick func(heat.Month) float64) float64 { return pick(a.Months[m]) })
	}
	row("year", func(a *heat.Account, pick func(heat.Month) float64) float64 {
		sum := 0.0
		for _, m := range a.Months {
			sum += pick(m)
		}
		return sum
	})
	return Block{Title: "The year", Grid: g, Lines: []string{"today: element and pump; times of day are local standard time the whole year"}}
}

func (h heatWords) pays() Block {
	g := newGrid(column{head: "change"}, column{head: "kWh less a year", right: true}, column{head: strings.TrimSpace(h.currency + " less"), right: true})
	for _, p := range h.r.Year.Pays {
		money := ""
		if h.r.Year.Priced {
			money = fixed(p.Cost, 0)
		}
		g.add(h.s.say(p.What), kWh(p.KWh), money)
	}
	return Block{Title: "What would take more off the planned year", Grid: g}
}

// clock prints an hour of the day.
func clock(hour float64) string {
	m := int(math.Round(hour * 60))
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
}

func (h heatWords) timer() Block {
	t := h.r.Timer
	b := Block{Title: "When to heat, on a mean day of the coldest month"}
	if !t.OK {
		b.Lines = []string{"no three times of day keep the band that [use] between allows: leave the heating on"}
		return b
	}
	var on []string
	for _, w := range t.On {
		on = append(on, clock(w.FromH)+" to "+clock(w.ToH))
	}
	b.Lines = []string{
		fmt.Sprintf("set the unit to the upper end of the band and heat from %s: %s a day instead of %s always on; the water falls to %s", strings.Join(on, ", "), strings.TrimSpace(fixed(t.CostDay, 2)+" "+h.currency), fixed(t.AlwaysDay, 2), h.warm(t.LowestC)),
		"the water's treatment is the owner's and the maker's business: a lower temperature changes what it needs",
	}
	return b
}

func (h heatWords) sizes() Block {
	g := newGrid(column{head: "unit"}, column{head: "holds down to", right: true}, column{head: "heats up in h", right: true}, column{head: "fed"}, column{head: "large enough"})
	for _, x := range h.r.Sizes {
		name := x.Unit
		if x.This {
			name += " (this job's)"
		}
		holds, hours := "-", "never"
		if x.HoldsKnown {
			holds = h.warm(x.HoldsC)
		}
		if !math.IsInf(x.Hours, 1) {
			hours = fixed(x.Hours, 1)
		}
		ok := "yes"
		if len(x.Reasons) > 0 {
			ok = "no: " + strings.Join(sizeWords(x.Reasons), ", ")
		}
		fed := "yes"
		if !x.Flow {
			fed = "no"
		}
		g.add(name, holds, hours, fed, ok)
	}
	return Block{Title: "Large enough?", Grid: g}
}

func sizeWords(reasons []string) []string {
	words := map[string]string{"hold": "does not hold the tub in the coldest air", "time": "too slow", "flow": "too little water", "water": "not hot enough"}
	var out []string
	for _, r := range reasons {
		out = append(out, words[r])
	}
	return out
}

func (h heatWords) supplies() []Block {
	var out []Block
	for _, x := range h.r.Supplies {
		if len(x.Loads) == 0 {
			continue
		}
		g := newGrid(column{head: "what runs together", widest: 50}, column{head: "A", right: true}, column{head: "A with a start", right: true}, column{head: ""})
		for i, set := range x.Together {
			if i == 6 {
				break
			}
			words := ""
			switch {
			case set.OverA > 0:
				words = fixed(set.OverA, 1) + " A over its rating"
			case set.OverLong > 0:
				words = fixed(set.OverLong, 1) + " A over what may run for hours"
			}
			g.add(strings.Join(set.IDs, ", "), fixed(set.RunningA, 1), fixed(set.WithStart, 0), words)
		}
		title := "Supply, " + fixed(x.VoltageV, 0) + " V"
		if x.RatingA > 0 {
			title += ", " + fixed(x.RatingA, 0) + " A"
		}
		b := Block{Title: title, Grid: g}
		if x.Drop {
			b.Lines = append(b.Lines, fmt.Sprintf("the cable loses %s V, %s %%, with all of the first line (%s)", fixed(x.DropV, 1), fixed(100*x.DropV/x.VoltageV, 1), x.DropFrom))
		}
		if x.DipV > 0 {
			b.Lines = append(b.Lines, fmt.Sprintf("a start lowers the voltage by up to %s V", fixed(x.DipV, 1)))
		}
		if x.FuseA > 0 {
			line := "the unit asks for a fuse or breaker of " + fixed(x.FuseA, 0) + " A, by its plate or as usual for its size"
			if x.RatingA > 0 && x.FuseA > x.RatingA {
				line += ": more than this circuit has"
			}
			b.Lines = append(b.Lines, line)
		}
		b.Lines = append(b.Lines, "currents added as numbers; cable, protection and zones are for the electrician to decide and to check")
		out = append(out, b)
	}
	return out
}

func (h heatWords) assumed() Block {
	g := newGrid(column{head: "what nobody gave", widest: 44}, column{head: "taken as", right: true}, column{head: "moves the year by kWh", right: true}, column{head: "from", widest: 50})
	for _, a := range h.r.Assumed {
		value := quantity.Format(a.Value, a.Dim, h.s.Units)
		if a.Plain {
			value = fixed(a.Value, 1)
		}
		if a.Adds {
			value = "± " + quantity.Format(a.High, a.Dim, h.s.Units)
		}
		moves := ""
		if a.MovesKWh != 0 {
			moves = "± " + kWh(math.Abs(a.MovesKWh))
		}
		g.add(h.s.say(a.What), value, moves, a.Source)
	}
	return Block{Title: "Assumed, the heaviest first", Grid: g}
}
