package rule

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/settle"
)

// settingRules say how the unit and what else heats are set, and what stops them.
func settingRules() []*Rule {
	return []*Rule{
		{
			Name:     "set-points-agree",
			Asks:     "An element in use is set at least 2 K below the unit, unless a changeover lets one of the two heat at a time; a controller whose element is off, at least 1 K above it; none above 40 °C.",
			Why:      "Set above the unit a live element heats first and the unit never runs; set below it a controller without an element stops calling for circulation before the unit is done.",
			Source:   "common practice, no source; 40 °C: EN 17125 (from memory)",
			Severity: graph.Error,
			Anywhere: true,
			Check:    setPointsAgree,
		},
		{
			Name:     "heat-when-unit-stops",
			Asks:     "Where no element is in use, the unit works down to the coldest air the site names.",
			Why:      "Below its least air it stops, and then nothing keeps the tub from freezing; in a warm room it does not freeze, and cools to the room.",
			Source:   "the unit's data sheet",
			Severity: graph.Error,
			Anywhere: true,
			Check:    heatWhenUnitStops,
		},
		{
			Name:     "unit-reaches-temperature",
			Asks:     "The unit can be set, and is set, to the temperature the water is to have.",
			Why:      "Many units made for pools stop at 32 to 35 °C: the tub never gets warm, and everything else was for nothing.",
			Source:   "the unit's data sheet",
			Severity: graph.Error,
			Anywhere: true,
			Check:    unitReachesTemperature,
		},
		{
			Name:     "high-limit-stops-unit",
			Asks:     "A high limit, the tub's or its own, stops the unit, and it is said.",
			Why:      "The tub's high limit cuts its element, not a unit on a supply of its own: a thermostat that sticks scalds.",
			Source:   "EN 17125, IEC 60335-2-60 (from memory); the wiring is an electrician's",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    highLimitStopsUnit,
		},
		{
			Name:     "pump-runs-for-heat",
			Asks:     "It is said what keeps the unit's pump running while the unit heats.",
			Why:      "A controller that has reached its own set point stops the pump, and the unit goes to fault without flow.",
			Source:   "common practice, no source",
			Severity: graph.Warning,
			Anywhere: true,
			Check:    pumpRunsForHeat,
		},
	}
}

func setPointsAgree(in *Input, report Report) {
	v := in.ask()
	for _, b := range v.branches {
		u := b.Unit
		if u.Unit == nil {
			continue
		}
		set, known := u.Unit.SetPointC, u.Unit.SetPointSet
		if known && set > graph.HottestC {
			most := float64(graph.HottestC)
			if own := v.part(u).MostWater; own.Known {
				most = min(most, own.V)
			}
			report(u.Existing, graph.Diagnostic{
				Pos: key(u, "set-point"), Severity: graph.Error,
				Message: graph.Say("%q is set to %s; %s is the most a bather may meet", u.ID, v.celsius(set), v.celsius(graph.HottestC)),
				Hint:    graph.Say("set it to %s at most, and to %s where a controller has to stand above it", v.celsius(most), v.celsius(most-graph.ControllerAboveK)),
			})
			continue
		}
		for _, e := range v.c.OfKind(graph.ElementHeater) {
			if e.Element == nil || v.net.Apart(e) {
				continue
			}
			called := b.Pump != nil && !slices.ContainsFunc(b.Feeds(), runsByItself)
			d := graph.Diagnostic{Pos: key(e, "set-point"), Severity: graph.Error, Related: []graph.Related{here(u)}}
			has, other := e.Element.SetPointC, e.Element.SetPointSet
			switch {
			case other && has > graph.HottestC:
				d.Message = graph.Say("%q is set to %s; %s is the most a bather may meet", e.ID, v.celsius(has), v.celsius(graph.HottestC))
				d.Hint = graph.Say("set it to %s at most", quantity.Temperature.Of(graph.HottestC))
			case !known:
				continue
			case !e.Element.Disconnected && other && e.Element.Interlock != graph.InterlockChangeover && has > set-graph.ElementBelowK:
				d.Message = graph.Say("element %q is set to %s and %q to %s: it heats first; it needs %s or less", e.ID, v.celsius(has), u.ID, v.celsius(set), v.celsius(set-graph.ElementBelowK))
				d.Hint = graph.Say("set the element %s to %s below the unit, and keep the pump running by circulation hours or the unit's pump contact", quantity.TemperatureDifference.About(graph.ElementBelowK), quantity.TemperatureDifference.About(graph.MostElementBelowK))
			case e.Element.Disconnected && called && set > graph.HottestC-graph.ControllerAboveK:
				d.Pos = key(u, "set-point")
				d.Message = graph.Say("%q is set to %s: no controller can stand above it to keep %q running; it needs %s or less", u.ID, v.celsius(set), b.Pump.ID, v.celsius(graph.HottestC-graph.ControllerAboveK))
				d.Hint = graph.Say("set the unit to %s, or keep the pump running by hours or a contact and write runs-for-heat on it", quantity.Temperature.Of(graph.HottestC-graph.ControllerAboveK))
			case e.Element.Disconnected && called && other && has < set+graph.ControllerAboveK:
				d.Message = graph.Say("the controller of %q, whose element is off, is set to %s and %q to %s: it stops calling for circulation first; it needs %s or more", e.ID, v.celsius(has), u.ID, v.celsius(set), v.celsius(set+graph.ControllerAboveK))
				d.Hint = graph.Say("set the controller %s or more above the unit, or keep the pump running by hours or a contact and write runs-for-heat on it", quantity.TemperatureDifference.About(graph.ControllerAboveK))
			default:
				continue
			}
			report(u.Existing, d)
		}
	}
}

