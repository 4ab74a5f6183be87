package rule

import (
	"fmt"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/stream"
)

// circuitRules say what a circuit must be, whatever hangs on it.
func circuitRules() []*Rule {
	return []*Rule{
		{
			Name:     "pump-short-circuit",
			Asks:     "Every way from a pump's outlet to its inlet passes the tub.",
			Why:      "Water takes the short way round, and the tub gets what is left.",
			Source:   "follows from the circuit",
			Severity: graph.Error,
			Check:    pumpShortCircuit,
		},
		{
			Name:     "pumps-apart",
			Asks:     "No two pumps share a line: the tub stands between them.",
			Why:      "A pump teed into another's suction or discharge pushes water back through it when that one is off, and starves it when both run.",
			Source:   "controller makers' application notes agree; no standard",
			Severity: graph.Error,
			Check:    pumpsApart,
		},
		{
			Name:     "air-apart-from-water",
			Asks:     "Air lines join jets, injectors, blowers and the tub's own air channel, never a water line.",
			Why:      "Water runs into the blower, or air into the pump.",
			Source:   "follows from the circuit",
			Severity: graph.Error,
			Check:    airApart,
		},
		{
			Name:     "no-dead-leg",
			Asks:     "Water passes every new pipe but those that end at a drain, a bleed or a gauge, or within 300 mm at a cap.",
			Why:      "Warm water that stands breeds legionella (20 to 45 °C) and freezes first.",
			Source:   "HSG282 and legionella guidance ask for no dead legs (from memory); the 300 mm to a cap is judgement",
			Severity: graph.Warning,
			Check:    noDeadLeg,
		},
		{
			Name:     "feeder-after-uv",
			Asks:     "A feeder or salt cell stands after the UV chamber and the ozone injector of its line.",
			Why:      "Ultraviolet light and ozone destroy the free chlorine or bromine that was just dosed; after them the same dose reaches the tub.",
			Source:   "pool equipment manuals agree: dosing comes last; no standard",
			Severity: graph.Warning,
			Check:    feederAfterUV,
		},
		tubsKeepTheirWater,
	}
}

func pumpShortCircuit(in *Input, report Report) {
	v := in.ask()
	for _, s := range v.net.ShortCircuits() {
		d := graph.Diagnostic{
			Pos: s.Pump.Pos, Severity: graph.Error,
			Message: graph.Say("a way leads from %q back to %q without the tub, over %s (%s); none may", s.Pump.ID+".out", s.Pump.ID+".in", quantity.Counted(len(s.Runs), "run"), runNames(s.Runs)),
			Hint:    "end one of these runs at the tub, or correct from and to",
		}
		d.Related = append(d.Related, hereRun(s.Runs[0]))
		if last := s.Runs[len(s.Runs)-1]; last != s.Runs[0] {
			d.Related = append(d.Related, hereRun(last))
		}
		report(!s.Pump.New() && !slices.ContainsFunc(s.Runs, (*graph.Run).New), d)
	}
}

func pumpsApart(in *Input, report Report) {
	v := in.ask()
	for _, j := range v.net.PumpJoins() {
		isNew := j.A.New() || j.B.New()
		for _, r := range j.Runs {
			isNew = isNew || r.New()
		}
		how := map[string]string{
			"series":    fmt.Sprintf("%q feeds %q", j.A.ID+".out", j.B.ID+".in"),
			"suction":   fmt.Sprintf("%q and %q are teed together", j.A.ID+".in", j.B.ID+".in"),
			"discharge": fmt.Sprintf("%q and %q are teed together", j.A.ID+".out", j.B.ID+".out"),
		}[j.How]
		report(!isNew, graph.Diagnostic{
			Pos: j.A.Pos, Severity: graph.Error, Related: []graph.Related{here(j.B), hereRun(j.Runs[0])},
			Message: graph.Say("two pumps in one line: %s over %s (%s); 0 tubs between them, needs 1", how, quantity.Counted(len(j.Runs), "run"), runNames(j.Runs)),
			Hint:    "give each pump its own suction and its own return",
		})
	}
}

func airApart(in *Input, report Report) {
	v := in.ask()
	for _, j := range v.net.AirJoins() {
		d := graph.Diagnostic{
			Pos: j.Run.Pos, Severity: graph.Error,
			Message: graph.Say("1 air line, at %q, joins the water line at %q; 0 may", j.Air.String(), j.Water.String()),
			Hint:    "end the air line at the jets' port \"air\", an injector's \"gas\" or a port of the tub for its air channel",
		}
		isNew := j.Run.New()
		for _, ref := range []graph.PortRef{j.Air, j.Water} {
			if p := v.net.Part(ref.Part); p != nil {
				d.Related = append(d.Related, here(p))
				isNew = isNew || p.New()
			}
		}
		report(!isNew, d)
	}
}

