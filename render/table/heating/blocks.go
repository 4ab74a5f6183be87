package heating

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/graph/practice"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// Text prints what a tub loses, what the unit makes of it, the year, sizes and supply.
func Text(r *job.Report, job graph.Job, s form.Style) []byte {
	return form.Text(Blocks(r, job, s), s)
}

// Blocks is the heat report as blocks, for whoever writes the description.
func Blocks(r *job.Report, j graph.Job, s form.Style) []form.Block {
	return reporter{r: r, s: s, currency: j.Currency}.blocks()
}

// Paper is Blocks for papers, which name no keys of the description, call parts by their names,
// and have what it comes to on their first page; of the supply only the table where the electrician's
// page says the rest.
func Paper(r *job.Report, j graph.Job, names *tag.Names, s form.Style, electrician bool) []form.Block {
	return reporter{r: r, s: s, currency: j.Currency, paper: true, names: names, electrician: electrician}.blocks()
}

func (h reporter) blocks() []form.Block {
	r := h.r
	var out []form.Block
	if !h.paper {
		out = append(out, form.Block{Title: "In short", Lines: dashed(h.short())})
	}
	out = append(out, h.loss(), h.unit(), h.each(), h.airs())
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
		out = append(out, form.Block{Title: "Of the weather", Lines: dashed(r.Notes)})
	}
	var kept []form.Block
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

// reporter puts a report into words.
type reporter struct {
	r        *job.Report
	s        form.Style
	currency string
	paper    bool       // names no keys of the description
	names    *tag.Names // of the parts on paper; nil: as the file does

	electrician bool // has a page of his own beside this
}

func (h reporter) warm(c float64) string {
	return quantity.Format(c, quantity.Temperature, h.s.Units)
}

func (h reporter) power(w float64) string { return quantity.Format(w, quantity.Power, h.s.Units) }

func (h reporter) money(v float64) string {
	return strings.TrimSpace(form.Fixed(v, 0) + " " + h.currency)
}

// kWh prints an energy with the digits that mean something.
func kWh(v float64) string {
	switch {
	case math.Abs(v) >= 1000:
		return form.Fixed(math.Round(v/10)*10, 0)
	case math.Abs(v) >= 10:
		return form.Fixed(v, 0)
	}
	return form.Fixed(v, 1)
}

func (h reporter) loss() form.Block {
	l := h.r.Loss
	columns := []form.Column{{Head: "way"}, {Head: "W", Right: true}}
	if l.KWhYear {
		columns = append(columns, form.Column{Head: "kWh a year", Right: true})
	}
	g := form.NewGrid(columns...)
	for _, t := range l.Terms {
		cells := []string{string(t.Term), form.Fixed(t.W, 0)}
		if t.W == 0 {
			cells[1] = ""
		}
		switch {
		case l.KWhYear:
			cells = append(cells, kWh(t.KWhYear))
		case t.W == 0: // what counts only in a year
			continue
		}
		g.Add(cells...)
	}
	title := fmt.Sprintf("What the tub loses, water %s, air %s", h.warm(l.WaterC), h.warm(l.AirC))
	if l.Indoor {
		title = fmt.Sprintf("What the tub loses, water %s, in a room of %s; outside %s", h.warm(l.WaterC), h.warm(l.RoomC), h.warm(l.AirC))
	}
	return form.Block{Title: title, Grid: g, Lines: []string{
		h.s.Say(quantity.Say("cover on: %s, that is %s; cover off another %s and %s of water an hour", quantity.Power.Of(l.StandingW), quantity.Conductance.Of(l.UA), quantity.Power.Of(l.Open.Total()), quantity.Mass.Of(l.Open.EvaporationKgH))),
		"watts of the open terms are those while the cover is off",
	}}
}

