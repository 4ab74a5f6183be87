package lists

import (
	"fmt"
	"math"
	"slices"

	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
	"dryfit/render/table/form"
	"dryfit/render/tag"
)

// HeadJSON is what the head of a running pump goes into, as JSON prints it; heads in m.
type HeadJSON struct {
	Pump  string        `json:"pump"`
	Path  string        `json:"path"`
	Rows  []headRowJSON `json:"rows"`
	Total float64       `json:"total_m"`
}

type headRowJSON struct {
	What string  `json:"what"`
	Head float64 `json:"head_m"`
}

// Heads lists the heads of all running pumps of a mode.
func Heads(sol *hydraulic.Solution) []HeadJSON {
	out := []HeadJSON{}
	for _, t := range takeoff.HeadTables(sol) {
		one := HeadJSON{Pump: t.Pump, Path: t.Path, Rows: []headRowJSON{}, Total: form.Round(t.TotalM, 4)}
		for _, r := range t.Rows {
			one.Rows = append(one.Rows, headRowJSON{r.What, form.Round(r.HeadM, 4)})
		}
		out = append(out, one)
	}
	return out
}

// HeadBlocks says what the head of every running pump goes into. Titles call the mode by its words
// among names; nil: as the file does.
func HeadBlocks(sol *hydraulic.Solution, names *tag.Names, s form.Style) []form.Block {
	var out []form.Block
	in := "in mode " + sol.Mode.Name
	if names != nil {
		in = names.Mode(sol.Mode.Name)
	}
	for _, t := range takeoff.HeadTables(sol) {
		if t.PumpM == 0 {
			continue
		}
		pump := t.Pump
		if names != nil {
			pump = names.Short(pump)
		}
		b := form.Block{Title: fmt.Sprintf("Total dynamic head of %s %s: %s", pump, in, s.Head(t.TotalM)),
			Grid:  form.NewGrid(form.Column{Head: "goes into"}, form.Column{Head: "head", Right: true}, form.Column{Head: "share", Right: true}),
			Lines: []string{"along " + t.Path}}
		for _, r := range t.Rows {
			b.Grid.Add(r.What, s.Head(r.HeadM), form.Fixed(100*r.HeadM/t.PumpM, 0)+" %")
		}
		out = append(out, b)
	}
	return out
}

type atModeJSON struct {
	Mode   string      `json:"mode"`
	Stage  string      `json:"stage"`
	Totals []totalJSON `json:"runs"`
	Total  *float64    `json:"total_m,omitempty"`
	Why    string      `json:"total_why,omitempty"` // there is no total that means something
}

type tdhJSON struct {
	Mode  string     `json:"mode"`
	Stage string     `json:"stage"`
	Pumps []HeadJSON `json:"pumps"`
}

// PartsJSON prints the bill, the equivalent lengths (of the handbook, and at the flow of
// every mode) and the total dynamic heads.
func PartsJSON(p *plan.Plan, _ form.Style) ([]byte, error) {
	out := struct {
		Items  []itemJSON   `json:"items"`
		Method string       `json:"method"`
		Totals []totalJSON  `json:"totals"`
		Total  *float64     `json:"total_equivalent_length_m,omitempty"`
		Why    string       `json:"total_equivalent_length_why,omitempty"` // there is none that means something
		AtMode []atModeJSON `json:"equivalent_length_at"`
		Heads  []tdhJSON    `json:"total_dynamic_head_m"`
	}{items(p.Bill), p.Bill.Method, totals(p.Bill.Totals), equivalentTotal(p.Bill.TotalEquivalentLengthM), noEquivalent(p.Bill.TotalEquivalentLengthM), []atModeJSON{}, []tdhJSON{}}
	if p.After != nil {
		for i := range p.After.Solutions {
			sol := &p.After.Solutions[i]
			at := takeoff.EquivalentAt(p.After.Layout, sol)
			out.AtMode = append(out.AtMode, atModeJSON{sol.Mode.Name, string(sol.Stage), totals(at.Totals), equivalentTotal(at.TotalM), noEquivalent(at.TotalM)})
			out.Heads = append(out.Heads, tdhJSON{sol.Mode.Name, string(sol.Stage), Heads(sol)})
		}
	}
	return form.WriteJSON(out)
}

// longestEquivalent is the longest equivalent length that is printed, m: of a longer one no more is
// known than that what stands in the pipe costs far more than it, as a valve nearly shut does.
const longestEquivalent = 1000

// noEquivalent says why an equivalent length in m means nothing; "" where it does.
func noEquivalent(m float64) string {
	switch {
	case math.IsNaN(m):
		return "its pipe loses nothing"
	case m > longestEquivalent:
		return "what stands in it costs far more than pipe of any length here would"
	case m < 0:
		return "its tee gives head back"
	}
	return ""
}

// equivalentTotal is an equivalent length in m as JSON has it; nil where it means nothing.
func equivalentTotal(m float64) *float64 {
	if noEquivalent(m) != "" {
		return nil
	}
	return form.Ptr(form.Round(m, 3))
}

// fittingsLength prints an equivalent length, or a word where there is none that means something;
// noLengths says below the table why.
func fittingsLength(s form.Style, m float64) string {
	switch {
	case noEquivalent(m) == "":
		return s.PipeLength(m)
	case m > longestEquivalent:
		return "no length"
	case m < 0:
		return "below 0"
	}
	return "no loss"
}

// noLengths says why there are no equivalent lengths that mean something, where a table says so.
func noLengths(g *form.Grid) []string {
	var out []string
	for _, c := range []struct {
		word string
		of   float64
	}{{"no length", longestEquivalent + 1}, {"below 0", -1}, {"no loss", math.NaN()}} {
		if slices.ContainsFunc(g.Rows, func(row []string) bool { return slices.Contains(row, c.word) }) {
			out = append(out, c.word+": "+noEquivalent(c.of))
		}
	}
	return out
}

// equivalentGrid lists the equivalent lengths of the handbook and at the flow of every mode.
func equivalentGrid(p *plan.Plan, names *tag.Names, s form.Style) *form.Grid {
	columns := []form.Column{{Head: "run"}, {Head: "pipe", Right: true}, {Head: "fittings (handbook)", Right: true}, {Head: "together", Right: true}}
	var at []map[string]takeoff.Total
	if p.After != nil {
		for i := range p.After.Solutions {
			sol := &p.After.Solutions[i]
			by := map[string]takeoff.Total{}
			for _, t := range takeoff.EquivalentAt(p.After.Layout, sol).Totals {
				by[t.Name] = t
			}
			at = append(at, by)
			in := sol.Mode.Name
			if names != nil {
				in = names.Mode(in)
			}
			columns = append(columns, form.Column{Head: "fittings, " + in, Right: true})
		}
	}
	g := form.NewGrid(columns...)
	for _, t := range p.Bill.Totals {
		row := []string{t.Name, s.PipeLength(t.PipeM), fittingsLength(s, t.FittingsM), "-"}
		if noEquivalent(t.FittingsM) == "" {
			row[3] = s.PipeLength(t.PipeM + t.FittingsM)
		}
		for _, by := range at {
			text := "-"
			if one, ok := by[t.Name]; ok {
				text = fittingsLength(s, one.FittingsM)
			}
			row = append(row, text)
		}
		g.Add(row...)
	}
	return g
}
