package practice

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// highestUnitC is the most a unit may be set to where the controller has to stand above it, °C.
const highestUnitC = graph.HottestC - graph.ControllerAboveK

// SetPoints says what becomes of each element and what is set to how much.
func SetPoints() []Sentence {
	return slices.Concat(elementsKept(), otherSources(), setTo(), circulationCosts())
}

// otherSources are what is settled of another source that heats the same water, and of a unit that cools it.
func otherSources() []Sentence {
	return []Sentence{
		{
			Name:  "other-source",
			When:  func(j *Job) bool { return j.Unit != nil && len(j.Others) > 0 },
			Names: func(j *Job) []string { return j.Others },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("Another source heats the same water by %s. Before %s switched on it is settled with whoever looks after that source, who alone works on it (a boiler's gas, flue and controls are a licensed trade's), which of the two heats when: it never calls while the unit keeps up, and its thermostat stands %s to %s below the unit's set point. A limit of its own in the tub's water, %s at the most, shuts it: what comes from a boiler or a collector can scald. Neither its heat nor its cost is worked out here.",
					and(j.Others...), j.ofUnits("the unit is", "a unit is"), kelvin(graph.ElementBelowK), kelvin(graph.MostElementBelowK), warm(graph.HottestC))
			},
			For: Fitter | Electrician | Owner, Source: common,
		},
		{
			Name: "cools",
			When: func(j *Job) bool { return j.Unit != nil && j.Cold },
			Say:  always("The unit has to be one that its maker made to cool water, and to this temperature: its exchanger freezes and bursts where it is set lower than its sheet allows, or where the flow fails. Its flow switch is proved before it is left alone, by shutting the valve before it slowly."),
			For:  Fitter | Electrician, Source: common,
		},
	}
}

// elementsKept are what becomes of each element.
func elementsKept() []Sentence {
	return []Sentence{
		{
			Name: "element-disconnected",
			When: func(j *Job) bool { return j.Unit != nil && len(j.of((*Element).off)) > 0 },
			Say: func(j *Job) quantity.Text {
				off := j.of((*Element).off)
				if j.PlugIn && j.elementOff() { // the keypad switches them all
					heats := quantity.Text("heats no more: its")
					if len(off) > 1 {
						heats = "heat no more: their"
					}
					return quantity.Say("%s %s heating is switched off at the keypad where that holds through a power cut; else a qualified electrician isolates the box, proves it dead and takes the leads off. Either way it is written into the record.", quantity.Capital(withPower(off)), heats)
				}
				return quantity.Capital(withPower(off)) + ": a qualified electrician isolates the tub, proves it dead, takes the leads off and makes them safe, and signs the record."
			},
			For: Fitter | Electrician, Source: common,
		},
		{
			Name: "element-kept",
			When: func(j *Job) bool { return j.Unit != nil && j.elementKept() },
			Say: func(j *Job) quantity.Text {
				var text quantity.Text
				kept, it := j.of((*Element).kept), quantity.Text("it")
				for _, e := range kept {
					text += quantity.Say("%s stays in use: %s. ", quantity.Capital(e.called()), interlockWords(e.Interlock)+j.changesOverAt(e.Interlock))
				}
				if len(kept) > 1 {
					it = "each"
				}
				return text + quantity.Say("A qualified electrician wires %s, tries it with %s on and off, and signs the record.", it, j.theUnit())
			},
			For: Fitter | Electrician, Source: common,
		},
		{
			Name: "element-not-settled",
			When: func(j *Job) bool { return j.unsettled() && j.Unit != nil },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("NOT SETTLED: what becomes of %s. Before %s switched on the electrician disconnects it, or keeps it in use under a contact, a changeover, a set point %s to %s below %s, or the controller's own setting for another heat source.", withPower(j.of((*Element).open)), j.ofUnits("the unit is", "a unit is"), kelvin(graph.ElementBelowK), kelvin(graph.MostElementBelowK), j.ofUnits("the unit's", "those of the units"))
			},
			For: Fitter | Electrician, Source: common,
		},
	}
}