// elementInUse returns an element heater in the unit's water that still heats, or nil.
func elementInUse(v *view) *graph.Part {
	for _, e := range v.c.OfKind(graph.ElementHeater) {
		if !v.net.Apart(e) && (e.Element == nil || !e.Element.Disconnected) {
			return e
		}
	}
	return nil
}

// elementMayPass reports whether an element may heat further than the unit: not one that its
// interlock holds below the unit's set point for good.
func elementMayPass(v *view) bool {
	for _, e := range v.c.OfKind(graph.ElementHeater) {
		if v.net.Apart(e) {
			continue
		}
		if e.Element == nil || !e.Element.Disconnected && e.Element.Interlock != graph.InterlockSetPoint && e.Element.Interlock != graph.InterlockMode {
			return true
		}
	}
	return false
}

// saidAt is the place of a unit's limit: its own key's, or that of the key that names its row.
func saidAt(u *graph.Part, limit settle.Value, name string) graph.Pos {
	if limit.How == settle.Given {
		return key(u, name)
	}
	return key(u, "type")
}

func heatWhenUnitStops(in *Input, report Report) {
	v := in.ask()
	site := v.c.Site
	if !site.AirSet || elementInUse(v) != nil {
		return
	}
	if site.KeptCold(v.waterC()) && site.KeepsFromFreezing() {
		return // it is cooled, and cools to no room
	}
	severity, empty := graph.Error, "name the air down to which the tub is used and empty it before it gets colder"
	if site.KeepsFromFreezing() {
		severity, empty = graph.Warning, "name the air down to which the tub is used, and tell the owner: below it the water cools to the room"
	}
	others := v.net.OtherSources() // one may heat then
	if len(others) > 0 {
		severity = graph.Warning
	}
	for _, u := range v.c.Units() {
		d := graph.Diagnostic{Pos: key(u, "least-air"), Severity: severity, Unit: u.ID}
		if site.Pos.IsValid() {
			d.Related = []graph.Related{{Pos: or(site.KeyPos["air"], site.Pos), Message: "the coldest air is named here"}}
		}
		least := v.part(u).LeastAir
		if least.Known {
			d.Pos = saidAt(u, least, "least-air")
		}
		switch {
		case !least.Known:
			d.Severity = graph.Warning
			d.Message = graph.Say("no element is in use, and how cold the air may be for %q is not said; the site needs %s", u.ID, v.celsius(site.AirC))
			d.Hint = graph.Say("read it from the unit's sheet and write least-air, such as \"%s\"", quantity.Temperature.About(min(-15, math.Floor(site.AirC))))
		case least.V > site.AirC:
			d.Message = graph.Say("no element is in use, and %q stops at %s of air; the site needs %s", u.ID, v.celsius(least.V), v.celsius(site.AirC))
			d.Hint = graph.Say("take a unit that works in air of %s, or keep the element as a back-up and write its interlock in place of disconnected, or ", v.celsius(site.AirC)) + quantity.Text(empty)
		default:
			continue
		}
		if least.Known && len(others) > 0 {
			d.Hint = graph.Say("have whoever looks after the source behind %s see to it that it heats by itself below that air; or ", names(others, func(p *graph.Part) string { return p.ID })) + d.Hint
		}
		report(u.Existing, d)
	}
}

