package rule

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// pressureRules say what the pipe and the unit can stand.
func pressureRules() []*Rule {
	return []*Rule{
		{
			Name:     "pressure-rating",
			Asks:     "Pipe and fittings after a pump, derated to the water's temperature, stand the pump's shut-off pressure and the water above them.",
			Why:      "A valve shut by mistake brings the line to shut-off, and PVC keeps little more than half of its rating at 40 °C.",
			Source:   "derating: PPI recommendation C (ASTM pipe) and a metric PVC-U table, in the catalogue",
			Severity: graph.Error,
			Check:    pressureRating,
		},
		{
			Name:     "unit-highest-pressure",
			Asks:     "The pump's shut-off pressure and the water above the unit are within the unit's highest pressure.",
			Why:      "Its exchanger is the weakest part of the line.",
			Source:   "the unit's data sheet; 2 bar where it is silent, the least seen (catalogue)",
			Severity: graph.Error,
			Check:    unitHighestPressure,
		},
	}
}

// load is the most a pump can put on what lies after it, Pa.
type load struct {
	pa    float64
	words quantity.Text // "shut-off 1.49 bar of pump …"
}

// GreatestPressure returns the most a pump can put on its line, Pa: its shut-off pressure and
// the water above its eye. It is false where its curve is not known.
func GreatestPressure(pump *settle.Part) (pa float64, ok bool) {
	l, ok := loadOf(&view{}, pump)
	return l.pa, ok
}

// LeastFlow returns the flow a part of the line asks for, m³/s; 0 where it asks for none.
func LeastFlow(p *settle.Part) float64 { return leastOf(p) }

// loadOf returns the shut-off pressure of a pump and the weight of the water above it.
func loadOf(v *view, pump *settle.Part) (load, bool) {
	pa, ok := strongestShutOff(pump)
	if !ok {
		return load{}, false
	}
	static := max(0, pump.Below.V) / 1000 * pascalsPerMetre
	words := graph.Say("shut-off %s of pump %q", v.pressure(pa), pump.ID)
	if static > 0 {
		words += graph.Say(" and %s of water above it", v.pressure(static))
	}
	return load{pa: pa + static, words: words}, true
}

func pressureRating(in *Input, report Report) {
	v := in.ask()
	t := v.waterC()
	judged := map[string]bool{}
	for _, pump := range v.c.Pumps() {
		l, ok := loadOf(v, v.part(pump))
		if !ok {
			continue
		}
		under := v.net.Downstream(pump)
		for _, r := range under.Runs {
			row := &v.run(r).Pipe.V
			rating, source := row.RatingAt(t)
			if row.RatingPa == 0 || rating >= l.pa || judged["run "+r.ID] {
				continue
			}
			judged["run "+r.ID] = true
			report(!r.New(), graph.Diagnostic{
				Pos: runKey(r, "spec"), Severity: graph.Error, Related: []graph.Related{here(pump)},
				Message: graph.Say("run %q (%s %s) is good for %s at %s, %.0f %% of its %s; it needs %s, %s", r.ID, r.Spec, r.Size, v.pressure(rating), v.celsius(t), 100*rating/row.RatingPa, v.pressure(row.RatingPa), v.pressure(l.pa), l.words),
				Hint:    graph.Say("take pipe of the next class (%s)", source),
			})
		}
		for _, p := range under.Parts {
			rating, full := v.part(p).Derated.V, v.part(p).Highest.V
			if !p.Kind.Plumbing() || rating == 0 || rating >= l.pa || judged["part "+p.ID] {
				continue
			}
			judged["part "+p.ID] = true
			report(p.Existing, graph.Diagnostic{
				Pos: p.Pos, Severity: graph.Error, Related: []graph.Related{here(pump)},
				Message: graph.Say("%s %q is good for %s at %s, %.0f %% of its %s; it needs %s, %s", p.Kind, p.ID, v.pressure(rating), v.celsius(t), 100*rating/full, v.pressure(full), v.pressure(l.pa), l.words),
				Hint:    "take a part of a higher rating",
			})
		}
	}
}

// deepUnit is how far below the water a unit of unknown level may stand, m: a terrace below a
// deck, a cellar. Common practice, no source.
const deepUnit = 3

func unitHighestPressure(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		highest := v.part(b.Unit).Highest.V
		if b.Pump == nil || highest == 0 || !b.up.HasPart(b.Pump.ID) {
			continue
		}
		pump := v.part(b.Pump)
		shut, ok := strongestShutOff(pump)
		if !ok {
			continue
		}
		words := graph.Say("shut-off %s of pump %q", v.pressure(shut), pump.ID)
		below, known := in.Layout.Below(b.Unit)
		if !known {
			below = pump.Below.V
		}
		static := max(0, below) / 1000 * pascalsPerMetre
		if static > 0 {
			words += graph.Say(" and %s of water above it", v.pressure(static))
		}
		d := graph.Diagnostic{Pos: key(b.Unit, "highest-pressure"), Severity: graph.Error, Related: []graph.Related{here(b.Pump)}}
		switch {
		case shut+static > highest:
			d.Message = graph.Say("%q stands %s; it can meet %s, %s", b.Unit.ID, v.pressure(highest), v.pressure(shut+static), words)
			d.Hint = "choose a unit for a higher pressure, or heat from a pump with less head"
		case !known && shut+deepUnit*pascalsPerMetre > highest:
			d.Severity = graph.Warning
			d.Message = graph.Say("%q stands %s; it can meet %s of pump %q and the water above it, and nothing says how far below the water it stands", b.Unit.ID, v.pressure(highest), v.pressure(shut), pump.ID)
			d.Hint = graph.Say("measure from the water line down to its ports and write below-water: more than %s is too much", v.pressure(highest-shut))
		default:
			continue
		}
		report(b.Unit.Existing, d)
	}
}
