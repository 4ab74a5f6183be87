package quote

import (
	"cmp"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/spread"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/book"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/tag"
)

// Wants says what a plan must hold for an offer.
func Wants() plan.Want { return plan.Findings | plan.Flows | plan.Ranges | plan.Lists | plan.Heat }

// Offer makes the offer of a job; against is a second choice beside it, or nil.
func Offer(p, against *plan.Plan, units quantity.System) *book.Book {
	b := &book.Book{Kind: "offer", Bare: true, Job: p.Circuit.Titled(), File: filepath.Base(p.Circuit.File)}
	b.Job.Notes = nil
	style := form.Style{Units: units, Whole: true}
	b.Chapters = []book.Chapter{done(p, style), first(p, units), price(p, against, units), agreed(p)}
	return b
}

// done says in plain words what the customer gets.
func done(p *plan.Plan, style form.Style) book.Chapter {
	c := book.Chapter{ID: "done", Title: "Offer: what is done", For: book.Owner}
	c.Say(work(p, style)...)
	c.Say(table.PlainLines(p, style, "")...)
	if p.Heat != nil {
		for _, l := range heating.ForOwner(p.Heat, p.Circuit.Job, tag.Of(p.Circuit, p.Net()), style) {
			c.Say(table.ForOwner(tag.Of(p.Circuit, p.Net()).Text(quantity.Capital(l) + ".")))
		}
	}
	return c
}

// work tells the new work as one would over the fence.
func work(p *plan.Plan, style form.Style) []string {
	if p.After == nil {
		return nil
	}
	c := p.After.Circuit
	var out []string
	out = append(out, fitted(p)...)
	pipe := 0.0
	for _, piece := range p.After.Layout.Pieces {
		pipe += piece.CutMM
	}
	out = append(out, taken(p.Circuit)...)
	if pipe > 0 {
		pieces := fmt.Sprintf("%d pieces", len(p.After.Layout.Pieces))
		if len(p.After.Layout.Pieces) == 1 {
			pieces = "one piece"
		}
		out = append(out, fmt.Sprintf("About %s of new pipe in %s%s.", quantity.Length.About(100*math.Round(pipe/100)).In(style.Units), pieces, alongside(p)))
	}
	net := p.After.Layout.Stage.Net()
	for _, e := range c.OfKind(graph.ElementHeater) {
		switch {
		case e.Element == nil || net.Apart(e): // that of another water is no part of this offer
		case e.Element.Disconnected:
			out = append(out, "A qualified electrician disconnects the old element heater and makes it safe.")
		case e.Element.Interlock != "":
			out = append(out, "The old element heater stays as a help, kept apart from the heat pump; a qualified electrician does that.")
		}
	}
	if comes(p) {
		out = append(out, "A qualified electrician makes the supply of "+each(p)+".")
	}
	return append(out, "The work is tested cold, running and hot, and handed over with its papers.")
}

// comes reports whether a heat pump is new.
func comes(p *plan.Plan) bool {
	return p.After != nil && slices.ContainsFunc(p.After.Circuit.Units(), (*graph.Part).New)
}

// taken tells which machines are taken out.
func taken(c *graph.Circuit) []string {
	count := map[string]int{}
	var words []string
	wired := false
	for _, p := range c.Parts {
		if !p.Removed {
			continue
		}
		switch p.Kind {
		case graph.HeatPump, graph.ElementHeater, graph.Pump, graph.Blower, graph.SaltCell, graph.UVChamber, graph.OzoneInjector:
			wired = true
		case graph.Filter, graph.Feeder, graph.HeatExchanger:
		default:
			continue
		}
		word := p.Kind.Word()
		if count[word]++; count[word] == 1 {
			words = append(words, word)
		}
	}
	for i, w := range words {
		if words[i] = "the old " + w; count[w] > 1 {
			words[i] = fmt.Sprintf("the %d old %ss", count[w], w)
		}
	}
	if len(words) == 0 {
		return nil
	}
	line := quantity.Capital(quantity.Listed(words, "and"))
	if len(words) > 1 || count[strings.TrimPrefix(words[0], "the old ")] == 0 {
		line += " are"
	} else {
		line += " is"
	}
	line += " taken out, and the pipe is made good."
	if wired {
		line += " A qualified electrician disconnects what is taken out and makes its cable safe."
	}
	return []string{line}
}