// setTo are the set points, and what keeps the pump running at them.
func setTo() []Sentence {
	return []Sentence{
		{
			Name:  "element-below",
			When:  func(j *Job) bool { return j.Unit != nil && j.elementKept() && !j.changedOver() },
			Tells: []Act{SetElementBelow},
			Say: func(j *Job) quantity.Text {
				lowest, _ := j.setsBetween()
				lowest = min(lowest, graph.HottestC)
				text := quantity.Say("Set points: %s; %s %s to %s below %s, %s to %s%s.", j.setPoints(graph.HottestC), j.whoseSets(), kelvin(graph.ElementBelowK), kelvin(graph.MostElementBelowK),
					j.ofUnits("it", "the lowest of them"), quantity.Temperature.Of(lowest-graph.MostElementBelowK), quantity.Temperature.Of(lowest-graph.ElementBelowK), j.setsDescribed())
				return text + " The controller then does not call while the unit keeps up, so something else keeps the pump running: " + keeper(j) + "."
			},
			For: Fitter | Electrician | Owner, Source: common,
		},
		{
			Name: "element-changed-over",
			When: func(j *Job) bool { return j.Unit != nil && j.elementKept() && j.changedOver() },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("Set points: %s; %s may be the same, for the changeover lets one of the two heat at a time%s. While the unit heats something keeps the pump running: %s.", j.setPoints(graph.HottestC), j.whoseSets(), j.setsDescribed(), keeper(j))
			},
			For: Fitter | Electrician | Owner, Source: common,
		},
		{
			Name:  "controller-above",
			When:  func(j *Job) bool { return j.Unit != nil && j.elementOff() && callsPump(j) },
			Tells: []Act{SetControllerAbove},
			Say: func(j *Job) quantity.Text {
				_, highest := j.setsBetween()
				highest = min(highest, highestUnitC)
				return quantity.Say("Set points: %s; the controller, whose element is disconnected, at least %s above %s, %s or more: it then calls for circulation the whole time and %s the regulating. %s is the most any of them may be set to, so %s at %s at most.",
					j.setPoints(highestUnitC), kelvin(graph.ControllerAboveK), j.ofUnits("it", "the highest of them"), quantity.Temperature.Of(highest+graph.ControllerAboveK), j.ofUnits("the unit does", "the units do"),
					warm(graph.HottestC), j.ofUnits("the unit stands", "the units stand"), quantity.Temperature.Of(highestUnitC))
			},
			For: Fitter | Electrician | Owner, Source: common + "; the 40 °C: EN 17125, IEC 60335-2-60 (from memory)",
		},
		{
			Name: "unit-regulates",
			When: func(j *Job) bool {
				return j.Unit != nil && !j.elementKept() && !j.unsettled() && !(j.elementOff() && callsPump(j))
			},
			Say: func(j *Job) quantity.Text {
				if j.several() {
					return quantity.Say("Set points: %s; the units do the regulating, and their pump runs by itself: %s.", j.setPoints(graph.HottestC), keeper(j))
				}
				return quantity.Say("Set point: %s, which does the regulating; its pump runs by itself: %s.", j.setPoints(graph.HottestC), keeper(j))
			},
			For: Fitter | Owner, Source: common,
		},
	}
}

// changedOver reports whether a changeover keeps every element that stays from heating at once with the unit.
func (j *Job) changedOver() bool {
	return !slices.ContainsFunc(j.of((*Element).kept), func(e *Element) bool { return e.Interlock != graph.InterlockChangeover })
}

// whoseSets names the set points of the elements that stay: one by itself, several each by its name.
func (j *Job) whoseSets() quantity.Text {
	kept := j.of((*Element).kept)
	if len(kept) == 1 {
		return "the element's (the controller's own)"
	}
	var names []string
	for _, e := range kept {
		names = append(names, e.ID)
	}
	return quantity.Say("those of %s (each its controller's own)", and(names...))
}

// setsDescribed says what elements that stay are set to already, as described; "" where nobody says it.
func (j *Job) setsDescribed() quantity.Text {
	var out quantity.Text
	kept := j.of((*Element).kept)
	for _, e := range kept {
		if !e.SetPoint.Known {
			continue
		}
		whose := quantity.Text("it")
		if len(kept) > 1 {
			whose = quantity.Text(e.ID)
		}
		out += quantity.Say("; %s is set to %s, as described", whose, quantity.Temperature.Of(e.SetPoint.C))
	}
	return out
}

// circulationCosts are what it costs that the pump runs for the unit.
func circulationCosts() []Sentence {
	return []Sentence{
		{
			Name: "cost-of-circulation",
			When: func(j *Job) bool {
				return j.Unit != nil && j.Pump.PowerW > 0 && !j.Pump.always() && j.Pump.RunsForHeat != "contact"
			},
			Say: func(j *Job) quantity.Text {
				return quantity.Say("A pump that runs for %s costs: %s day and night are %s a day. ", j.theUnit(), quantity.Power.Of(j.Pump.PowerW), aDay(j.Pump.PowerW)) + j.summerHeat() +
					" Shorten the hours then, and never below what the filter and the disinfectant want."
			},
			For: Fitter | Owner, Source: "24 h times the pump's power; the rest " + common,
		},
		{
			Name: "cost-by-contact",
			When: func(j *Job) bool {
				return j.Unit != nil && j.Pump.PowerW > 0 && !j.Pump.AlwaysOn && j.Pump.RunsForHeat == "contact"
			},
			Say: func(j *Job) quantity.Text {
				return quantity.Say("A pump that runs for %s costs: %s, %s for each hour in which a contact calls it, %s where that is day and night.", j.theUnit(), quantity.Power.Of(j.Pump.PowerW), quantity.Energy.Of(j.Pump.PowerW/1000), aDay(j.Pump.PowerW))
			},
			For: Fitter | Owner, Source: "hours times the pump's power",
		},
		{
			Name: "cost-always-on",
			When: func(j *Job) bool { return j.Unit != nil && j.Pump.PowerW > 0 && j.Pump.always() },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("The pump runs day and night, with %s or without: %s are %s a day. ", j.theUnit(), quantity.Power.Of(j.Pump.PowerW), aDay(j.Pump.PowerW)) + j.summerHeat()
			},
			For: Fitter | Owner, Source: "24 h times the pump's power; the rest " + common,
		},
	}
}

