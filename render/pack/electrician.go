package pack

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/heat"
	"dryfit/graph/heat/job"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/settle"
	"dryfit/render/book"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// electrician is one page for the electrician: what the job draws, what is to be proved, and
// blanks where the description is silent.
func electrician(p *plan.Plan, j jobIn) book.Chapter {
	c := book.Chapter{ID: "electric", Title: "For the electrician", For: book.Electrician, NewPage: true, OnePage: true}
	out := j.saidTo(practice.Electrician, practice.Leave(), practice.TakenOut())
	if p.After == nil || j.Unit == nil && len(out) == 0 {
		return c
	}
	c.Say(electriciansOwn(j))
	g := &form.Grid{Header: []string{"what", "from the description", "found or done"}}
	add := func(what, text string) { g.Rows = append(g.Rows, []string{what, text, ""}) }
	units := p.After.Circuit.Units()
	names := tag.Of(p.Circuit, p.Net())
	for _, u := range units {
		who, start := "the unit", "At its start"
		if len(units) > 1 {
			who = names.Tag(u.ID)
			start = who + " at its start"
		}
		amps, starting, fuse := unitCurrents(p, u, j.units)
		for _, x := range []*string{&amps, &starting, &fuse} {
			*x = cmp.Or(*x, notGiven)
		}
		add("Supply of "+who, supplyWords(p.Circuit, p.After.Layout.Stage.Part(u.ID), j.units))
		add("Full load of "+who, amps)
		add(start, starting)
		add("Fuse or breaker of "+who, fuse)
	}
	for _, gone := range p.Circuit.Parts {
		if words := goneWords(p, gone, j.units); gone.Removed && words != "" {
			add(names.Short(gone.ID)+", taken out", words)
		}
	}
	if len(units) == 0 {
		add("Name, licence, date, signature", "")
		c.Add(book.Item{Kind: book.Blanks, Bookmark: currentMark, Block: form.Block{Grid: g}})
		runsTogether(&c, p, j)
		c.Add(book.Item{Kind: book.Bullets, Lines: out})
		return c
	}
	device, wanted := j.FaultProtection()
	add(device+": type and rating", wanted)
	isolators := "Isolator"
	if len(units) > 1 {
		isolators = "Isolators of " + each(units, names)
	}
	add(isolators+": where, distance from the rim", "")
	for _, e := range j.Elements {
		add(e.ID+" element heater", elementWords(e, j.PlugIn))
	}
	stopped := "the unit"
	if len(units) > 1 {
		stopped = each(units, names)
	}
	add("What stops "+stopped+" when "+j.tooHot()+", proved by", "")
	add("Bonding and earthing, proved by", strings.ToUpper(j.Earthing))
	add("Zones and distances checked", "")
	add("Name, licence, date, signature", "")
	c.Add(book.Item{Kind: book.Blanks, Bookmark: currentMark, Block: form.Block{Grid: g}})
	runsTogether(&c, p, j)
	c.Add(book.Item{Kind: book.Bullets, Lines: append(out, j.said(practice.Electricity())...)})
	return c
}

// electriciansOwn says whose decision it all is; where no unit is left there is no sheet of one.
func electriciansOwn(j jobIn) string {
	by := "the local code"
	if j.Unit != nil {
		by += " and " + j.OfUnits("the unit's", "each unit's") + " sheet"
	}
	return "All of it for the electrician's decision, by " + by + "; standards are quoted from memory. No figure here certifies anything."
}

// runsTogether says of each circuit of the supply, as it is after the work, what runs together on
// it and what it draws.
func runsTogether(c *book.Chapter, p *plan.Plan, j jobIn) {
	if p.Heat == nil {
		return
	}
	names := tag.Of(p.Circuit, p.Net())
	ofAll := saidOfAll(p.Heat.Supplies)
	for i := range p.Heat.Supplies {
		s := &p.Heat.Supplies[i]
		if len(s.Together) > 0 {
			c.Say(togetherWords(s, names))
			for _, t := range s.Says {
				if !slices.Contains(ofAll, t) {
					c.Say(quantity.Capital(noKey(t.In(j.units))) + ".")
				}
			}
		}
	}
	for _, t := range ofAll {
		c.Say("On each circuit: " + noKey(t.In(j.units)) + ".")
	}
}

// togetherWords says what a circuit of the supply carries while all of it runs that may run together,
// and what for the moment in which one of it starts: both are sums.
func togetherWords(s *job.Supply, names *tag.Names) string {
	most, starts := s.Together[0], s.GreatestStart()
	of := ""
	if fed := tag.AtSpeeds(s.Feeds, s.Part, names.Short); len(fed) > 0 {
		of = "Circuit of " + practice.And(fed) + ": "
	}
	running, starting := quantity.Current.Of(most.RunningA), quantity.Current.Of(starts.WithStart)
	switch who := practice.And(tag.AtSpeeds(most.IDs, s.Part, names.Short)); {
	case len(s.Loads) == 1:
		if of == "" {
			of = who + ": "
		}
		return fmt.Sprintf("%s%s running, %s for a moment at its start.", of, running, starting)
	case slices.Equal(most.IDs, starts.IDs) && len(most.IDs) > 1:
		return fmt.Sprintf("%s%s run together: %s in all, and %s for the moment in which one of them starts while the rest runs.", of, who, running, starting)
	default:
		verb := " run together: "
		if len(most.IDs) == 1 {
			verb = " runs: "
		}
		if len(most.IDs) == 1 && len(starts.IDs) == 1 {
			return fmt.Sprintf("%s%s%s%s. The most for a moment is %s: %s as it starts.", of, who, verb, running, starting, practice.And(tag.AtSpeeds(starts.IDs, s.Part, names.Short)))
		}
		return fmt.Sprintf("%s%s%s%s in all. The most for a moment is %s: %s, one of them starting while the rest runs.", of, who, verb, running, starting, practice.And(tag.AtSpeeds(starts.IDs, s.Part, names.Short)))
	}
}