// alongside is what comes with the new pipe, as far as the order has it.
func alongside(p *plan.Plan) string {
	valves, clips, insulation := false, false, false
	for _, l := range takeoff.NewOrder(p.Bill).Lines {
		switch {
		case l.Item.Kind == "insulation":
			insulation = true
		case strings.HasSuffix(l.Item.Kind, "-valve") || l.Item.Kind == "union":
			valves = true
		case strings.HasSuffix(l.Item.Kind, "clip") || l.Item.Kind == "valve-support":
			clips = true
		}
	}
	var with []string
	for _, x := range []struct {
		is   bool
		what string
	}{{valves, "its valves and unions"}, {clips, "its supports"}, {insulation, "insulation"}} {
		if x.is {
			with = append(with, x.what)
		}
	}
	if len(with) == 0 {
		return ""
	}
	return ", with " + quantity.Listed(with, "and")
}

// unmeasured says of something nobody has measured how much hangs on it, for a customer.
func unmeasured(p *plan.Plan, m spread.Influence) string {
	names := tag.Of(p.Circuit, p.Net())
	moves := m.Moves.Of("the heat pump")
	if m.UnitID != "" {
		moves = m.Moves.Of(names.Short(m.UnitID))
	}
	if m.Part != "" && p.Circuit.Part(m.Part) != nil {
		return fmt.Sprintf("%s: nobody has measured what it does to the water, and that moves %s by up to %.0f %%.", names.Short(m.Part), moves, 100*m.Effect)
	}
	return fmt.Sprintf("%s: nobody has measured it, and it moves %s by up to %.0f %%.", quantity.Capital(names.Text(m.Said())), moves, 100*m.Effect)
}

// each is the heat pump that comes, or each of them.
func each(p *plan.Plan) string {
	n := 0
	for _, u := range p.After.Circuit.Units() {
		if u.New() {
			n++
		}
	}
	if n > 1 {
		return "each heat pump"
	}
	return "the heat pump"
}

// fitted tells of the heat pumps that come: how many, and what the way past them is there for.
func fitted(p *plan.Plan) []string {
	net := p.After.Layout.Stage.Net()
	var come []*graph.Part
	jets, past, stayed := false, true, 0
	for _, u := range p.After.Circuit.Units() {
		if u.Existing {
			stayed++
			continue
		}
		come = append(come, u)
		b, _ := net.UnitBranch(u)
		if b == nil || b.TeeIn == nil {
			past = false
			continue
		}
		jets = jets || b.Pump != nil && net.Downstream(b.Pump).First(graph.JetGroup) != nil
	}
	if len(come) == 0 {
		return nil
	}
	what, is, it := "A heat pump", "is", "it"
	switch {
	case len(come) > 1:
		what, is, it = fmt.Sprintf("%d heat pumps", len(come)), "are", "each"
	case stayed > 0:
		what = "Another heat pump"
	}
	if u := come[0]; len(come) == 1 && u.Type != "" {
		what += " (" + u.Type + ")"
	}
	line := what + " " + is + " fitted to the pipework that is there"
	switch {
	case past && jets:
		line += ", with a way past it, so that the jets keep their water and " + it + " can be shut off and taken out"
	case past:
		line += ", with a way past it, so that " + it + " can be shut off and taken out while the water goes on"
	}
	if len(come) > 1 {
		line = strings.Replace(line, "a way past it", "a way past them", 1)
	}
	return []string{line + "."}
}

// first is what has to be seen on the spot before the price holds.
func first(p *plan.Plan, units quantity.System) book.Chapter {
	c := book.Chapter{ID: "first", Title: "What has to be seen first", For: book.Owner}
	var lines []string
	for _, d := range graph.Errors(p.Findings) {
		lines = append(lines, "This cannot be built as described: "+tag.Of(p.Circuit, p.Net()).Text(d.Message.In(units)))
	}
	if r := p.Ranges; r != nil {
		said := map[string]bool{}
		for _, m := range r.MeasureFirst {
			if len(said) == 2 {
				break
			}
			if said[cmp.Or(m.Part, m.What)] {
				continue
			}
			said[cmp.Or(m.Part, m.What)] = true
			lines = append(lines, unmeasured(p, m))
		}
	}
	starred := 0
	if p.Bill != nil {
		for _, it := range p.Bill.Items {
			if it.New && it.Measure {
				starred++
			}
		}
	}
	switch {
	case starred == 1:
		lines = append(lines, "One kind of part is measured in the hand before pipe is cut.")
	case starred > 1:
		lines = append(lines, fmt.Sprintf("%d kinds of parts are measured in the hand before pipe is cut.", starred))
	}
	if comes(p) {
		lines = append(lines, "The place where "+each(p)+" stands, its way for condensate, and the electrician's look at the supply.")
	}
	c.Add(book.Item{Kind: book.Bullets, Lines: lines})
	return c
}

