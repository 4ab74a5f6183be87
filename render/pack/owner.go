package pack

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/graph/retrofit"
	"dryfit/render/book"
	"dryfit/render/table"
	"dryfit/render/table/form"
	"dryfit/render/table/heating"
	"dryfit/render/tag"
)

// owner is the customer's sheet: one page in plain words.
func owner(p *plan.Plan, j jobIn, style form.Style) book.Chapter {
	c := book.Chapter{ID: "owner", Title: "For the owner", For: book.Owner, NewPage: true, OnePage: true}
	if j.Unit == nil && len(j.Out) == 0 {
		return c
	}
	lead := "A heat pump takes most of the heat for your water out of the air, and uses electricity only to move it. The pump sends the water through it and back."
	if len(j.Fellows) > 0 {
		lead = "Heat pumps take most of the heat for your water out of the air, and use electricity only to move it. The pump sends the water through them and back."
	}
	if j.Cold {
		lead = "The unit takes heat out of your water and gives it to the air outside. The pump sends the water through it and back."
	}
	if j.Unit != nil {
		c.Say(lead)
	}
	fault := p.Fault() != nil
	if fault {
		c.Add(book.Item{Kind: book.Hold, Text: "Nothing of this is built yet: the plan has a fault that is mended first. What holds then is told then."})
	}
	if done := doneForOwner(p, j); done != "" {
		c.Say(done)
	}
	gone := j.saidTo(practice.Owner, practice.TakenOut(), practice.Leave())
	c.Say(gone...)
	if !fault {
		c.Say(table.PlainLines(p, style, "")...)
	}
	if p.Heat != nil && !fault {
		for _, l := range heating.ForOwner(p.Heat, p.Circuit.Job, tag.Of(p.Circuit, p.Net()), style) {
			c.Say(tag.Of(p.Circuit, p.Net()).Text(quantity.Capital(l) + "."))
		}
	}
	c.Add(book.Item{Kind: book.Heading, Bookmark: neverMark, Text: "The valves"})
	c.Say(valvesForOwner(p, j)...)
	c.Add(book.Item{Kind: book.Heading, Text: "What to look at each month"})
	c.Add(book.Item{Kind: book.Bullets, Lines: monthly(j)})
	c.Add(book.Item{Kind: book.Heading, Text: restOf(j)})
	seen := map[quantity.Text]bool{}
	for _, s := range practice.Pick(j.Job, slices.Concat(practice.Controller(), practice.Frost(), practice.HandOver())) {
		if s.For&practice.Owner != 0 && !seen[s.Text] {
			seen[s.Text] = true
			c.Say(j.say(s.Text))
		}
	}
	call := [][]string{{"the fitter", ""}, {"the electrician", ""}}
	if j.Unit != nil {
		call = append(call, []string{j.OfUnits("the heat pump's maker or dealer", "the maker or dealer of each heat pump"), ""})
	}
	for i := range c.Items {
		c.Items[i].Text = table.ForOwner(c.Items[i].Text)
		for k, l := range c.Items[i].Lines {
			c.Items[i].Lines[k] = table.ForOwner(l)
		}
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: &form.Grid{Header: []string{"whom to call", "name and telephone"}, Rows: call}}})
	return c
}

// restOf heads what is left to tell an owner, by what that is of.
func restOf(j jobIn) string {
	switch {
	case j.Unit == nil:
		return "The first weeks"
	case j.MayFreeze():
		return "Winter, power cuts and the water"
	}
	return "What else to know"
}

// doneForOwner says what the work is, in words anybody follows; "" where none comes.
func doneForOwner(p *plan.Plan, j jobIn) string {
	if j.Unit == nil || joints(p) == 0 || p.WhyNot() != "" {
		return ""
	}
	names := tag.Of(p.Circuit, p.Net())
	where := "your tub's pipework"
	between := func(m *retrofit.Marking) string {
		if r := p.Circuit.Run(m.Run); r != nil {
			return "the " + r.Spec.Word() + " between " + names.The(r.From.Part) + " and " + names.The(r.To.Part)
		}
		return where
	}
	parted := true // by this work: a second unit may share the valve that stands
	if p.Proposal != nil {
		where = between(&p.Proposal.Marking)
		if second := p.Proposal.SecondMarking; second != nil {
			where += ", and to " + between(second)
		}
		parted = p.Proposal.Element != ""
	}
	text := "What is done: two new pipes join " + joined(j) + " to " + where
	pastIt, need := j.OfUnits("the heat pump", "it"), "it does"
	if _, many := j.SetDown(); many {
		pastIt, need = "them", "they do"
	}
	switch {
	case !parted:
	case len(j.Bypass) > 0 && j.Check == "":
		text += ", with a valve between them by which the rest of the water goes on past " + pastIt
	case j.Check != "":
		text += ", with a valve between them that opens by itself and lets past what " + need + " not need"
	}
	return text + "."
}

