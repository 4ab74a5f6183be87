package whatif

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/hydraulic"
	"dryfit/graph/settle"
)

// pumps are the speeds they turn at. Head goes with the square of the speed, flow with the
// speed (affinity laws, as for a ratio in the description).
func (m *maker) pumps() {
	for i := range m.set.Parts {
		p := &m.set.Parts[i]
		if p.Kind != graph.Pump || !m.inFile(p.ID) {
			continue
		}
		speeds := p.Speeds.V
		for k := range speeds {
			name := speeds[k].Name
			if len(speeds[k].Curve) == 0 && speeds[k].Ratio == 0 {
				continue
			}
			label := "Speed of " + p.ID
			if name != graph.SpeedOn {
				label += ", " + name
			}
			m.add(scale(Control{ID: "speed-" + p.ID + "-" + name, Group: groupPump, Label: label, Unit: "% of today's", Low: 50, High: 120, Step: 1, Now: 100, InFile: true},
				func(x float64) []edit {
					out := m.pinned()
					if path := m.speedPath(p, k); path != nil {
						return append(out, m.turnedInPlace(p, k, path, x/100)...)
					}
					return append(out, ofPart(p.ID, description.SpeedsText(turnedSpeeds(speeds, k, x/100)), "speeds"))
				}))
		}
	}
}

// speedPath returns where in a pump's table a speed with a curve or a ratio of its own stands;
// nil where a row or the label says them.
func (m *maker) speedPath(p *settle.Part, k int) []any {
	if p.Speeds.How != settle.Given || p.Pump == nil || p.Pump.TypeSaid {
		return nil
	}
	if _, own := p.KeyPos["curve"]; own {
		return []any{}
	}
	if _, list := p.KeyPos["speeds"]; !list {
		return nil
	}
	if v, _ := m.part(p.ID).In("speeds"); v.V != nil {
		if _, items := v.Items(); !items { // a table for each speed, by its name
			return []any{"speeds", p.Speeds.V[k].Name}
		}
	}
	return []any{"speeds", k}
}

// part returns a part's table in the file.
func (m *maker) part(id string) located.Value {
	i := indexOf(m.top, "part", id)
	if i < 0 {
		return located.Value{}
	}
	parts, _ := m.top.In("part")
	items, _ := parts.Items()
	return items[i]
}

// turnedInPlace edits the numbers of one speed's curve, or its ratio. Ratios that refer to that
// curve are set so that the other speeds stay.
func (m *maker) turnedInPlace(p *settle.Part, k int, at []any, by float64) []edit {
	s := p.Speeds.V[k]
	set := func(value string, path ...any) edit { return ofPart(p.ID, value, slices.Concat(at, path)...) }
	if len(s.Curve) == 0 {
		return []edit{set(quantity.Trim(quantity.Round(s.Ratio*by, 6)), "ratio")}
	}
	var out []edit
	for i, c := range turnedCurve(s.Curve, by) {
		if s.Curve[i].Flow != 0 {
			out = append(out, set(description.QuantityText(c.Flow, quantity.Flow), "curve", i, 0))
		}
		if s.Curve[i].Head.Value != 0 {
			out = append(out, set(dropValue(c.Head), "curve", i, 1))
		}
	}
	for i, other := range turnedSpeeds(p.Speeds.V, k, by) {
		if i != k && len(other.Curve) == 0 && other.Ratio != p.Speeds.V[i].Ratio {
			out = append(out, ofPart(p.ID, quantity.Trim(other.Ratio), slices.Concat(m.speedPath(p, i), []any{"ratio"})...))
		}
	}
	return out
}

// dropValue writes a drop as it was given, as a head or a pressure.
func dropValue(d graph.Drop) string {
	if d.IsHead {
		return description.QuantityText(d.Value, quantity.Head)
	}
	return description.QuantityText(d.Value, quantity.Pressure)
}

// turnedSpeeds returns the speeds with one of them turned. Ratios refer to the first speed that
// has a curve: where that one is turned they are set so that the others stay.
func turnedSpeeds(speeds []graph.Speed, k int, by float64) []graph.Speed {
	out := slices.Clone(speeds)
	for i := range out {
		if len(out[i].Curve) > 0 {
			out[i].Ratio = 0 // a row may say both
		}
	}
	if len(out[k].Curve) == 0 {
		out[k].Ratio = quantity.Round(out[k].Ratio*by, 6)
		return out
	}
	out[k].Curve = turnedCurve(out[k].Curve, by)
	if slices.IndexFunc(out, func(s graph.Speed) bool { return len(s.Curve) > 0 }) != k {
		return out // ratios are of the first that has a curve
	}
	for i := range out {
		if i != k && len(out[i].Curve) == 0 && out[i].Ratio > 0 {
			out[i].Ratio = quantity.Round(out[i].Ratio/by, 6)
		}
	}
	return out
}

// turnedCurve is a curve at another speed, to the litre an hour and the millimetre.
func turnedCurve(curve []graph.CurvePoint, by float64) []graph.CurvePoint {
	out := append([]graph.CurvePoint(nil), curve...)
	for i := range out {
		out[i].Flow = quantity.Round(out[i].Flow*by*3600, 3) / 3600
		out[i].Head.Value = quantity.Round(out[i].Head.Value*by*by, 3)
	}
	return out
}

// pinned gives the parts that are taken as their maker sized them to the pump the drop they
// have today: a pump that turns faster does not change its filter.
func (m *maker) pinned() []edit {
	var out []edit
	for i := range m.set.Parts {
		p := &m.set.Parts[i]
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

// unit is what it costs the water.
func (m *maker) unit() {
	if m.branch == nil {
		return
	}
	if p := m.set.Part(m.branch.Unit.ID); p != nil && m.inFile(p.ID) {
		m.drop(p, groupUnit, "What "+p.ID+" costs the water", 40, 250)
	}
}

// guesses are the drops that may be off, each by its spread.
func (m *maker) guesses() {
	for i := range m.set.Parts {
		p := &m.set.Parts[i]
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
				one := l.Points[0].Drop
				one.Value = quantity.Round(one.Value*x/100, 6)
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
		out := *l
		out.Points = append([]graph.LossPoint(nil), l.Points...)
		for i := range out.Points {
			out.Points[i].Drop.Value = quantity.Round(out.Points[i].Drop.Value*by, 6)
		}
		out.K *= by
		if out.Kv > 0 {
			out.Kv = quantity.Round(out.Kv/math.Sqrt(by), 6)
		}
		return description.LossText(&out), true
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
	l := &graph.Loss{Points: []graph.LossPoint{{Flow: most.Flow, Drop: graph.Drop{Value: quantity.Round(most.Drop*by, 3)}}}, Exponent: p.Loss.Row.Exponent}
	if p.Kind == graph.JetGroup {
		l.Exponent = 2
	}
	return description.LossText(l), true
}
