package practice

import (
	"fmt"
	"strings"
)

// HighestUnitC is the most a unit may be set to where the controller has to stand above it,
// °C: no controller goes above the 40 °C of EN 17125 and IEC 60335-2-60 (from memory).
const HighestUnitC = 39

// How far the element's set point stands below the unit's, K. Common practice, no source.
const (
	LeastBelowK = 2
	MostBelowK  = 3
)

// SetPoints says what becomes of each element and what is set to how much.
func SetPoints() []Sentence {
	return []Sentence{
		{
			Name: "element-disconnected",
			When: func(j *Job) bool { return j.elementOff() },
			Say: func(j *Job) string {
				if j.PlugIn {
					return fmt.Sprintf("%s heats no more: its heating is switched off at the keypad where that holds through a power cut; else a qualified electrician isolates the box, proves it dead and takes the leads off. Either way it is written into the record.", capital(elements(j)))
				}
				return capital(elements(j)) + ": a qualified electrician isolates the tub, proves it dead, takes the leads off and makes them safe, and signs the record."
			},
			For: Fitter | Electrician, Source: common,
		},
		{
			Name: "element-kept",
			When: func(j *Job) bool { return j.elementKept() != nil },
			Say: func(j *Job) string {
				e := j.elementKept()
				return fmt.Sprintf("%s stays in use: %s. A qualified electrician wires it, tries it with the unit on and off, and signs the record.", capital(elements(j)), interlockWords(e.Interlock))
			},
			For: Fitter | Electrician, Source: common,
		},
		{
			Name: "element-not-settled",
			When: func(j *Job) bool { return j.unsettled() && j.Unit != nil },
			Say: func(j *Job) string {
				return fmt.Sprintf("NOT SETTLED: what becomes of %s. Before the unit is switched on the electrician disconnects it, or keeps it in use under a contact, a changeover, a set point 2 to 3 K below the unit's, or the controller's own setting for another heat source.", elements(j))
			},
			For: Fitter | Electrician, Source: common,
		},
		{
			Name:  "element-below",
			When:  func(j *Job) bool { return j.Unit != nil && j.elementKept() != nil },
			Tells: []Act{SetElementBelow},
			Say: func(j *Job) string {
				unit := j.setPoint()
				text := fmt.Sprintf("Set points: unit %s; the element's (the controller's own) 2 to 3 K below it, %s to %s.", j.temp(unit), j.temp(unit-MostBelowK), j.temp(unit-LeastBelowK))
				return text + " The controller then does not call while the unit keeps up, so something else keeps the pump running: " + keeper(j) + "."
			},
			For: Fitter | Electrician | Owner, Source: common,
		},
		{
			Name:  "controller-above",
			When:  func(j *Job) bool { return j.Unit != nil && j.elementOff() && callsPump(j) },
			Tells: []Act{SetControllerAbove},
			Say: func(j *Job) string {
				unit := min(j.setPoint(), HighestUnitC)
				return fmt.Sprintf("Set points: unit %s; the controller, whose element is disconnected, at least %s above it, %s or more: it then calls for circulation the whole time and the unit does the regulating. 40 °C (104 °F) is the most any of them may be set to, so the unit stands at 39 °C (102 °F) at most.",
					j.temp(unit), j.kelvin(1), j.temp(unit+1))
			},
			For: Fitter | Electrician | Owner, Source: common + "; the 40 °C: EN 17125, IEC 60335-2-60 (from memory)",
		},
		{
			Name: "unit-regulates",
			When: func(j *Job) bool {
				return j.Unit != nil && j.elementKept() == nil && !j.unsettled() && !(j.elementOff() && callsPump(j))
			},
			Say: func(j *Job) string {
				return fmt.Sprintf("Set point: unit %s, which does the regulating; its pump runs by itself: %s.", j.temp(j.setPoint()), keeper(j))
			},
			For: Fitter | Owner, Source: common,
		},
		{
			Name: "cost-of-circulation",
			When: func(j *Job) bool {
				return j.Unit != nil && j.Pump.PowerW > 0 && !j.Pump.AlwaysOn && j.Pump.RunsForHeat != "contact"
			},
			Say: func(j *Job) string {
				return fmt.Sprintf("A pump that runs for the unit costs: %.0f W day and night are %.1f kWh a day. ", j.Pump.PowerW, j.Pump.PowerW*24/1000) + summerHeat +
					" Shorten the hours then, and never below what the filter and the disinfectant want."
			},
			For: Fitter | Owner, Source: "24 h times the pump's power; the rest " + common,
		},
		{
			Name: "cost-by-contact",
			When: func(j *Job) bool {
				return j.Unit != nil && j.Pump.PowerW > 0 && !j.Pump.AlwaysOn && j.Pump.RunsForHeat == "contact"
			},
			Say: func(j *Job) string {
				return fmt.Sprintf("A pump that runs for the unit costs: %.0f W, %.2f kWh for each hour in which the unit's contact calls it, %.1f kWh where that is day and night.", j.Pump.PowerW, j.Pump.PowerW/1000, j.Pump.PowerW*24/1000)
			},
			For: Fitter | Owner, Source: "hours times the pump's power",
		},
		{
			Name: "cost-always-on",
			When: func(j *Job) bool { return j.Unit != nil && j.Pump.PowerW > 0 && j.Pump.AlwaysOn },
			Say: func(j *Job) string {
				return fmt.Sprintf("The pump runs day and night, with the unit or without: %.0f W are %.1f kWh a day. ", j.Pump.PowerW, j.Pump.PowerW*24/1000) + summerHeat
			},
			For: Fitter | Owner, Source: "24 h times the pump's power; the rest " + common,
		},
	}
}

