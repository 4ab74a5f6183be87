package spread

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Settles says which reading would settle a judged promise, and what it would tell: of a flow what
// moves the flow of the promise's unit most in its mode, once a throttle is set by its reading a finer reading
// where that is what breaks it and never again the throttle; of a pressure the level nobody gave, else how
// much the pump puts on and the unit or the pipe stands. Empty where nothing would.
func (r *Ranges) Settles(p *Promise) (reading, what quantity.Text) {
	switch {
	case p.Level != "":
		return graph.Say("the height from the water line down to %q", p.Level), graph.Say("how far below the water %q lies", p.Level)
	case p.Kind == UnitPressure:
		return graph.Say("the plate of %q for its highest pressure, and the data sheet of %q for its head at no flow", p.Part, p.Pump),
			graph.Say("the shut-off head of %q", p.Pump)
	case p.Kind == PipePressure:
		return graph.Say("the print on %q for the pressure it stands, and the data sheet of %q for its head at no flow", p.Part, p.Pump),
			graph.Say("the shut-off head of %q", p.Pump)
	case p.Stands:
		return graph.Say("the flow through %q as it is today, on its display or by a meter clamped on, given as a reading", p.Part),
			graph.Say("the flow through %q", p.Part)
	case r.Set != nil && p.Coarse():
		who := quantity.Text("the unit")
		if r.Unit != "" {
			who = graph.Say("%q", p.Part)
		}
		return graph.Say("the flow through %s, by a finer meter than its display, and %q set by that", who, r.Set.Valve),
			graph.Say("the reading by which %q is set, good for %.0f %%", r.Set.Valve, 100*max(r.Set.Reading.High, -r.Set.Reading.Low))
	}
	var most *Influence
	for i := range r.MeasureFirst {
		f := &r.MeasureFirst[i]
		if p.SetOf > 0 && r.Set != nil && f.Part == r.Set.Valve {
			continue
		}
		if at := (UnitIn{p.Part, p.Mode}); most == nil || f.UnitIn[at] > most.UnitIn[at]+alike {
			most = f
		}
	}
	if most == nil {
		return "", ""
	}
	return most.Reading, quantity.Text(most.Said())
}
