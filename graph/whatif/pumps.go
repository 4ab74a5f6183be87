package whatif

import (
	"math"
	"slices"
	"strconv"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/description"
	"dryfit/graph/description/located"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/settle"
)

// pumps are the speeds they turn at. Head goes with the square of the speed, flow with the
// speed (affinity laws, as for a ratio in the description).
func (m *maker) pumps() {
	m.eachPump(func(p *settle.Part) {
		for k := range p.Speeds.V {
			s := &p.Speeds.V[k]
			if len(s.Curve) == 0 && s.Ratio == 0 {
				continue
			}
			label := "Speed of " + p.ID
			if s.Name != graph.SpeedOn {
				label += ", " + s.Name
			}
			m.ofPump(p, Control{ID: speedID(p, k), Group: groupPump, Label: label, Unit: "% of today's", Low: 50, High: 120, Step: 1})
		}
	})
}

// pumpGuesses are how far a pump may be off: one of a type in its size and its shape, one with
// a curve in the head and flow of that, as the ranges take them.
func (m *maker) pumpGuesses() {
	m.eachPump(func(p *settle.Part) {
		if !slices.ContainsFunc(p.Speeds.V, func(s graph.Speed) bool { return len(s.Curve) > 0 }) {
			return
		}
		for _, u := range p.PumpUnknowns() {
			id, label := "", ""
			switch u.Number {
			case settle.HeadNumber:
				id, label = "head-", "Head of "+p.ID
			case settle.FlowNumber:
				id, label = "flow-", "Flow of "+p.ID+" at a head"
			case settle.SizeNumber:
				id, label = "size-", quantity.Capital(u.Words)
			case settle.ShapeNumber:
				id, label = "shape-", "More flow, less head of "+p.ID
			}
			if id != "" && u.Span.Low < u.Span.High {
				m.ofPump(p, Control{ID: id + p.ID, Group: groupGuess, Label: label, Unit: "% of what it is taken for", Low: math.Round(100 * (1 + u.Span.Low)), High: math.Round(100 * (1 + u.Span.High)), Step: 1})
			}
		}
	})
}

// eachPump goes through the pumps of the file.
func (m *maker) eachPump(do func(p *settle.Part)) {
	for _, p := range m.set.Parts {
		if p.Kind == graph.Pump && m.inFile(p.ID) {
			do(p)
		}
	}
}

// ofPump adds a control of a pump's curves: all of one pump's are made edits of together.
func (m *maker) ofPump(p *settle.Part, c Control) {
	c.Now, c.InFile, c.with = 100, true, p.ID
	c.together = func(v Values) []edit { return m.pumpEdits(p, v) }
	m.add(scale(c, nil))
}

func speedID(p *settle.Part, k int) string { return "speed-" + p.ID + "-" + p.Speeds.V[k].Name }

// speedTurned is the control of the first speed of a pump that is turned; "" where none is. One that
// turns faster or slower changes nothing else; where only the guess of the pump is another, what its
// maker sized to the pump is so too.
func speedTurned(p *settle.Part, v Values) string {
	for k := range p.Speeds.V {
		if _, ok := v[speedID(p, k)]; ok {
			return speedID(p, k)
		}
	}
	return ""
}

// pumpEdits sets a pump's curves and ratios as its controls are turned. A ratio refers to the
// first speed that has a curve: where that one turns, the others' are set so that they stay.
func (m *maker) pumpEdits(p *settle.Part, v Values) []edit {
	factor := func(id string) float64 {
		x, err := strconv.ParseFloat(v[id], 64)
		if err != nil {
			return 1
		}
		return x / 100
	}
	flow, head := formula.PumpOfSize(factor("size-" + p.ID))
	shape := factor("shape-" + p.ID)
	flow, head = flow*shape*factor("flow-"+p.ID), head/shape*factor("head-"+p.ID)
	first := graph.BaseSpeed(p.Speeds.V)
	speeds := slices.Clone(p.Speeds.V)
	inFile := m.speedPath(p, 0) != nil
	for k := range speeds {
		s, turns := &speeds[k], factor(speedID(p, k))
		switch {
		case len(s.Curve) > 0:
			s.Curve, s.Ratio = turnedCurve(s.Curve, turns*flow, turns*turns*head, inFile, m.units), 0 // a row may say both
		case s.Ratio > 0 && first >= 0:
			s.Ratio = quantity.Round(s.Ratio*turns/factor(speedID(p, first)), 6)
		default:
			s.Ratio = quantity.Round(s.Ratio*turns, 6)
		}
	}
	var out []edit
	if speedTurned(p, v) != "" {
		out = m.pinned()
	}
	if !inFile {
		return append(out, ofPart(p.ID, description.SpeedsText(speeds), "speeds"))
	}
	for k := range speeds {
		out = append(out, m.inPlace(p, k, &speeds[k])...)
	}
	return out
}

// turnedCurve is a curve with other flows and heads, as a person would write them; what is not
// turned of one that was given stays as it was.
func turnedCurve(curve []graph.CurvePoint, flow, head float64, given bool, units quantity.System) []graph.CurvePoint {
	out := append([]graph.CurvePoint(nil), curve...)
	for i := range out {
		if flow != 1 || !given {
			out[i].Flow = quantity.Neat(out[i].Flow*flow, quantity.Flow, units)
		}
		if head != 1 || !given {
			out[i].Head = turnedDrop(out[i].Head, head, units)
		}
	}
	return out
}

// inPlace edits the numbers of one speed in the file that are others now.
func (m *maker) inPlace(p *settle.Part, k int, now *graph.Speed) []edit {
	was, path := &p.Speeds.V[k], m.speedPath(p, k)
	var out []edit
	set := func(value string, more ...any) { out = append(out, ofPart(p.ID, value, slices.Concat(path, more)...)) }
	if len(was.Curve) == 0 {
		if now.Ratio != was.Ratio {
			set(quantity.Trim(now.Ratio), "ratio")
		}
		return out
	}
	for i := range now.Curve {
		if math.Abs(now.Curve[i].Flow-was.Curve[i].Flow) > 1e-9 {
			set(description.QuantityText(now.Curve[i].Flow, quantity.Flow), "curve", i, 0)
		}
		if math.Abs(now.Curve[i].Head.Value-was.Curve[i].Head.Value) > 1e-9 {
			set(dropValue(now.Curve[i].Head), "curve", i, 1)
		}
	}
	return out
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
