package advice

import (
	"cmp"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// LargerPump works out a circulation pump of the catalogue in place of the one there: the
// first that does, of those with one speed in the order of the catalogue, else the one that
// comes nearest.
func (a *adviser) LargerPump() hydraulic.Remedy {
	best := hydraulic.Remedy{What: "a larger circulation pump", Effect: "none in the catalogue"}
	low := -1.0
	for _, row := range a.circuit.Catalog.Rows() {
		if row.Kind != string(graph.Pump) || len(row.Speeds) > 1 || row.Style == "plug-in" {
			continue
		}
		c := withPump(a.circuit, a.branch.Pump, []graph.Speed{speedOf(row)})
		choice, ok := a.BestFor(c, true)
		if !ok {
			continue
		}
		r := hydraulic.Remedy{What: graph.Say("a larger circulation pump in place of %q, like %s", a.branch.Pump.ID, row.Name),
			Works: choice.Keeps, Effect: EffectWords(choice)}
		if r.Works {
			return r
		}
		if flow := LeastFlow(choice); flow > low {
			best, low = r, flow
		}
	}
	return best
}

// SmallerUnit works out the largest unit of the catalogue that the line can feed.
func (a *adviser) SmallerUnit() hydraulic.Remedy {
	var rows []catalog.Row
	for _, row := range a.circuit.Catalog.Rows() {
		if row.Kind == string(graph.HeatPump) && row.Least > 0 && row.Least < a.Unit.Least {
			rows = append(rows, row)
		}
	}
	slices.SortStableFunc(rows, func(x, y catalog.Row) int { return cmp.Compare(y.Least, x.Least) })
	out := hydraulic.Remedy{What: "a smaller unit", Effect: "none in the catalogue"}
	for _, row := range rows {
		c := withUnit(a.circuit, a.branch.Unit, row)
		set := settle.Of(c)
		other := &adviser{circuit: c, before: a.before, Unit: PromiseOf(set.Part(a.branch.Unit.ID))}
		if other.branch, _ = set.Branch(); other.branch == nil {
			continue
		}
		choice, ok := other.BestFor(c, len(other.branch.Pump.SpeedNames()) < 2)
		if !ok {
			continue
		}
		out = hydraulic.Remedy{Works: choice.Keeps, Effect: EffectWords(choice),
			What: graph.Say("a smaller unit, like %s (least %s, rated %s)", row.Name, quantity.Flow.Of(row.Least), quantity.Flow.Of(row.Rated))}
		if choice.Keeps {
			return out
		}
	}
	return out
}

// withUnit returns the circuit with the unit replaced by one of the catalogue, of the same
// ports.
func withUnit(c *graph.Circuit, unit *graph.Part, row catalog.Row) *graph.Circuit {
	out := *c
	out.Parts = slices.Clone(c.Parts)
	other := *unit
	other.Type, other.Loss, other.Known = row.Name, nil, graph.Assumed
	other.Unit = &graph.UnitData{Least: row.Least, Rated: row.Rated, Most: row.Most, PortsSize: settle.UnitPorts(c.Catalog, unit).V}
	out.Parts[slices.Index(out.Parts, unit)] = &other
	return &out
}
