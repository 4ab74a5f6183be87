package pack

import (
	"strconv"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan"
	"dryfit/graph/retrofit"
	"dryfit/render/book"
	"dryfit/render/drawing"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// asBuilt is the sheet on which is written what was done otherwise, each line with the key it is
// typed back under.
func asBuilt(p *plan.Plan, style form.Style) book.Chapter {
	c := book.Chapter{ID: "as-built", Title: "As built", For: book.Fitter, NewPage: true}
	if p.After == nil || joints(p) == 0 || p.RuledOut() != nil {
		return c
	}
	whole := "dryfit cutin description.toml --write-plan as-built.toml makes the whole description of what lies in this folder; type each line into it under its key"
	if p.Asked.Retrofit == nil {
		whole = "type each line into the description under its key"
	}
	c.Say("Write down only what is otherwise than planned. At the desk: " + whole + ", raise [job] revision, and pack it again with --since: the new pack is what stands at the tub.")
	g := &form.Grid{Header: []string{"what", "key", "planned", "as built"}, Widest: []int{26, 30, 44, 0}}
	add := func(what, key, planned string) { g.Rows = append(g.Rows, []string{what, key, planned, ""}) }
	names := tag.Of(p.Circuit, p.Net())
	for _, cut := range cutRuns(p) {
		what := "cut " + cut.first + ", planned " + quantity.Format(cut.at, quantity.Length, style.Units) + " from the " + names.Text(cut.from)
		for _, r := range p.After.Circuit.Runs { // what is left of the old pipe, up to either tee
			if r.RemainsOf != cut.run {
				continue
			}
			add(what, "run "+r.ID+", legs", legsWords(r, style.Units))
			add("old "+r.Spec.Word()+" there", "run "+r.ID+", measured-outside-diameter", "")
			what = "old " + r.Spec.Word() + " behind cut " + cut.second
		}
	}
	for _, r := range p.After.Circuit.Runs {
		if r.New() && len(r.Legs) > 0 {
			add(r.Spec.Word()+" "+names.Run(r.ID), "run "+r.ID+", legs", legsWords(r, style.Units))
		}
	}
	for _, part := range p.After.Circuit.Parts {
		switch {
		case !part.New():
		case part.Kind == graph.CheckValve && p.After.Layout.Stage.Part(part.ID).IsSwing(): // it has no spring to read
		case part.Kind == graph.CheckValve:
			label := ""
			if pa := p.After.Layout.Stage.Part(part.ID).Cracking.V; pa > 0 {
				label = quantity.Format(pa, quantity.Pressure, style.Units)
			}
			add(names.Short(part.ID), "part "+part.ID+", cracking", label)
		case part.Kind.IsHandValve():
			if part.Valve != nil && part.Valve.Kv > 0 { // what it passes was worked out: where it stands now is told instead
				add(names.Short(part.ID), "part "+part.ID+", position (quarter turn: 100 %) in place of kv", strings.ToLower(drawing.Hand(p, part)))
				continue
			}
			at := tag.Position(part)
			if o := part.Opening(); o > 0 && o < 1 { // as the key takes it
				at = quantity.Exact(float64(o), quantity.Share)
			}
			add(names.Short(part.ID), "part "+part.ID+", position", at)
		case part.Kind == graph.HeatPump:
			set := ""
			if u := part.Unit; u != nil && u.SetPointSet {
				set = quantity.Format(u.SetPointC, quantity.Temperature, style.Units)
			}
			add(names.Short(part.ID), "part "+part.ID+", set-point", set)
			add(names.Short(part.ID), "part "+part.ID+", port.out.at", "")
		}
	}
	for range 4 {
		add("", "", "")
	}
	c.Add(book.Item{Kind: book.Blanks, Block: form.Block{Grid: g}})
	return c
}

// legsWords are the legs of a run as they are written into a description.
func legsWords(r *graph.Run, units quantity.System) string {
	var legs []string
	for _, l := range r.Legs {
		legs = append(legs, legWords(l, units))
	}
	return strings.Join(legs, ", ")
}

// legWords is a leg as it is written into a description, to what a tape shows: "right 450 mm".
func legWords(l graph.Leg, units quantity.System) string {
	var out []string
	for _, c := range l.By.Components() {
		if c.By >= 0.5 {
			out = append(out, c.Word+" "+quantity.Format(c.By, quantity.Length, units))
		}
	}
	return strings.Join(out, " ")
}

// cutRun is a run with its cuts, as they are named: one, or a pair.
type cutRun struct {
	run, from     string
	at            float64
	first, second string
}

// cutRuns lists the runs that are cut: of the proposal, else of the work the description draws or
// where a unit comes out.
func cutRuns(p *plan.Plan) []cutRun {
	var out []cutRun
	if p.Proposal == nil || p.Proposal.Marking.Run == "" {
		for _, c := range drawing.Sawn(p) {
			if n := len(out); n > 0 && out[n-1].run == c.Run {
				out[n-1].second = c.Name
				continue
			}
			out = append(out, cutRun{run: c.Run, from: c.From, at: c.FromMM, first: c.Name})
		}
		return out
	}
	for _, m := range []*retrofit.Marking{&p.Proposal.Marking, p.Proposal.SecondMarking} {
		if m != nil && m.Run != "" {
			n := 2 * len(out)
			out = append(out, cutRun{m.Run, m.From, m.FirstMM, "X" + strconv.Itoa(n+1), "X" + strconv.Itoa(n+2)})
		}
	}
	return out
}