// price is the sum, of one choice or of two side by side.
func price(p, against *plan.Plan, units quantity.System) book.Chapter {
	c := book.Chapter{ID: "price", Title: "The price", For: book.Owner}
	choices := []*plan.Plan{p}
	names := []string{"sum"}
	if against != nil {
		choices = append(choices, against)
		names = choiceNames(p.Circuit, against.Circuit)
	}
	heads := make([]string, len(choices))
	for i, one := range choices {
		heads[i] = names[i]
		if cur := one.Circuit.Job.Currency; cur != "" && against != nil {
			heads[i] += ", " + cur
		} else if cur != "" {
			heads[i] += " " + cur
		}
	}
	prices := make([]Price, len(choices))
	for i, one := range choices {
		prices[i] = PriceOf(one)
	}
	year := func(Price) string { return "" }
	if against != nil {
		year = yearOf(choices)
	}
	c.Tables(form.Block{Grid: priceGrid(prices, heads, year)})
	for i, one := range prices {
		if len(one.Missing) == 0 {
			continue
		}
		of := ""
		if against != nil {
			of = " in " + names[i]
		}
		c.Say(fmt.Sprintf("Not in the price%s, as nobody gave one:", of))
		c.Add(book.Item{Kind: book.Bullets, Lines: quantity.Worded(one.Missing, units)})
	}
	for i, one := range prices {
		if one.Spares.IsPositive() {
			of := ""
			if against != nil {
				of = " of " + names[i]
			}
			c.Say(fmt.Sprintf("In the material%s are spares for %s, before margin and tax: parts to have at hand, for a cut or a joint that goes wrong.", of, one.Spares.StringFixed(2)))
		}
	}
	if !prices[0].TaxSaid {
		c.Say("Tax is not said: the price is without it.")
	}
	return c
}

// choiceNames names two choices: as their jobs are called, and where both are called the same by
// their files too, for one has to be told from the other.
func choiceNames(a, b *graph.Circuit) []string {
	if a.Job.Name != b.Job.Name {
		return []string{a.Job.Name, b.Job.Name}
	}
	return []string{"choice 1, " + filepath.Base(a.File), "choice 2, " + filepath.Base(b.File)}
}

// priceGrid sets the sums of the choices side by side, those lines alone that say something;
// year is what a year of each takes.
func priceGrid(prices []Price, names []string, year func(Price) string) *form.Grid {
	g := &form.Grid{Header: append([]string{"what"}, names...), Right: []bool{false, true, true}}
	row := func(what string, of func(Price) string) {
		cells := []string{what}
		some := false
		for _, one := range prices {
			text := of(one)
			some = some || text != ""
			cells = append(cells, text)
		}
		if some {
			g.Rows = append(g.Rows, cells)
		}
	}
	seen := map[string]bool{}
	for _, one := range prices {
		for _, group := range one.Groups {
			if seen[group.Name] {
				continue
			}
			seen[group.Name] = true
			row(group.Name, func(x Price) string {
				for _, y := range x.Groups {
					if y.Name == group.Name {
						return y.words()
					}
				}
				return ""
			})
		}
	}
	row("labour", func(x Price) string {
		if x.Labour.Valid {
			return x.Labour.Decimal.StringFixed(2)
		}
		return notPriced
	})
	row("margin", func(x Price) string { return unlessZero(x.Margin) })
	row("tax", func(x Price) string { return unlessZero(x.Tax) })
	row("together", func(x Price) string {
		switch {
		case len(x.Missing) == 0:
			return x.Total.StringFixed(2)
		case x.Total.IsZero():
			return notPriced
		}
		return x.Total.StringFixed(2) + ", of what has a price"
	})
	row("a year's electricity, kWh", year)
	return g
}

// yearOf returns what each choice takes a year, in turn.
func yearOf(choices []*plan.Plan) func(Price) string {
	i := -1
	return func(Price) string {
		i++
		if h := choices[i].Heat; h != nil && h.Year != nil && h.Year.Planned != nil {
			return fmt.Sprintf("%.0f", h.Year.PlannedKWh.Likely)
		}
		return ""
	}
}

func unlessZero(d decimal.Decimal) string {
	if d.IsZero() {
		return ""
	}
	return d.StringFixed(2)
}

// agreed are the blanks of names and dates.
func agreed(p *plan.Plan) book.Chapter {
	c := book.Chapter{ID: "agreed", Title: "Agreed", For: book.Owner}
	c.Say("Local codes and the makers' instructions come before this offer; electrical and refrigerant work is for licensed trades. What is found once the work is begun may change the price; it is told before it is done.")
	date := p.Circuit.Job.Date
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: &form.Grid{Header: []string{"what", "written by hand"}, Rows: [][]string{
		{strings.TrimSpace("offer made "+date) + ", holds until", ""}, {"customer: name, address, telephone", ""}, {"fitter: name, firm", ""}, {"customer's signature, date", ""}, {"fitter's signature, date", ""},
	}}}})
	return c
}