func noDeadLeg(in *Input, report Report) {
	v := in.ask()
	if len(v.c.Pumps()) == 0 {
		return
	}
	for _, d := range v.net.DeadEnds() {
		if len(d.Runs) == 0 || hasUnit(d) {
			continue
		}
		if d.Closed {
			longToCap(in, d, report)
			continue
		}
		first := d.Runs[0]
		isNew := false
		for _, r := range d.Runs {
			if r.New() {
				first, isNew = r, true
				break
			}
		}
		sum := lengthOf(in, d.Runs)
		f := graph.Diagnostic{
			Pos: first.Pos, Severity: graph.Warning,
			Message: graph.Say("water stands in %s (%s, %s); needs 0", quantity.Counted(len(d.Runs), "run"), runNames(d.Runs), v.length(sum)),
			Hint:    "lead it back to the line or the tub, cap it close to the tee, or end it at a drain",
		}
		switch fire := heatedIn(d); {
		case fire != nil:
			f.Related = []graph.Related{here(fire)}
			f.Message = graph.Say("no pump moves the water of %s (%s, %s), in which %s %q stands: 0 pumps, needs 1, or that its own heat does, of which nothing is worked out", quantity.Counted(len(d.Runs), "run"), runNames(d.Runs), v.length(sum), fire.Kind, fire.ID)
			f.Hint = "where its heat alone drives the water, as that of a stove beside the tub does, its pipes stay open and full: shut or capped it boils; where a pump does, describe that; where it is out of use, let whoever is licensed for its fire put it out for good, before anything there is capped"
		case d.From != nil:
			f.Related = []graph.Related{here(d.From)}
		default:
			f.Message += ": neither a pump's water comes to it nor the tub's"
			f.Hint = "write the run that joins it to the line; pipe that is cut off for good is left out of the file, with its caps"
		}
		report(!isNew, f)
	}
}

// heatedIn returns the part of a dead end that warms its water from a source of its own, or nil: nobody may
// shut that in.
func heatedIn(d stream.DeadEnd) *graph.Part {
	for _, p := range d.Parts {
		if p.Kind == graph.HeatExchanger || p.Kind == graph.ElementHeater && (p.Element == nil || !p.Element.Disconnected) {
			return p
		}
	}
	return nil
}

// cappedMM is how long pipe to a cap may be, mm: little more than a tee and a cap need. Judgement, no source.
const cappedMM = 300

// longToCap reports pipe that ends at a cap alone far from where the water flows: what stands in it is no less
// for the cap.
func longToCap(in *Input, d stream.DeadEnd, report Report) {
	var end *graph.Part
	for _, p := range d.Parts {
		switch {
		case stream.EndsThere(p.Kind):
			return
		case p.Kind == graph.Cap:
			end = p
		}
	}
	if end == nil || !slices.ContainsFunc(d.Runs, (*graph.Run).New) {
		return
	}
	sum := lengthOf(in, d.Runs)
	if sum <= cappedMM {
		return
	}
	v := in.ask()
	report(false, graph.Diagnostic{
		Pos: d.Runs[0].Pos, Severity: graph.Warning, Related: []graph.Related{here(end)},
		Message: graph.Say("water stands in %s (%s) as far as cap %q, %s; %s at most", quantity.Counted(len(d.Runs), "run"), runNames(d.Runs), end.ID, v.length(sum), v.length(cappedMM)),
		Hint:    graph.Say("cap it within %s of where the water passes, or end it at a drain", v.length(cappedMM)),
	})
}

// hasUnit reports whether a unit stands in a dead end: the rule unit-gets-water speaks of it.
func hasUnit(d stream.DeadEnd) bool {
	for _, p := range d.Parts {
		if p.Kind == graph.HeatPump {
			return true
		}
	}
	return false
}

func feederAfterUV(in *Input, report Report) {
	v := in.ask()
	for _, p := range v.c.Parts {
		if p.Removed || p.Kind != graph.Feeder && p.Kind != graph.SaltCell {
			continue
		}
		before := v.net.Upstream(p)
		for _, spoiler := range v.net.Downstream(p).Parts {
			if spoiler.Kind != graph.UVChamber && spoiler.Kind != graph.OzoneInjector || before.HasPart(spoiler.ID) {
				continue
			}
			report(p.Existing && spoiler.Existing, graph.Diagnostic{
				Pos: p.Pos, Severity: graph.Warning, Related: []graph.Related{here(spoiler)},
				Message: graph.Say("the water passes %s %q before it comes to %s %q, which destroys part of each dose: 1 after it, needs 0", p.Kind, p.ID, spoiler.Kind, spoiler.ID),
				Hint:    graph.Say("move %q to the last place before the tub, after %q", p.ID, spoiler.ID),
			})
		}
	}
}
