package whatif

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// dropValue writes a drop as it was given, as a head or a pressure.
func dropValue(d graph.Drop) string {
	return description.QuantityText(d.Value, d.Dimension())
}

// turnedDrop is a drop so many times as large, as a person would write it.
func turnedDrop(d graph.Drop, by float64, units quantity.System) graph.Drop {
	d.Value = quantity.Neat(d.Value*by, d.Dimension(), units)
	return d
}

// pinned gives the parts that are taken as their maker sized them to the pump the drop they
// have today: a pump that turns faster does not change its filter.
func (m *maker) pinned() []edit {
	var out []edit
	for _, p := range m.set.Parts {
		sized := p.Loss.Row.Sized != "" && p.Loss.Described == nil
		if p.Kind == graph.JetGroup {
			sized = p.Loss.Described == nil && p.Jets != nil && p.Jets.Rated == nil && !p.Jets.HasK && p.Jets.BoreMM == 0
		}
		if !sized || !m.inFile(p.ID) {
			continue
		}
		if value, ok := m.lossText(p, 1); ok {
			out = append(out, ofPart(p.ID, value, "loss"))
		}
	}
	return out
}

// unitDrops is what each unit costs the water, that of the job first.
func (m *maker) unitDrops() {
	var units []*settle.Part
	for _, p := range m.set.Parts {
		switch {
		case p.Kind != graph.HeatPump:
		case m.branch != nil && p.ID == m.branch.Unit.ID:
			units = slices.Insert(units, 0, p)
		default:
			units = append(units, p)
		}
	}
	for _, p := range units {
		if m.inFile(p.ID) {
			m.drop(p, groupUnit, "What "+p.ID+" costs the water", 40, 250)
		}
	}
}

// guesses are what may be off, each by its spread: of the pumps, and drops.
func (m *maker) guesses() {
	m.pumpGuesses()
	for _, p := range m.set.Parts {
		switch p.Kind {
		case graph.HeatPump, graph.Tee, graph.CheckValve, graph.Union, graph.Coupling, graph.SlipCoupling, graph.Reducer, graph.Transition, graph.Barb, graph.Manifold, graph.DiverterValve:
			continue
		}
		if p.Kind.IsHandValve() || !p.Loss.Known() || p.Loss.High <= p.Loss.Low || !m.inFile(p.ID) {
			continue
		}
		m.drop(p, groupGuess, "Drop of "+p.ID, 100*(1+p.Loss.Low), 100*(1+p.Loss.High))
	}
}

// drop is a part's loss over what it is taken to be, per cent.
func (m *maker) drop(p *settle.Part, group, label string, low, high float64) {
	if _, ok := m.lossText(p, 1); !ok {
		return
	}
	m.add(scale(Control{ID: "drop-" + p.ID, Group: group, Label: label, Unit: "% of what it is taken for", Low: math.Round(low), High: math.Round(high), Step: 1, Now: 100, InFile: true},
		func(x float64) []edit {
			if l := p.Loss.Described; l != nil && len(l.Points) == 1 {
				one := turnedDrop(l.Points[0].Drop, x/100, m.units)
				loss, _ := m.part(p.ID).In("loss")
				if _, single := loss.In("drop"); single {
					return []edit{ofPart(p.ID, dropValue(one), "loss", "drop")}
				}
			}
			value, _ := m.lossText(p, x/100)
			return []edit{ofPart(p.ID, value, "loss")}
		}))
}

// lossText writes what a part costs, times a factor: in the form the description has, else by
// the flow it passes and the drop it has there in the mode that moves most.
func (m *maker) lossText(p *settle.Part, by float64) (string, bool) {
	if l := p.Loss.Described; l != nil {
		if l.None {
			return "", false
		}
		return description.LossText(l.Times(by, func(x float64, d quantity.Dimension) float64 {
			if d == quantity.Kv {
				return quantity.Round(x, 6)
			}
			return quantity.Neat(x, d, m.units)
		})), true
	}
	var most *hydraulic.PartFlow
	for i := range m.study.Plan.After.Solutions {
		f := m.study.Plan.After.Solutions[i].Part(p.ID)
		if f != nil && f.Flow > hydraulic.Standing && f.Drop > 0 && (most == nil || f.Flow > most.Flow) && m.study.Plan.After.Solutions[i].Mode.JetsOpen == 1 && !m.study.Plan.After.Solutions[i].Mode.Dirty {
			most = f
		}
	}
	if most == nil {
		return "", false
	}
	at := graph.LossPoint{Flow: quantity.Neat(most.Flow, quantity.Flow, m.units), Drop: turnedDrop(graph.Drop{Value: most.Drop}, by, m.units)}
	l := &graph.Loss{Points: []graph.LossPoint{at}, Exponent: p.Loss.Row.Exponent}
	if p.Kind == graph.JetGroup {
		l.Exponent = 2
	}
	return description.LossText(l), true
}