// supplyWords is what the description says of a unit's supply: its voltage, and the rating, the
// connection and the cable of its circuit.
func supplyWords(c *graph.Circuit, unit *settle.Part, units quantity.System) string {
	var said []string
	if unit.Voltage.How == settle.Given {
		said = append(said, quantity.Voltage.Of(unit.Voltage.V).String())
	}
	if unit.Unit != nil && unit.Unit.Electric.Phases == 3 {
		said = append(said, "three phases")
	}
	s := c.SupplyOf(unit.Part)
	if s == nil {
		return strings.Join(said, ", ")
	}
	if s.RatingA.Set {
		said = append(said, "its circuit rated "+quantity.Current.Of(s.RatingA.V).String())
	}
	switch s.Connection {
	case "plug":
		said = append(said, "on a plug")
	case "fused-spur":
		said = append(said, "on a fused spur")
	}
	if k := s.Cable; k != nil {
		cable := "cable"
		if k.SectionMM2.Set {
			of := quantity.Section.Of(k.SectionMM2.V).In(units)
			if gauge := quantity.Gauge(k.SectionMM2.V); gauge != "" {
				of = gauge + " (" + of + ")"
			}
			cable += " of " + of
		}
		if k.LengthMM.Set {
			cable += ", " + quantity.Length.About(k.LengthMM.V).In(units) + " long"
		}
		said = append(said, cable)
	}
	return strings.Join(said, ", ")
}

// noKey is a sentence without the key of the description that would settle it: the electrician has no
// file to write it into.
func noKey(text string) string { return strings.Replace(text, " (continuous)", "", 1) }

// each names units: "HP1, HP2".
func each(units []*graph.Part, names *tag.Names) string {
	var out []string
	for _, u := range units {
		out = append(out, names.Tag(u.ID))
	}
	return strings.Join(out, ", ")
}

// saidOfAll is what is said in the same words of every circuit that feeds something, where there are
// several: it is said once.
func saidOfAll(supplies []job.Supply) []quantity.Text {
	var all []quantity.Text
	fed := 0
	for i := range supplies {
		s := &supplies[i]
		switch {
		case len(s.Together) == 0:
			continue
		case fed == 0:
			all = slices.Clone(s.Says)
		default:
			all = slices.DeleteFunc(all, func(t quantity.Text) bool { return !slices.Contains(s.Says, t) })
		}
		fed++
	}
	if fed < 2 {
		return nil
	}
	return all
}

// unitCurrents are what a unit draws at full load and at a start, and its fuse, each with whose
// word it is.
func unitCurrents(p *plan.Plan, unit *graph.Part, units quantity.System) (amps, starting, fuse string) {
	st := p.After.Layout.Stage.Part(unit.ID)
	var load heat.Consumer
	if p.Heat != nil {
		for _, s := range p.Heat.Supplies {
			for _, l := range s.Loads {
				if l.ID == unit.ID {
					load = l
				}
			}
		}
	}
	return currentWords(st.FullLoad, load.RunningA, "worked out from its ratings", units),
		currentWords(st.Starting, load.StartA, "assumed by what it draws running: read its sheet", units), currentWords(st.Fuse, 0, "", units)
}

// currentWords is a current of a unit with whose word it is; else what it comes to at its supply, and
// how; "" where neither is known.
func currentWords(v settle.Value, a float64, how string, units quantity.System) string {
	amps := quantity.Current.Of(v.V).In(units)
	switch {
	case v.How == settle.Given:
		return amps + " (its sheet)"
	case v.Known && v.How != settle.OwnRow:
		return "about " + amps + " (usual for its size: read its sheet)"
	case v.Known:
		return amps + " (your row " + v.Row + ")"
	case a > 0:
		return "about " + quantity.Current.Of(a).In(units) + " (" + how + ")"
	}
	return ""
}

// notGiven is what stands for a figure of a unit that the description has not: whose it is to fill in.
const notGiven = "not given: the electrician fills it in, by its plate or sheet"

// goneWords is what is known of the supply of a part that is taken out; "" where it has none.
func goneWords(p *plan.Plan, gone *graph.Part, units quantity.System) string {
	o, ok := outOf(gone, "")
	if gone.Kind != graph.HeatPump && (!ok || !o.Wired && !o.Element) {
		return ""
	}
	known := ""
	if st := settle.Of(p.Circuit.At(graph.Before)).Part(gone.ID); st != nil {
		known = currentWords(st.FullLoad, 0, "", units)
	}
	if known != "" {
		known += ": "
	}
	return known + "isolated, proved dead and its cable made safe by"
}

func elementWords(e practice.Element, plugIn bool) string {
	switch {
	case e.Disconnected && plugIn:
		return "to be disconnected and made safe, or its heating switched off at the keypad; proved by"
	case e.Disconnected:
		return "to be disconnected and made safe; proved dead by"
	case e.Interlock != "":
		return "stays, kept apart by " + keptApart(e.Interlock) + ", tried by"
	}
	return "not settled: disconnect it, or an interlock"
}

// keptApart is what keeps an element from heating against the unit, in a cell.
func keptApart(way string) string {
	switch way {
	case graph.InterlockContact:
		return "a contact of the unit"
	case graph.InterlockChangeover:
		return "a changeover"
	case graph.InterlockSetPoint:
		return "its lower set point"
	case graph.InterlockMode:
		return "a setting of the controller"
	}
	return way
}