// joined names the heat pumps this work joins.
func joined(j jobIn) string {
	if called, many := j.SetDown(); many {
		return "heat pumps " + j.say(called)
	}
	return j.OfUnits("the heat pump", "heat pump "+j.Unit.ID)
}

// valvesForOwner says how the valves stand in use and which must never be shut.
func valvesForOwner(p *plan.Plan, j jobIn) []string {
	s := valveSchedule(p, j)
	if len(s.Rows) == 0 {
		return []string{"There is no valve for you to touch."}
	}
	var stand []string
	for i, v := range s.Valves {
		at := s.Rows[0].Positions[i]
		if at == itself {
			continue
		}
		if strings.HasPrefix(at, "set ") {
			at = "where the fitter set and marked it"
		}
		stand = append(stand, v+place(v, s.Roles[i], j)+" "+at)
	}
	out := []string{"Each valve carries a label with its number. In use they stand so, and stay so: " + strings.Join(stand, ", ") + "."}
	out = append(out, neverForOwner(j)...)
	if len(j.Suctions) > 0 {
		out = append(out, "Never shut "+practice.OneOf(j.Suctions)+" while a pump can start: a pump without water breaks, and the pull goes to the other opening in the tub.")
	}
	return out
}

// place says in brackets where a valve stands or what it is for.
func place(v, role string, j jobIn) string {
	switch {
	case role != "":
		return " (" + role + ")"
	case slices.Contains(j.Drains, v):
		return " (a drain)"
	case slices.Contains(j.Bleeds, v):
		return " (lets air out)"
	case slices.Contains(j.Suctions, v):
		return " (before the pump)"
	}
	return ""
}

// neverForOwner says which valves of the units an owner never shuts, and when.
func neverForOwner(j jobIn) []string {
	on := j.Isolators()
	if len(on) == 0 {
		return nil
	}
	text := fmt.Sprintf("Never shut %s while %s is switched on: without water it switches itself off", practice.OneOf(on), j.OfUnits("the heat pump", "a heat pump"))
	if j.HeatsAlone() {
		text += ", and nothing heats your water"
	}
	out := []string{text + "."}
	for _, w := range waysPast(j) {
		out = append(out, fmt.Sprintf("Never shut %s while %s is shut and the pump can start: the water would have no way.", practice.OneOf(w.Past), practice.OneOf(w.Isolators)))
	}
	return out
}

// waysPast are the ways past the units that a hand can shut, each with what must then stay open.
func waysPast(j jobIn) []practice.Way {
	var out []practice.Way
	for _, w := range j.Ways {
		w.Past = slices.DeleteFunc(slices.Clone(w.Past), func(v string) bool { return slices.Contains(j.Beside, v) })
		if len(w.Past) == 0 || len(w.Isolators) == 0 {
			continue
		}
		i := slices.IndexFunc(out, func(o practice.Way) bool { return slices.Equal(o.Past, w.Past) })
		if i < 0 {
			out = append(out, w)
			continue
		}
		both := practice.ByNumber(slices.Concat(out[i].Isolators, w.Isolators)) // units that share one way past them
		out[i].Isolators = slices.Compact(both)
	}
	return out
}

// monthly is what an owner can see for himself. Common practice, no source.
func monthly(j jobIn) []string {
	takes := j.OfUnits("the heat pump's water", "the heat pumps' water")
	filter := "Clean the filter: a dirty one takes " + takes + " first."
	switch j.Filter {
	case "sand":
		filter = "Backwash and rinse the sand filter, the pump off whenever its valve is turned: a dirty one takes " + takes + " first."
	case "":
		filter = "Clean the filter, where there is one: a dirty one takes " + takes + " first."
	}
	look := "Look under the cabinet"
	switch {
	case j.PlugIn:
		look = "Look round the tub and under its box"
	case j.NoCabinet:
		look = "Look round the pump and the filter"
	}
	drips := look + " and at the heat pump's joints for drips."
	if j.Unit == nil {
		filter, _, _ = strings.Cut(filter, ": a dirty one")
		filter, drips = strings.TrimSuffix(filter, ".")+".", look+" for drips."
	}
	const water = "Test the water: free chlorine and pH as the tub's maker says."
	out := []string{filter, drips}
	if len(j.Fellows) > 0 {
		return append(out[:1], look+" and at the joints of each heat pump for drips.",
			"Keep leaves and snow away from the air of each heat pump, and its drip of clean water free to run off.",
			"Write down what each display says of water in and out, and any message.", water)
	}
	if j.Unit != nil {
		out = append(out, "Keep leaves and snow away from the heat pump's air, and its drip of clean water free to run off.",
			"Write down what its display says of water in and out, and any message.")
	}
	return append(out, water)
}
