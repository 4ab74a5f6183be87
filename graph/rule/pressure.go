package rule

import (
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
			Asks:     "Pipe and fittings that a pump can press on, derated to the water's temperature, and what else says its highest pressure, stand the pump's shut-off pressure and the water above them.",
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

// LeastFlow returns the flow a part of the line asks for, m³/s; 0 where it asks for none.
func LeastFlow(p *settle.Part) float64 { return leastOf(p).V }

// deep is how far below the water a thing of unknown level may stand, mm: a terrace below a
// deck, a cellar. Common practice, no source.
const deep = 3000

// depth is how far below the water a thing lies, mm, where it is known; by how much it may lie
// deeper or higher than that, and the parts whose ports no measure ties together that it hangs on.
type depth struct {
	belowMM float64
	known   bool
	looseMM float64
	by      []*graph.Part
}

// over is what a load puts on a thing that may not stand it.
type over struct {
	pa    float64
	words quantity.Text
	// Where only the level decides: what to measure, and what is not known; "" where it does not.
	measure, unknown quantity.Text
}

// excess says how much a load is over a rating at a depth: as it is drawn, else such that only the
// level decides. It is false where the rating holds, wherever the thing may stand.
func excess(l *load, rating float64, at depth) (over, bool) {
	below, most := at.belowMM, at.belowMM+at.looseMM
	if !at.known {
		below, most = 0, deep
	}
	out := over{pa: l.at(below), words: l.words(below)}
	room := (rating - l.at(0)) / l.off.metre * 1000
	switch {
	case l.at(most) <= rating:
		return over{}, false
	case l.at(below) > rating:
		return out, true
	case at.known:
		out.unknown = graph.Say("as it is drawn; it may lie %s deeper or higher, for no measure ties the ports of %s together", quantity.Length.Of(at.looseMM), partNames(at.by))
		out.measure = graph.Say("measure from the water line down to it and write below-water on it, or from the first port of %s to the other, such as port.out.at = [\"up 240 mm\"]: %s below the water is the most it stands", partNames(at.by), quantity.Length.Of(max(0, room)))
	default:
		out.unknown = "and the weight of the water above it, and nothing says how far below the water it lies"
		out.measure = graph.Say("measure from the water line down to it and write below-water on it, or on a pump or the tub and give the legs between: %s below the water is the most it stands", quantity.Length.Of(room))
	}
	return out, true
}

func pressureRating(in *Input, report Report) {
	v := in.ask()
	t := v.waterC()
	judged := map[string]bool{}
	for _, l := range loadsOf(v.set) {
		pump, under := l.pump.Part, l.on
		tell := func(kind, id string, existing bool, rating, full float64, at depth, d graph.Diagnostic, say func() (what, source quantity.Text)) {
			if rating == 0 {
				return
			}
			o, exceeds := excess(l, rating, at)
			if !exceeds || judged[kind+id] {
				return
			}
			judged[kind+id] = true
			what, source := say()
			d.Related = []graph.Related{here(pump)}
			good := what + graph.Say(" is good for %s", v.pressure(rating))
			if rating != full {
				good += graph.Say(" at %s", v.celsius(t))
			}
			needs := graph.Say("; it needs %s, %s", v.pressure(o.pa), o.words)
			d.Message, d.Hint = good+needs, source
			if o.measure != "" {
				d.Severity, d.Hint = graph.Warning, o.measure
				d.Message += ", " + o.unknown
			} else if rating != full {
				d.Message = good + graph.Say(", %.0f %% of its %s", 100*rating/full, v.pressure(full)) + needs
			}
			report(existing, d)
		}
		for _, r := range under.Runs {
			run := v.run(r)
			tell("run ", r.ID, !r.New(), run.Derated.V, run.Rating.V, v.deepest(r), graph.Diagnostic{Pos: runKey(r, "spec"), Severity: graph.Error}, func() (what, source quantity.Text) {
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
			most := v.part(p).Highest
			d := graph.Diagnostic{Pos: p.Pos, Severity: graph.Error}
			if most.How == settle.Assumed {
				d.Severity = graph.Warning
			}
			tell("part ", p.ID, p.Existing, stands, most.V, v.depthOf(p), d, func() (what, source quantity.Text) {
				what, source = graph.Say("%s %q", p.Kind, p.ID), "take a part of a higher rating"
				if most.How == settle.Assumed {
					return what + byRow(most), sheetFirst(most, "highest-pressure", source)
				}
				return what, source
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

// deepest returns how far the lowest point of a run lies below the water.
func (v *view) deepest(r *graph.Run) depth {
	points := v.levels.Run(v.runAt[r.ID])
	if len(points) == 0 {
		return depth{}
	}
	out := depth{belowMM: slices.Max(points), known: true}
	out.looseMM, out.by = v.levels.LooseRun(v.runAt[r.ID])
	return out
}

// depthOf returns how far a part lies below the water.
func (v *view) depthOf(p *graph.Part) (out depth) {
	out.belowMM, out.known = v.levels.Part(p)
	out.looseMM, out.by = v.levels.Loose(p)
	return out
}

func unitHighestPressure(in *Input, report Report) {
	v := in.ask()
	loads := loadsOf(v.set) // each may be the one that runs while a valve behind the unit is shut
	for _, b := range v.branches {
		most := v.part(b.Unit).Highest
		highest := most.V
		at := slices.IndexFunc(loads, func(l *load) bool { return l.on.HasPart(b.Unit.ID) })
		if highest == 0 || at < 0 {
			continue
		}
		press := loads[at]
		o, exceeds := excess(press, highest, v.depthOf(b.Unit))
		if !exceeds {
			continue
		}
		d := graph.Diagnostic{Pos: key(b.Unit, "highest-pressure"), Severity: graph.Error, Related: []graph.Related{here(press.pump.Part)}}
		d.Message = graph.Say("%q may see %s at the most", b.Unit.ID, v.pressure(highest)) + byRow(most) + graph.Say("; it can meet %s, %s", v.pressure(o.pa), o.words)
		d.Hint = sheetFirst(most, "highest-pressure", "choose a unit for a higher pressure, or heat from a pump with less head")
		if o.measure != "" {
			d.Severity, d.Hint = graph.Warning, o.measure
			d.Message += ", " + o.unknown
		}
		report(b.Unit.Existing, d)
	}
}
