package advice

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// LargerPump works out a circulation pump of the catalogue in place of the one there: the
// first that does, of those with one speed in the order of the catalogue, else the one that
// comes nearest.
func (a *adviser) LargerPump() Remedy {
	best := Remedy{What: "a larger circulation pump", Effect: "none in the catalogue"}
	low, pump := -1.0, a.lacking()
	for row := range a.circuit.Catalog.All() {
		if !heatsAlone(row) {
			continue
		}
		c := withPump(a.circuit, pump, []graph.Speed{speedOf(*row)})
		choice, ok := a.BestFor(c, a.branch.Constant() || len(a.branch.Beside) == 0)
		if !ok {
			continue
		}
		r := Remedy{What: graph.Say("a larger circulation pump in place of %q, like %s", pump.ID, row.Name),
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

// lacking returns the pump that gives the unit too little: of several the first that runs in the
// mode in which the unit gets least with its best bypass.
func (a *adviser) lacking() *graph.Part {
	if len(a.branch.Beside) == 0 {
		return a.branch.Pump
	}
	best, _ := a.BestFor(a.circuit, a.branch.Constant())
	worst, mode := math.Inf(1), ""
	for _, m := range best.Modes {
		if m.Error == "" && m.UnitFlow < worst {
			worst, mode = m.UnitFlow, m.Mode
		}
	}
	for _, m := range a.circuit.AllModes() {
		for _, p := range a.branch.Feeds() {
			if m.Name == mode && m.Speeds[p.ID] != "" {
				return p
			}
		}
	}
	return a.branch.Pump
}

// lessThirsty is a unit further down the list, which may well give more heat.
const lessThirsty quantity.Text = "a unit that asks for less water"

// SmallerUnit works out the largest unit of the catalogue that the line can feed.
func (a *adviser) SmallerUnit() Remedy { return a.otherUnit(lessThirsty, a.smaller()) }

// LargerUnit works out the smallest unit of the catalogue that bears what the line gives it.
func (a *adviser) LargerUnit() Remedy {
	rows := a.units(func(row catalog.Row) bool { return row.Most > a.Unit.Most })
	slices.SortStableFunc(rows, func(x, y catalog.Row) int { return cmp.Compare(x.Most, y.Most) })
	return a.otherUnit("a unit that takes more water", rows)
}

// smaller are the units of the catalogue that ask for less, the largest first.
func (a *adviser) smaller() []catalog.Row {
	rows := a.units(func(row catalog.Row) bool { return row.Least < a.Unit.Least })
	slices.SortStableFunc(rows, func(x, y catalog.Row) int { return cmp.Compare(y.Least, x.Least) })
	return rows
}

// units are the units of the catalogue whose limits are known and that are wanted.
func (a *adviser) units(wanted func(row catalog.Row) bool) []catalog.Row {
	var rows []catalog.Row
	for row := range a.circuit.Catalog.All() {
		if row.Kind == string(graph.HeatPump) && row.Least > 0 && wanted(*row) {
			rows = append(rows, *row)
		}
	}
	return rows
}

// otherUnit works out the first of the units that does, each with its best bypass.
func (a *adviser) otherUnit(what quantity.Text, rows []catalog.Row) Remedy {
	out := Remedy{What: what, Effect: "none in the catalogue"}
	for _, row := range rows {
		c := withUnit(a.circuit, a.branch.Unit, row)
		set := a.settled.With(c)
		other := &adviser{circuit: c, settled: set, before: a.before, Unit: PromiseOf(set.Part(a.branch.Unit.ID))}
		if other.branch, _ = set.Branch(); other.branch == nil {
			continue
		}
		choice, ok := other.BestFor(c, other.branch.Constant())
		if !ok {
			continue
		}
		out = Remedy{Works: choice.Keeps, Effect: EffectWords(choice), What: what + like(row)}
		if choice.Keeps {
			return out
		}
	}
	return out
}

// like names a unit of the catalogue and what it asks for.
func like(row catalog.Row) quantity.Text {
	return graph.Say(", like %s (least %s, rated %s)", row.Name, quantity.Flow.Of(row.Least), quantity.Flow.Of(row.Rated))
}

// Way is a circuit changed in one respect, and what was changed.
type Way struct {
	What    quantity.Text
	Circuit *graph.Circuit
}

// Lighter are the circuits in which the unit asks for less of its line or gets more of it, its
// bypass as it is: half the pipe to it, then smaller units.
func (a *adviser) Lighter() []Way {
	out := []Way{{shorterWay, withShorterBranch(a.circuit, a.branch)}}
	for _, row := range a.smaller() {
		out = append(out, Way{lessThirsty + like(row), withUnit(a.circuit, a.branch.Unit, row)})
	}
	return out
}

// withUnit returns the circuit with the unit replaced by one of the catalogue, of the same
// ports.
func withUnit(c *graph.Circuit, unit *graph.Part, row catalog.Row) *graph.Circuit {
	out := *c
	out.Parts = slices.Clone(c.Parts)
	other := *unit
	out.Fit = c.Fit.Without(unit.ID)
	other.Type, other.Loss, other.Known = row.Name, nil, graph.Assumed
	other.Unit = &graph.UnitData{Least: row.Least, Rated: row.Rated, Most: row.Most, PortsSize: settle.UnitPorts(c.Catalog, unit).V}
	out.Parts[slices.Index(out.Parts, unit)] = &other
	return &out
}

// heatsAlone reports whether a row is a pump that could be bought for the unit alone: of one speed, and none
// that is built into the box of a tub.
func heatsAlone(row *catalog.Row) bool {
	return row.Kind == string(graph.Pump) && len(row.Speeds) <= 1 && row.Style != "plug-in"
}