// summerHeat is what a pump's power comes to.
const summerHeat = "Most of it ends as heat in the water: under a good cover in summer the tub may go above its set point with nothing heating it."

// callsPump reports whether the controller's call is what keeps the unit's pump running.
func callsPump(j *Job) bool { return !j.Pump.AlwaysOn && j.Pump.RunsForHeat == "" }

// keeper says what keeps the pump running.
func keeper(j *Job) string {
	switch {
	case j.Pump.AlwaysOn || j.Pump.RunsForHeat == "always":
		return "it is never switched off"
	case j.Pump.RunsForHeat == "hours":
		return "the controller's circulation hours, set to cover the hours of heating"
	case j.Pump.RunsForHeat == "contact":
		return "the pump contact of the unit, wired by the electrician"
	}
	return "circulation hours of the controller, or a pump contact of the unit wired by the electrician"
}

func interlockWords(way string) string {
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
	return way
}

// elements names every element with its power.
func elements(j *Job) string {
	var out []string
	for _, e := range j.Elements {
		if e.PowerW > 0 {
			out = append(out, fmt.Sprintf("element %s (%.1f kW)", e.ID, e.PowerW/1000))
		} else {
			out = append(out, "element "+e.ID)
		}
	}
	return and(out...)
}

// HighLimit says what stops the unit when the water gets too hot.
func HighLimit() []Sentence {
	return []Sentence{
		{
			Name: "high-limit-not-the-unit",
			When: func(j *Job) bool {
				return j.Unit != nil && (j.Unit.StopsAtHighLimit == nil || !*j.Unit.StopsAtHighLimit)
			},
			Say: always("The tub's high limit cuts its own element, not a unit on a supply of its own. Prove the unit's own water cut-out before anybody bathes, or the electrician takes its enable contact through the tub's high limit."),
			For: Fitter | Electrician, Source: common + "; EN 17125, IEC 60335-2-60 (from memory)",
		},
		{
			Name: "high-limit-proved",
			When: func(j *Job) bool { return j.Unit != nil && j.Unit.StopsAtHighLimit != nil && *j.Unit.StopsAtHighLimit },
			Say:  always("The unit stops at a high limit, as described: the electrician proves it once and writes it into the record. No limit is ever bridged."),
			For:  Fitter | Electrician, Source: common,
		},
	}
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
