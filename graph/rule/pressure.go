package rule

import (
	"cmp"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// pressureRules say what the pipe and the unit can stand.
func pressureRules() []*Rule {
	return []*Rule{
		{
			Name:     "pressure-rating",
			Asks:     "Pipe and fittings after a pump, derated to the water's temperature, and what else says its highest pressure, stand the pump's shut-off pressure and the water above them.",
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

// load is the most a pump can put on what lies after it.
type load struct {
	off  shutOff
	pump *settle.Part
}

// on returns the pressure it puts on what lies so far below the water (mm), Pa.
func (l load) on(belowMM float64) float64 { return l.off.greatestPa() + l.static(belowMM) }

// static is the water's own part of it.
func (l load) static(belowMM float64) float64 { return max(0, belowMM) / 1000 * l.off.metre }

// words says what it is made up of.
func (l load) words(belowMM float64) quantity.Text {
	words := l.off.words() + graph.Say(" of pump %q", l.pump.ID)
	if static := l.static(belowMM); static > 0 {
		words += graph.Say(" and %s of water above it", quantity.Pressure.Of(static))
	}
	return words
}

// GreatestPressure returns the most a pump can put on its line, Pa: its shut-off pressure and
// the water above its eye. It is false where its curve is not known.
func GreatestPressure(pump *settle.Part, water settle.Water) (pa float64, ok bool) {
	off, ok := strongestShutOff(pump, water)
	if !ok {
		return 0, false
	}
	return load{off: off, pump: pump}.on(pump.Below.V), true
}

// LeastFlow returns the flow a part of the line asks for, m³/s; 0 where it asks for none.
func LeastFlow(p *settle.Part) float64 { return leastOf(p) }

// deep is how far below the water a thing of unknown level may stand, mm: a terrace below a
// deck, a cellar. Common practice, no source.
const deep = 3000

// excess says how much a load is over a rating at a level: known, else such that only the
// level decides. It is "" where the rating holds, wherever the thing may stand.
func excess(l load, rating, belowMM float64, known bool) (pa float64, words, level quantity.Text) {
	if !known {
		belowMM = 0
	}
	pa = l.on(belowMM)
	switch {
	case pa > rating:
		return pa, l.words(belowMM), ""
	case !known && l.on(deep) > rating:
		words = l.words(belowMM)
		room := (rating - pa) / l.off.metre * 1000
		return pa, words, graph.Say("measure from the water line down to it and write below-water on it, or on a pump or the tub and give the legs between: %s below the water is the most it stands", quantity.Length.Of(room))
	}
	return 0, "", ""
}

func pressureRating(in *Input, report Report) {
	v := in.ask()
	t := v.waterC()
	judged := map[string]bool{}
	for _, l := range v.loads() {
		pump := l.pump.Part
		under := v.net.Downstream(pump)
		tell := func(kind, id string, existing bool, rating, full, below float64, known bool, d graph.Diagnostic, say func() (what, source quantity.Text)) {
			if rating == 0 {
				return
			}
			pa, words, level := excess(l, rating, below, known)
			if words == "" || judged[kind+id] {
				return
			}
			judged[kind+id] = true
			what, source := say()
			d.Severity, d.Related = graph.Error, []graph.Related{here(pump)}
			good := what + graph.Say(" is good for %s", v.pressure(rating))
			if rating != full {
				good += graph.Say(" at %s", v.celsius(t))
			}
			needs := graph.Say("; it needs %s, %s", v.pressure(pa), words)
			d.Message, d.Hint = good+needs, source
			if level != "" {
				d.Severity, d.Hint = graph.Warning, level
				d.Message += ", and the weight of the water above it, and nothing says how far below the water it lies"
			} else if rating != full {
				d.Message = good + graph.Say(", %.0f %% of its %s", 100*rating/full, v.pressure(full)) + needs
			}
			report(existing, d)
		}
		for _, r := range under.Runs {
			run := v.run(r)
			below, known := v.deepest(r)
			tell("run ", r.ID, !r.New(), run.Derated.V, run.Rating.V, below, known, graph.Diagnostic{Pos: runKey(r, "spec")}, func() (what, source quantity.Text) {
				_, table := tables.RatingAt(run.Pipe.V, t)
				return graph.Say("run %q (%s %s)", r.Said(), r.Spec, r.Size), graph.Say("take pipe of the next class (%s)", table)
			})
		}
		for _, p := range under.Parts {
			stands := v.part(p).Derated.V
			if !p.Kind.Plumbing() {
				if stands = statedPressure(v.part(p)); stands == 0 {
					continue
				}
			}
			below, known := v.levels.Part(p)
			tell("part ", p.ID, p.Existing, stands, v.part(p).Highest.V, below, known, graph.Diagnostic{Pos: p.Pos}, func() (what, source quantity.Text) {
				return graph.Say("%s %q", p.Kind, p.ID), "take a part of a higher rating"
			})
		}
	}
}

// statedPressure is what a filter, a heater or another part that is no fitting stands by its own sheet
// or plate, Pa: 0 where nobody says it, for the catalogue's generic rows are a guess. The unit has a
// rule of its own.
func statedPressure(p *settle.Part) float64 {
	if p.Kind == graph.HeatPump || p.Highest.How != settle.Given && p.Highest.How != settle.OwnRow {
		return 0
	}
	return p.Highest.V
}

// loads are what the pumps can put on what lies after them, the most first: of several pumps
// on one line that one is told.
func (v *view) loads() []load {
	var out []load
	for _, pump := range v.c.Pumps() {
		if off, ok := strongestShutOff(v.part(pump), v.set.Water); ok {
			out = append(out, load{off: off, pump: v.part(pump)})
		}
	}
	slices.SortStableFunc(out, func(a, b load) int { return cmp.Compare(b.off.greatestPa(), a.off.greatestPa()) })
	return out
}

// deepest returns how far the lowest point of a run lies below the water, mm.
func (v *view) deepest(r *graph.Run) (mm float64, known bool) {
	points := v.levels.Run(v.runAt[r.ID])
	if len(points) == 0 {
		return 0, false
	}
	return slices.Max(points), true
}

func unitHighestPressure(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		highest := v.part(b.Unit).Highest.V
		if b.Pump == nil || highest == 0 || !b.up.HasPart(b.Pump.ID) {
			continue
		}
		off, ok := strongestShutOff(v.part(b.Pump), v.set.Water)
		if !ok {
			continue
		}
		below, known := v.levels.Part(b.Unit)
		pa, words, level := excess(load{off: off, pump: v.part(b.Pump)}, highest, below, known)
		if words == "" {
			continue
		}
		d := graph.Diagnostic{Pos: key(b.Unit, "highest-pressure"), Severity: graph.Error, Related: []graph.Related{here(b.Pump)}}
		d.Message = graph.Say("%q may see %s at the most; it can meet %s, %s", b.Unit.ID, v.pressure(highest), v.pressure(pa), words)
		d.Hint = "choose a unit for a higher pressure, or heat from a pump with less head"
		if level != "" {
			d.Severity, d.Hint = graph.Warning, level
			d.Message = graph.Say("%q may see %s at the most; it can meet %s and the water above it, and nothing says how far below the water it stands", b.Unit.ID, v.pressure(highest), words)
		}
		report(b.Unit.Existing, d)
	}
}
