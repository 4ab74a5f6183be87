package pack

import (
	"fmt"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph/plan"
	"dryfit/graph/practice"
	"dryfit/render/book"
	"dryfit/render/table"
)

// plainLines says of each mode, in sentences anybody follows, what the unit gets, what it
// needs and what the jets lose.
func plainLines(p *plan.Plan, style table.Style) []string {
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

// owner is the customer's sheet: one page in plain words.
func owner(p *plan.Plan, j jobIn, style table.Style) book.Chapter {
	c := book.Chapter{ID: "owner", Title: "For the owner", For: book.Owner, NewPage: true}
	if j.Unit == nil {
		return c
	}
	c.Say("A heat pump takes most of the heat for your tub out of the air, and uses electricity only to move it. Its water comes from the pipe that heats your tub anyway.")
	for _, l := range plainLines(p, style) {
		c.Say(l)
	}
	if p.Heat != nil {
		for _, l := range table.HeatShort(p.Heat, p.Circuit.Job, style) {
			c.Say(capital(l) + ".")
		}
	}
	c.Add(book.Item{Kind: book.Heading, Text: "The valves"})
	c.Say(valvesForOwner(p, j)...)
	c.Add(book.Item{Kind: book.Heading, Text: "What to look at each month"})
	c.Add(book.Item{Kind: book.Bullets, Lines: monthly(j)})
	c.Add(book.Item{Kind: book.Heading, Text: "Winter, power cuts and the water"})
	seen := map[quantity.Text]bool{}
	for _, s := range practice.Pick(j.Job, slices.Concat(practice.Controller(), practice.Frost(), practice.HandOver())) {
		if s.For&practice.Owner != 0 && !seen[s.Text] {
			seen[s.Text] = true
			c.Say(j.say(s.Text))
		}
	}
	c.Add(book.Item{Kind: book.Blanks, Block: table.Block{Grid: &table.Grid{Header: []string{"whom to call", "name and telephone"},
		Rows: [][]string{{"the fitter", ""}, {"the electrician", ""}, {"the unit's maker or dealer", ""}}}}})
	return c
}

// valvesForOwner says how the valves stand in use and which must never be shut.
func valvesForOwner(p *plan.Plan, j jobIn) []string {
	s := valveSchedule(p, j)
	if len(s.Rows) == 0 {
		return []string{"There is no valve for you to touch."}
	}
	var stand []string
	for i, v := range s.Valves {
		switch at := s.Rows[0].Positions[i]; at {
		case itself:
		default:
			stand = append(stand, v+" "+at)
		}
	}
	out := []string{"In use the valves stand so, and stay so: " + strings.Join(stand, ", ") + "."}
	if len(j.Suctions) > 0 {
		out = append(out, "Never shut "+strings.Join(j.Suctions, ", ")+": a pump without water breaks, and the pull goes to the other opening in the tub.")
	}
	return out
}

// monthly is what an owner can see for himself. Common practice, no source.
func monthly(j jobIn) []string {
	out := []string{"Clean the filter: a dirty one takes the heat pump's water first.", "Look under the cabinet and at the heat pump's joints for drips."}
	if j.Unit != nil {
		out = append(out, "Keep leaves and snow away from the heat pump's air, and its drip of clean water free to run off.",
			"Write down what its display says of water in and out, and any message.")
	}
	return append(out, "Test the water: free chlorine and pH as the tub's maker says.")
}