func unitReachesTemperature(in *Input, report Report) {
	v := in.ask()
	want := v.waterC()
	for _, u := range v.c.Units() {
		if u.Unit == nil {
			continue
		}
		d := graph.Diagnostic{Severity: graph.Error}
		most := v.part(u).MostWater
		switch {
		case most.Known && most.V < min(want, graph.HottestC): // hotter than that no water may be, and that is said of the water
			d.Pos = saidAt(u, most, "most-water")
			d.Message = graph.Say("%q heats to %s at most; the water is to have %s", u.ID, v.celsius(most.V), v.celsius(min(want, graph.HottestC)))
			d.Hint = graph.Say("choose a unit whose sheet names the tub's temperature: many made for pools stop at %s to %s", quantity.Temperature.About(32), quantity.Temperature.About(35))
		case u.Unit.SetPointSet && u.Unit.SetPointC > graph.HottestC:
			continue // said of the set point
		case most.Known && u.Unit.SetPointSet && u.Unit.SetPointC > most.V:
			d.Pos = key(u, "set-point")
			d.Message = graph.Say("%q is set to %s; its highest set point is %s", u.ID, v.celsius(u.Unit.SetPointC), v.celsius(most.V))
			d.Hint = "set it within its sheet"
		case u.Unit.SetPointSet && u.Unit.SetPointC < want && want <= graph.HottestC && !elementMayPass(v):
			d.Pos = key(u, "set-point")
			d.Message = graph.Say("%q is set to %s; the water is to have %s, and nothing else heats to that", u.ID, v.celsius(u.Unit.SetPointC), v.celsius(want))
			d.Hint = "set the unit to the water's temperature, or write the lower one in [water]"
		default:
			continue
		}
		report(u.Existing, d)
	}
}

func highLimitStopsUnit(in *Input, report Report) {
	v := in.ask()
	for _, u := range v.c.Units() {
		if u.Unit == nil || u.Unit.StopsAtHighLimit != nil && *u.Unit.StopsAtHighLimit {
			continue
		}
		d := graph.Diagnostic{
			Pos: key(u, "stops-at-high-limit"), Severity: graph.Warning,
			Message: graph.Say("whether a high limit stops %q is not said: 0 of 1 given; the tub's own cuts its element only", u.ID),
			Hint:    "prove the unit's own water cut-out, or have the electrician take its enable contact through the tub's high limit; then write stops-at-high-limit = true",
		}
		if u.Unit.StopsAtHighLimit != nil {
			d.Message = graph.Say("0 high limits stop %q; it needs 1: the tub's own cuts its element only", u.ID)
		}
		report(u.Existing, d)
	}
}

func pumpRunsForHeat(in *Input, report Report) {
	v := in.ask()
	once := tellOnce{at: map[string]int{}} // of two units on one pump: of the new one
	for _, b := range v.branches {
		p := b.Pump
		if p == nil || slices.ContainsFunc(b.Feeds(), runsByItself) { // of several one is enough
			continue
		}
		if b.Unit.Unit != nil && b.Unit.Unit.CalledBy == graph.ByController {
			continue // the controller calls for both
		}
		once.add(p.ID, b.Unit.Existing, graph.Diagnostic{
			Pos: key(p, "runs-for-heat"), Severity: graph.Warning, Related: []graph.Related{here(b.Unit)},
			Message: graph.Say("what keeps pump %q running while %q heats is not said: 0 of hours, contact and always given, needs 1", p.ID, b.Unit.ID),
			Hint:    `write runs-for-heat = "hours" (circulation hours of the controller), "contact" (a pump contact of the unit) or "always"; or called-by = "controller" on the unit`,
		})
	}
	once.tell(report)
}

// runsByItself reports whether it is said what keeps a pump running without the controller's call for heat.
func runsByItself(p *graph.Part) bool {
	return p.Pump == nil || p.Pump.AlwaysOn || p.Pump.RunsForHeat != ""
}
