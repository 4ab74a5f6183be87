package table

import (
	"fmt"
	"math"

	"dryfit/graph/hydraulic"
	"dryfit/graph/plan"
	"dryfit/graph/takeoff"
)

type headJSON struct {
	Pump  string        `json:"pump"`
	Path  string        `json:"path"`
	Rows  []headRowJSON `json:"rows"`
	Total float64       `json:"total_m"`
}

type headRowJSON struct {
	What string  `json:"what"`
	Head float64 `json:"head_m"`
}

func heads(sol *hydraulic.Solution) []headJSON {
	out := []headJSON{}
	for _, t := range takeoff.HeadTables(sol) {
		one := headJSON{Pump: t.Pump, Path: t.Path, Rows: []headRowJSON{}, Total: round(t.TotalM, 4)}
		for _, r := range t.Rows {
			one.Rows = append(one.Rows, headRowJSON{r.What, round(r.HeadM, 4)})
		}
		out = append(out, one)
	}
	return out
}

// headBlocks says what the head of every running pump goes into.
func headBlocks(sol *hydraulic.Solution, s Style) []Block {
	var out []Block
	for _, t := range takeoff.HeadTables(sol) {
		if t.PumpM == 0 {
			continue
		}
		b := Block{Title: fmt.Sprintf("Total dynamic head of %s in mode %s: %s", t.Pump, sol.Mode.Name, s.head(t.TotalM)),
			Grid:  newGrid(column{head: "goes into"}, column{head: "head", right: true}, column{head: "share", right: true}),
			Lines: []string{"along " + t.Path}}
		for _, r := range t.Rows {
			b.Grid.add(r.What, s.head(r.HeadM), fixed(100*r.HeadM/t.PumpM, 0)+" %")
		}
		out = append(out, b)
	}
	return out
}

type atModeJSON struct {
	Mode   string      `json:"mode"`
	Stage  string      `json:"stage"`
	Totals []totalJSON `json:"runs"`
	Total  float64     `json:"total_m"`
}

type tdhJSON struct {
	Mode  string     `json:"mode"`
	Stage string     `json:"stage"`
	Pumps []headJSON `json:"pumps"`
}

// PartsJSON prints the bill, the equivalent lengths (of the handbook, and at the flow of
// every mode) and the total dynamic heads.
func PartsJSON(p *plan.Plan, _ Style) ([]byte, error) {
	out := struct {
		Items  []itemJSON   `json:"items"`
		Method string       `json:"method"`
		Totals []totalJSON  `json:"totals"`
		Total  float64      `json:"total_equivalent_length_m"`
		AtMode []atModeJSON `json:"equivalent_length_at"`
		Heads  []tdhJSON    `json:"total_dynamic_head_m"`
	}{items(p.Bill), p.Bill.Method, totals(p.Bill.Totals), round(p.Bill.TotalEquivalentLengthM, 3), []atModeJSON{}, []tdhJSON{}}
	if p.After != nil {
		for i := range p.After.Solutions {
			sol := &p.After.Solutions[i]
			at := takeoff.EquivalentAt(p.After.Layout, sol)
			out.AtMode = append(out.AtMode, atModeJSON{sol.Mode.Name, string(sol.Stage), totals(at.Totals), round(at.TotalM, 3)})
			out.Heads = append(out.Heads, tdhJSON{sol.Mode.Name, string(sol.Stage), heads(sol)})
		}
	}
	return writeJSON(out)
}

// longestEquivalent is the longest equivalent length that is printed, m: a longer one says that
// the pipe it stands for loses next to nothing, and no more.
const longestEquivalent = 1000

// noEquivalent says why an equivalent length in m means nothing; "" where it does.
func noEquivalent(m float64) string {
	switch {
	case math.IsNaN(m), m > longestEquivalent:
		return "its pipe loses next to nothing"
	case m < 0:
		return "its tee gives head back"
	}
	return ""
}

// fittingsLength prints an equivalent length, or says why there is none that means something.
func fittingsLength(s Style, m float64) string {
	if why := noEquivalent(m); why != "" {
		return "none: " + why
	}
	return s.pipeLength(m)
}

// equivalentGrid lists the equivalent lengths of the handbook and at the flow of every mode.
func equivalentGrid(p *plan.Plan, s Style) *Grid {
	columns := []column{{head: "run"}, {head: "pipe", right: true}, {head: "fittings (handbook)", right: true}, {head: "together", right: true}}
	var at []map[string]takeoff.Total
	if p.After != nil {
		for i := range p.After.Solutions {
			sol := &p.After.Solutions[i]
			by := map[string]takeoff.Total{}
			for _, t := range takeoff.EquivalentAt(p.After.Layout, sol).Totals {
				by[t.Name] = t
			}
			at = append(at, by)
			columns = append(columns, column{head: "fittings, " + sol.Mode.Name, right: true})
		}
	}
	g := newGrid(columns...)
	for _, t := range p.Bill.Totals {
		row := []string{t.Name, s.pipeLength(t.PipeM), s.pipeLength(t.FittingsM), s.pipeLength(t.PipeM + t.FittingsM)}
		for _, by := range at {
			text := "-"
			if one, ok := by[t.Name]; ok {
				text = fittingsLength(s, one.FittingsM)
			}
			row = append(row, text)
		}
		g.add(row...)
	}
	return g
}