func (h reporter) unit() form.Block {
	g := form.NewGrid(form.Column{Head: "air", Right: true}, form.Column{Head: "water", Right: true}, form.Column{Head: "output kW", Right: true}, form.Column{Head: "input kW", Right: true}, form.Column{Head: "COP", Right: true}, form.Column{Head: "from"})
	for _, x := range h.r.Unit.At {
		cop, _ := x.Working.Basis.Spread()
		if h.r.Unit.Assumed {
			cop, _ = heat.Beyond.Spread()
		}
		from := fmt.Sprintf("%s, COP ± %.0f %%", x.Working.Basis, 100*cop)
		if x.Rated {
			from = "the sheet"
			if x.Stands {
				from = "the sheet; below its least air: it stands"
			}
		}
		if x.Working.OutputW <= 0 {
			g.Add(h.warm(x.AirC), h.warm(x.WaterC), "stands", "", "", "below its least air")
			continue
		}
		g.Add(h.warm(x.AirC), h.warm(x.WaterC), form.Fixed(x.Working.OutputW/1e3, 1), form.Fixed(x.Working.InputW/1e3, 2), form.Fixed(x.Working.COP(), 1), from)
	}
	b := form.Block{Title: "The unit at full speed", Grid: g}
	if len(h.r.Beside) > 0 {
		name := h.r.Unit.ID
		if h.names != nil {
			name = h.names.Tag(name)
		}
		b.Title = name + " by itself at full speed"
	}
	if h.r.Unit.Assumed {
		b.Lines = []string{"its sheet is not described: these are the catalogue's figures for its size, from memory; ratings of the sheet beat them"}
	}
	if u := h.r.Unit; u.BesideTheSheet() {
		b.Lines = append(b.Lines, h.s.Say(quantity.Say("the sheet's rows are at its rated flow, those worked out at the %s it gets", quantity.Flow.Of(u.FlowM3s))))
	}
	return b
}

// each says which of several units gives and carries what.
func (h reporter) each() form.Block {
	b := form.Block{Title: fmt.Sprintf("Units that heat together, in air of %s", h.warm(h.r.Loss.AirC))}
	if len(h.r.Unit.Each) == 0 {
		return b
	}
	columns := []form.Column{{Head: "unit"}, {Head: "flow", Right: true}, {Head: "water comes at", Right: true}, {Head: "output kW", Right: true}, {Head: "input kW", Right: true}, {Head: "COP", Right: true}}
	year := h.r.Unit.Each[0].Year
	if year {
		columns = append(columns, form.Column{Head: "heat a year kWh", Right: true}, form.Column{Head: "share", Right: true}, form.Column{Head: "takes kWh", Right: true}, form.Column{Head: "COP of the year", Right: true})
	}
	g, assumed, later := form.NewGrid(columns...), []string{}, []string{}
	each := slices.Clone(h.r.Unit.Each)
	if h.names != nil {
		slices.SortStableFunc(each, func(a, b job.UnitShare) int { return practice.Compare(h.names.Tag(a.ID), h.names.Tag(b.ID)) })
	}
	for _, u := range each {
		name, flow := u.ID, "not known"
		if h.names != nil {
			name = h.names.Tag(u.ID)
		}
		if u.FlowM3s > 0 {
			flow = quantity.Format(u.FlowM3s, quantity.Flow, h.s.Units)
		}
		cells := []string{name, flow, h.warm(u.EntersC), "stands", "", ""}
		if u.Working.OutputW > 0 {
			cells = []string{name, flow, h.warm(u.EntersC), form.Fixed(u.Working.OutputW/1e3, 1), form.Fixed(u.Working.InputW/1e3, 2), form.Fixed(u.Working.COP(), 1)}
		}
		if year {
			cop := ""
			if u.COP > 0 {
				cop = form.Fixed(u.COP, 1)
			}
			cells = append(cells, kWh(u.HeatKWh), form.Fixed(100*u.Share, 0)+" %", kWh(u.KWh), cop)
		}
		if u.Assumed {
			assumed = append(assumed, name)
		}
		if u.Later {
			later = append(later, fmt.Sprintf("%s, set to %s", name, h.warm(u.SetC)))
		}
		g.Add(cells...)
	}
	b.Grid = g
	b.Lines = []string{"all at full speed; one that stands behind another in the same pipe gets water that this has warmed; those of one set point run as long as each other"}
	if len(later) > 0 {
		b.Lines = append(b.Lines, "runs only when the water has come down to what it is set to: "+strings.Join(later, "; "))
	}
	if len(assumed) > 0 {
		b.Lines = append(b.Lines, "by the catalogue's figures for its size, from memory: "+strings.Join(assumed, ", "))
	}
	return b
}

// airsTold are every fifth degree, or of Fahrenheit's every tenth, and the coldest air asked for, in their order.
func (h reporter) airsTold() []job.AtAir {
	told := slices.DeleteFunc(slices.Clone(h.r.Airs), func(a job.AtAir) bool { return math.Mod(a.AirC, 5) != 0 })
	if h.s.Units == quantity.InchSystem {
		told = slices.Clone(h.r.AirsF)
	}
	out := slices.DeleteFunc(told, func(a job.AtAir) bool { return h.r.Asked != nil && h.warm(a.AirC) == h.warm(h.r.Asked.AirC) })
	if h.r.Asked == nil {
		return out
	}
	i := slices.IndexFunc(out, func(a job.AtAir) bool { return a.AirC > h.r.Asked.AirC })
	if i < 0 {
		i = len(out)
	}
	return slices.Insert(out, i, *h.r.Asked)
}

