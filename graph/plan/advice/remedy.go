package advice

import (
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// remedies works out what would make the job work where no bypass element does: larger pipe
// to the unit, a shorter way, another pump. Each is the circuit solved again with the best
// element for it.
func (a *adviser) remedies() []Remedy {
	var out []Remedy
	constant := a.branch.Constant()
	if wider, size, ok := withWiderBranch(a.circuit, a.branch); ok {
		out = append(out, a.remedy(graph.Say("pipe to and from the unit in %s", size), wider, constant))
	}
	out = append(out, a.ShorterWay())
	for row := range a.circuit.Catalog.All() {
		if !heatsAlone(row) {
			continue
		}
		alone := withPump(a.circuit, a.branch.Pump, []graph.Speed{speedOf(*row)})
		alone.Modes = slices.DeleteFunc(alone.AllModes(), func(m graph.Mode) bool { return m.Speeds[a.branch.Pump.ID] == "" }) // not those of a pump beside it
		out = append(out, a.remedy(graph.Say("a circulation pump of its own for heating, like %s", row.Name), alone, true))
	}
	return out
}

const shorterWay quantity.Text = "half the pipe to and from the unit"

// ShorterWay works out half the pipe to and from the unit.
func (a *adviser) ShorterWay() Remedy {
	return a.remedy(shorterWay, withShorterBranch(a.circuit, a.branch), a.branch.Constant())
}

// speedOf makes the one speed of a generic pump.
func speedOf(row catalog.Row) graph.Speed {
	curve := row.Curve
	if len(row.Speeds) == 1 {
		curve = row.Speeds[0].Curve
	}
	s := graph.Speed{Name: "on"}
	for _, p := range curve {
		s.Curve = append(s.Curve, graph.CurvePoint{Flow: p[0], Head: graph.Drop{Value: p[1], IsHead: true}})
	}
	return s
}

// remedy solves a changed circuit with its best bypass element.
func (a *adviser) remedy(what quantity.Text, c *graph.Circuit, constant bool) Remedy {
	best, ok := a.BestFor(c, constant)
	if !ok {
		return Remedy{What: what, Effect: "no bypass element for it in the catalogue"}
	}
	return Remedy{What: what, Works: best.Keeps, Effect: EffectWords(best)}
}

// BestFor returns the best bypass element for a changed circuit.
func (a *adviser) BestFor(c *graph.Circuit, constant bool) (best BypassChoice, ok bool) {
	for _, choice := range a.choices(c) {
		if preferred(choice, constant) && (!ok || a.better(choice, best, constant)) {
			best, ok = choice, true
		}
	}
	return best, ok
}

// EffectWords says what the unit gets with a bypass in each mode; of one mode alone its name tells nothing.
func EffectWords(c BypassChoice) quantity.Text {
	var said []quantity.Text
	for _, m := range c.Modes {
		says := m.Error
		if says == "" {
			says = graph.Say("the unit gets %s", quantity.Flow.Of(m.UnitFlow))
		}
		if len(c.Modes) > 1 {
			says = graph.Say("%s: ", m.Mode) + says
		}
		said = append(said, says)
	}
	return quantity.Join(said, "; ") + " with " + c.Name
}
