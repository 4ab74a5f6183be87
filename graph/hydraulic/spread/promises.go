package spread

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
)

// promise counts in how many of the samples something holds.
func (m *spreadMode) promise(kind PromiseKind, part string, text quantity.Text, values []sampled, holds func(float64) bool) Promise {
	p := Promise{Mode: m.name, Kind: kind, Part: part, Text: text, Of: len(values)}
	for _, v := range values {
		if holds(v.value) {
			p.Kept++
		}
	}
	p.Share = float64(p.Kept) / float64(max(p.Of, 1))
	return p
}

// flowPromises are those of a unit's least, rated and most flow, where they are known and it gets water
// in the case that is taken; of a unit among others they name it.
func (m *spreadMode) flowPromises(unit *graph.Part, alone bool) (out []Promise) {
	at, ok := m.after.model.PartAt[unit.ID]
	if !ok || unit.Unit == nil || m.runs(at) <= hydraulic.Standing {
		return nil
	}
	flows, u := m.after.parts[at], unit.Unit
	add := func(kind PromiseKind, what quantity.Text, limit float64) {
		if limit > 0 {
			out = append(out, m.promise(kind, unit.ID, graph.Say("%s, %s", what, quantity.Flow.Limit(limit)), flows, flowHolds(kind, u)))
		}
	}
	who := quantity.Text("the unit")
	if !alone {
		who = graph.Say("%q", unit.ID)
	}
	least := who
	if m.twice > 0 { // a pump starts from rest every time
		least = "started from rest, " + who
	}
	add(LeastFlow, least+" gets at least its least flow", u.Least)
	add(RatedFlow, least+" gets at least its rated flow", u.Rated)
	add(MostFlow, who+" gets at most its most flow", u.Most)
	return out
}

// flowHolds is what keeps a promise of a unit's flow, m³/s.
func flowHolds(kind PromiseKind, u *graph.UnitData) func(flow float64) bool {
	switch kind {
	case LeastFlow:
		return func(v float64) bool { return v >= u.Least }
	case RatedFlow:
		return func(v float64) bool { return v >= u.Rated }
	}
	return func(v float64) bool { return v <= u.Most }
}

// promises says in how many of the samples each promise of the mode holds. A unit that
// gets no water even in the likely case (its pump is off) is promised nothing. Samples past
// a pump's curve count by what a straight line on from it makes of them.
func (m *spreadMode) promises(unit *graph.Part, others []*graph.Part) []Promise {
	var out []Promise
	if unit != nil {
		out = m.flowPromises(unit, len(others) == 0)
	}
	for _, o := range others {
		of := m.flowPromises(o, false)
		for i := range of {
			of[i].Stands = o.Existing
		}
		out = append(out, of...)
	}
	deep := func(id string) quantity.Text {
		if id == "" {
			return ""
		}
		at := level()
		return graph.Say("; nothing says how far below the water %q lies: %s to %s taken", id, quantity.Length.About(1000*at.Low), quantity.Length.About(1000*at.High))
	}
	pressed := func(kind PromiseKind, part string, text quantity.Text, level, pump string, values []sampled) {
		p := m.promise(kind, part, text+deep(level), values, func(v float64) bool { return v >= 0 })
		p.Level, p.Pump = level, pump
		out = append(out, p)
	}
	if len(m.unitMargin) > 0 {
		pressed(UnitPressure, unit.ID, graph.Say("%q stands its pump's shut-off pressure and the water above it", unit.ID), m.stands.unitLevel, m.stands.unitPump, m.unitMargin)
	}
	if len(m.pipeMargin) > 0 {
		pressed(PipePressure, m.stands.weakest, graph.Say("pipe and fittings stand their pump's shut-off pressure and the water above them; %q is the weakest", m.stands.weakest), m.stands.pipeLevel, m.stands.pipePump, m.pipeMargin)
	}
	for i, p := range m.after.likely.Parts {
		if p.Part.Kind != graph.CheckValve {
			continue
		}
		open := p.Flow > 0
		out = append(out, m.promise(CheckState, p.Part.ID, graph.Say("%s is %s", p.Part.ID, p.State), m.after.parts[i], func(v float64) bool { return (v > 0) == open }))
	}
	if len(m.jetsChange) > 0 && !m.untouched {
		out = append(out, m.promise(JetsTenth, "", graph.Say("the jets lose less than a tenth of today's flow"), m.jetsChange, lessThanATenth))
	}
	return out
}

// lessThanATenth reports whether a change, as a share, is a loss of less than a tenth, or none.
func lessThanATenth(change float64) bool { return change > -0.1 }

// unitOf returns a copy of the unit with the id that holds its limits as they were settled:
// one known by its row alone is promised what one known by its keys is. Nil where there is
// no such unit.
func unitOf(lay *route.Layout, id string) *graph.Part {
	set := lay.Stage.Part(id)
	if set == nil || set.Kind != graph.HeatPump {
		return nil
	}
	unit, data := *set.Part, graph.UnitData{}
	if unit.Unit != nil {
		data = *unit.Unit
	}
	data.Least, data.Rated, data.Most = set.Least.V, set.Rated.V, set.Most.V
	unit.Unit = &data
	return &unit
}