// airs says what is left to heat and the unit gives every five degrees, and in the design air.
func (h reporter) airs() form.Block {
	b := form.Block{Title: fmt.Sprintf("Does it hold %s?", h.warm(h.r.Loss.WaterC))}
	if len(h.r.Airs) == 0 {
		return b
	}
	gives := "unit gives W"
	if len(h.r.Beside) > 0 {
		gives = "units give W"
	}
	columns := []form.Column{{Head: "air", Right: true}, {Head: "left to heat W", Right: true}, {Head: gives, Right: true}, {Head: "runs", Right: true}}
	climate, element := h.r.Year != nil, false
	for _, a := range h.r.Airs {
		element = element || a.ElementW > 0
	}
	if element {
		columns = append(columns, form.Column{Head: "element W", Right: true})
	}
	if climate {
		columns = append(columns, form.Column{Head: "hours a year colder", Right: true})
	}
	g := form.NewGrid(columns...)
	for _, a := range h.airsTold() {
		gives, runs := "stands", ""
		if a.GivesW > 0 {
			gives, runs = form.Fixed(a.GivesW, 0), form.Fixed(100*a.Share(), 0)+" %"
			switch {
			case a.Share() > 1:
				runs = "all, cools"
			case a.Cools():
				runs += ", cools"
			}
		}
		cells := []string{h.warm(a.AirC), form.Fixed(math.Max(0, a.LosesW), 0), gives, runs}
		if element {
			cells = append(cells, form.Fixed(a.ElementW, 0))
		}
		if climate {
			cells = append(cells, form.Fixed(float64(a.Colder), 0))
		}
		g.Add(cells...)
	}
	where := "drawn with --view cold"
	if h.paper {
		where = "drawn on a sheet of its own"
	}
	b.Grid, b.Lines = g, []string{"left to heat: what the tub loses with its cover on, less the pump's own heat; " + where}
	return b
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

// monthColumns are those of the table of the months: what was asked and can be told.
func (h reporter) monthColumns() []form.Column {
	y := h.r.Year
	columns := []form.Column{{Head: "month"}}
	if y.Today != nil {
		columns = append(columns, form.Column{Head: "today kWh", Right: true})
	}
	if y.Planned != nil {
		columns = append(columns, form.Column{Head: "heat kWh", Right: true}, form.Column{Head: "unit kWh", Right: true}, form.Column{Head: "element kWh", Right: true}, form.Column{Head: "pump kWh", Right: true})
	}
	if y.Other != nil {
		columns = append(columns, form.Column{Head: y.OtherWay + " kWh", Right: true})
	}
	if y.Priced {
		for _, x := range []struct {
			name string
			a    *heat.Account
		}{{"today ", y.Today}, {"planned ", y.Planned}} {
			if x.a != nil {
				columns = append(columns, form.Column{Head: strings.TrimSpace(x.name + h.currency), Right: true})
			}
		}
	}
	return columns
}

func (h reporter) months() form.Block {
	y := h.r.Year
	g := form.NewGrid(h.monthColumns()...)
	row := func(name string, of func(a *heat.Account, pick func(heat.Month) float64) float64) {
		cells := []string{name}
		if y.Today != nil {
			cells = append(cells, kWh(of(y.Today, func(m heat.Month) float64 { return m.UnitKWh + m.ElementKWh + m.PumpKWh })))
		}
		if y.Planned != nil {
			for _, pick := range []func(heat.Month) float64{
				func(m heat.Month) float64 { return m.HeatKWh }, func(m heat.Month) float64 { return m.UnitKWh },
				func(m heat.Month) float64 { return m.ElementKWh }, func(m heat.Month) float64 { return m.PumpKWh }} {
				cells = append(cells, kWh(of(y.Planned, pick)))
			}
		}
		if y.Other != nil {
			cells = append(cells, kWh(of(y.Other, func(m heat.Month) float64 { return m.UnitKWh + m.ElementKWh + m.PumpKWh })))
		}
		if y.Priced {
			for _, a := range []*heat.Account{y.Today, y.Planned} {
				if a != nil {
					cells = append(cells, form.Fixed(of(a, func(m heat.Month) float64 { return m.Cost }), 0))
				}
			}
		}
		g.Add(cells...)
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
	line := ""
	if y.Today != nil {
		line = "today: element and pump; "
		if len(h.r.OldHeats) > 0 {
			line = "today: " + strings.TrimPrefix(h.with(), "the ") + ", element where it helps, and pump; "
		}
	}
	if y.Other != nil {
		line += h.otherWay(y) + "; "
	}
	return form.Block{Title: "The year", Grid: g, Lines: []string{line + "times of day are local standard time the whole year"}}
}

// otherWay says what the column of the other way to heat holds: a year of its own, not a sum of the
// columns before it.
func (h reporter) otherWay(y *job.YearReport) string {
	units := strings.TrimPrefix(h.set(), "the ")
	if y.OtherWay == job.UnitAlone {
		return y.OtherWay + ": the planned year were the element switched off, " + units + " and pump"
	}
	return y.OtherWay + ": the planned year were the element kept as a back-up, " + units + ", element and pump"
}

func (h reporter) pays() form.Block {
	g := form.NewGrid(form.Column{Head: "change"}, form.Column{Head: "kWh less a year", Right: true}, form.Column{Head: strings.TrimSpace(h.currency + " less"), Right: true})
	for _, p := range h.r.Year.Pays {
		money := ""
		if h.r.Year.Priced {
			money = form.Fixed(p.Cost, 0)
		}
		g.Add(h.s.Say(p.What), kWh(p.KWh), money)
	}
	return form.Block{Title: "What would take more off the planned year", Grid: g, Lines: []string{treatment}}
}

// clock prints an hour of the day.
func clock(hour float64) string {
	m := int(math.Round(hour * 60))
	return fmt.Sprintf("%02d:%02d", m/60, m%60)
}

// treatment stands wherever cooler water is spoken of.
const treatment = "the water's treatment is the owner's and the maker's business: cooler water, or less of it filtered, changes what it needs"

func (h reporter) timer() form.Block {
	t := h.r.Timer
	b := form.Block{Title: "When to heat, on a mean day of the coldest month"}
	if !t.OK {
		b.Lines = []string{"no three times of day keep the band that [use] between allows: leave the heating on"}
		if h.paper {
			b.Lines = []string{"no three times of day keep the water as warm as it is to stay: leave the heating on"}
		}
		return b
	}
	var on []string
	for _, w := range t.On {
		on = append(on, clock(w.FromH)+" to "+clock(w.ToH))
	}
	b.Lines = []string{
		fmt.Sprintf("set "+h.set()+" to %s and heat from %s: %s a day for the heat instead of %s always on; the water falls to %s", h.warm(h.r.TimerC), strings.Join(on, ", "), strings.TrimSpace(form.Fixed(t.CostDay, 2)+" "+h.currency), form.Fixed(t.AlwaysDay, 2), h.warm(t.LowestC)),
		treatment,
	}
	return b
}

// set is what a timer sets.
func (h reporter) set() string {
	if len(h.r.Beside) > 0 {
		return "the units"
	}
	return "the unit"
}

func (h reporter) sizes() form.Block {
	g := form.NewGrid(form.Column{Head: "unit"}, form.Column{Head: "holds down to", Right: true}, form.Column{Head: "heats up in h", Right: true}, form.Column{Head: "fed"}, form.Column{Head: "large enough"})
	for _, x := range h.r.Sizes {
		name := x.Unit
		if x.This {
			if name += " (this job's)"; h.paper {
				name = "this job's unit"
			}
		}
		holds, hours := "-", "never"
		if x.HoldsKnown {
			holds = h.warm(x.HoldsC)
		}
		if !math.IsInf(x.Hours, 1) {
			hours = form.Fixed(x.Hours, 1)
		}
		ok := "yes"
		if len(x.Reasons) > 0 {
			ok = "no: " + strings.Join(sizeWords(x.Reasons), ", ")
		}
		fed := "yes"
		if !x.Flow {
			fed = "no"
		}
		g.Add(name, holds, hours, fed, ok)
	}
	b := form.Block{Title: "Large enough?", Grid: g}
	if x := h.r.HeatUp; x != nil && x.ElementShare() > 0.005 {
		b.Lines = []string{"heats up: " + h.set() + " without the element's share"}
	}
	if len(h.r.Beside) > 0 {
		b.Lines = append(b.Lines, "each together with "+quoted(h.r.Beside))
	}
	return b
}

func sizeWords(reasons []string) []string {
	words := map[string]string{"hold": "does not hold the tub in the coldest air", "time": "too slow", "flow": "too little water", "water": "not hot enough"}
	var out []string
	for _, r := range reasons {
		out = append(out, words[r])
	}
	return out
}

// together are the names of what runs together: "P1 (low)" for "pump (low)".
func (h reporter) together(s *job.Supply, ids []string) []string {
	if h.names == nil {
		return ids
	}
	return tag.AtSpeeds(ids, s.Part, h.names.Tag)
}

func (h reporter) supplies() []form.Block {
	var out []form.Block
	for _, x := range h.r.Supplies {
		if len(x.Loads) == 0 {
			continue
		}
		g := form.NewGrid(form.Column{Head: "what runs together", Widest: 50}, form.Column{Head: "A", Right: true}, form.Column{Head: "A at a start", Right: true}, form.Column{Head: "too much"})
		fits := true
		for i, set := range x.Together {
			if i == 6 {
				break
			}
			words := ""
			switch {
			case set.OverA > 0:
				words = over(set.OverA) + " A over its rating"
			case set.OverLong > 0:
				words = over(set.OverLong) + " A over what may run for hours"
			}
			fits = fits && words == ""
			g.Add(strings.Join(h.together(&x, set.IDs), ", "), form.Fixed(set.RunningA, 1), form.Fixed(set.WithStart, 1), words)
		}
		if fits {
			g.DropLast()
		}
		title := "Supply, " + form.Fixed(x.VoltageV, 0) + " V"
		if x.RatingA > 0 {
			title += ", " + form.Fixed(x.RatingA, 0) + " A"
		}
		b := form.Block{Title: title, Grid: g}
		if x.Drop {
			b.Lines = append(b.Lines, fmt.Sprintf("the cable loses %s V, %s %%, with all of the first line (%s)", form.Fixed(x.DropV, 1), form.Fixed(100*x.DropV/x.VoltageV, 1), x.DropFrom))
		}
		if x.DipV > 0 {
			b.Lines = append(b.Lines, fmt.Sprintf("a start lowers the voltage by up to %s V", form.Fixed(x.DipV, 1)))
		}
		if !h.electrician {
			for _, t := range x.Says {
				b.Lines = append(b.Lines, h.s.Say(t))
			}
		}
		if x.FuseA > 0 {
			line := "the unit asks for a fuse or breaker of " + form.Fixed(x.FuseA, 0) + " A, by its plate or as usual for its size"
			if x.RatingA > 0 && x.FuseA > x.RatingA {
				line += ": more than this circuit has"
			}
			b.Lines = append(b.Lines, line)
		}
		last := "currents added as numbers; cable, protection and zones are for the electrician to decide and to check"
		if h.electrician {
			last += ": see his page"
		}
		b.Lines = append(b.Lines, last)
		out = append(out, b)
	}
	return out
}

// over prints a current above a limit; one of hundredths is not nothing.
func over(a float64) string {
	if a < 0.1 {
		return form.Fixed(a, 2)
	}
	return form.Fixed(a, 1)
}

// source is where a value comes from; on paper without the key that would say it better.
func (h reporter) source(words string) string {
	if h.paper {
		words, _, _ = strings.Cut(words, "; say ")
	}
	return words
}

func (h reporter) assumed() form.Block {
	year := slices.ContainsFunc(h.r.Assumed, func(a job.Assumed) bool { return a.MovesKWh != 0 })
	columns := []form.Column{{Head: "what nobody gave", Widest: 44}, {Head: "taken as", Right: true}, {Head: "from", Widest: 50}}
	if year {
		columns = slices.Insert(columns, 2, form.Column{Head: "moves the year by kWh", Right: true})
	}
	g := form.NewGrid(columns...)
	for _, a := range h.r.Assumed {
		value := quantity.Format(a.Value, a.Dim, h.s.Units)
		if a.Plain {
			value = quantity.Trim(quantity.Round(a.Value, 2))
		}
		if a.Adds && a.Dim == quantity.TemperatureDifference { // what only varies has no value; air of 0 °C is one
			value = "± " + quantity.Format(a.High, a.Dim, h.s.Units)
		}
		cells := []string{h.s.Say(a.What), value, h.source(h.s.Say(a.Source))}
		if year {
			moves := ""
			if a.MovesKWh != 0 {
				moves = "± " + kWh(math.Abs(a.MovesKWh))
			}
			cells = slices.Insert(cells, 2, moves)
		}
		g.Add(cells...)
	}
	title := "Assumed, the heaviest first"
	if !year {
		title = "Assumed"
	}
	return form.Block{Title: title, Grid: g}
}