// summerHeat is what a pump's power comes to.
func (j *Job) summerHeat() quantity.Text {
	if j.Cold {
		return "Most of it ends as heat in the water, which " + j.theUnit() + j.ofUnits(" has", " have") + " to take out again."
	}
	return "Most of it ends as heat in the water: under a good cover in summer the tub may go above its set point with nothing heating it."
}

// always reports whether the pump runs all the time: by itself, or for the unit.
func (p *Pump) always() bool { return p.AlwaysOn || p.RunsForHeat == "always" }

// callsPump reports whether the controller's call is what keeps the unit's pump running.
func callsPump(j *Job) bool { return !j.Pump.AlwaysOn && j.Pump.RunsForHeat == "" }

// keeper says what keeps the pump running.
func keeper(j *Job) quantity.Text {
	switch {
	case j.Pump.always():
		return "it is never switched off"
	case j.Pump.RunsForHeat == "hours":
		return "the controller's circulation hours, set to cover the hours of heating"
	case j.Pump.RunsForHeat == "contact":
		return "the pump contact of " + j.ofUnits("the unit", "the units") + ", wired by the electrician"
	}
	return "circulation hours of the controller, or a pump contact of " + j.ofUnits("the unit", "each unit") + " wired by the electrician"
}

// changesOverAt says in what air a changeover stands to the element at the latest: where the unit
// stops.
func (j *Job) changesOverAt(way string) quantity.Text {
	switch {
	case way != "changeover":
		return ""
	case j.Unit.LeastAir.Known:
		return quantity.Say("; it goes to the element in air below %s at the latest, the least the unit works in, by its air thermostat or by hand, and the air it is set to stands in the record", quantity.Temperature.Of(j.Unit.LeastAir.C))
	}
	return "; it goes to the element in air below the least the unit works in (read it from its sheet), by its air thermostat or by hand, and the air it is set to stands in the record"
}

func interlockWords(way string) quantity.Text {
	switch way {
	case "contact":
		return "a contact of the unit releases it only when the unit asks for help"
	case "changeover":
		return "a changeover feeds either the unit or the element, never both"
	case "set-point":
		return "its set point stands below the unit's, so that it helps only when the unit can't keep up"
	case "controller-mode":
		return "the controller's own setting for another heat source holds it back"
	}
	return quantity.Text(way)
}

// elements names every element with its power.
func elements(j *Job) quantity.Text {
	return withPower(j.of(func(*Element) bool { return true }))
}

// withPower names elements, each with its power.
func withPower(list []*Element) quantity.Text {
	var out []quantity.Text
	for _, e := range list {
		out = append(out, e.called())
	}
	return and(out...)
}

// called names an element with its power.
func (e *Element) called() quantity.Text {
	if e.PowerW > 0 {
		return quantity.Say("element %s (%s)", e.ID, quantity.Power.Of(e.PowerW))
	}
	return quantity.Text("element " + e.ID)
}

// HighLimit says what stops the unit when the water gets too hot.
func HighLimit() []Sentence {
	return []Sentence{
		{
			Name: "high-limit-not-the-unit",
			When: func(j *Job) bool {
				return j.Unit != nil && len(j.unlimited()) > 0
			},
			Say: func(j *Job) quantity.Text {
				apart := quantity.Text(" on a supply of its own. ")
				if j.sharesCircuit() {
					apart = ". "
				}
				limit, through := "The tub's high limit cuts its own element, not a unit"+apart, quantity.Text("the tub's high limit")
				if len(j.Elements) == 0 {
					limit, through = "Nothing of the tub's own stops a unit"+apart, "a high limit in the water"
				}
				whose, its := quantity.Text("the unit's own water cut-out"), quantity.Text("its enable contact")
				if names := j.unlimited(); j.several() {
					whose = quantity.Say("the water cut-out of %s itself", and(names...))
					if len(names) > 1 {
						whose, its = quantity.Say("the own water cut-outs of %s, one by one,", and(names...)), "their enable contacts"
					}
				}
				return limit + quantity.Say("Prove %s before anybody bathes, or the electrician takes %s through %s.", whose, its, through)
			},
			For: Fitter | Electrician, Source: common + "; EN 17125, IEC 60335-2-60 (from memory)",
		},
		{
			Name: "high-limit-proved",
			When: func(j *Job) bool { return j.Unit != nil && len(j.unlimited()) < len(j.units()) },
			Say: func(j *Job) quantity.Text {
				who := quantity.Text("The unit stops")
				if j.several() {
					var names []string
					for _, u := range j.units() {
						if u.StopsAtHighLimit != nil && *u.StopsAtHighLimit {
							names = append(names, u.ID)
						}
					}
					if who = and(names...) + " stops"; len(names) > 1 {
						who = and(names...) + " stop"
					}
				}
				return who + " at a high limit, as described: the electrician proves it once and writes it into the record. No limit is ever bridged."
			},
			For: Fitter | Electrician, Source: common,
		},
	}
}
