package practice

import (
	"slices"

	"dryfit/catalog/quantity"
)

// Frost says what heats when it is cold, and what to do when nothing does.
func Frost() []Sentence {
	return []Sentence{
		{
			Name: "unit-alone",
			When: func(j *Job) bool { return j.unitAlone() },
			Say: func(j *Job) quantity.Text {
				if j.several() {
					return "The units alone heat, and not below the least air of each: " + j.leastAirs() + ". In colder air the tub is used only after " + j.reconnected() + "; else " + j.unheated() + "."
				}
				text := quantity.Text("The unit alone heats, and not below its least air")
				switch {
				case j.Unit.LeastAir.Known && j.SiteAir.Known && j.SiteAir.C < j.Unit.LeastAir.C:
					return text + quantity.Say(", %s: the site gets colder, %s. The tub is used in colder air only after %s; else %s.", quantity.Temperature.Of(j.Unit.LeastAir.C), quantity.Temperature.Of(j.SiteAir.C), j.reconnected(), j.unheated())
				case j.Unit.LeastAir.Known:
					return text + quantity.Say(", %s. In colder air the tub is used only after %s; else %s.", quantity.Temperature.Of(j.Unit.LeastAir.C), j.reconnected(), j.unheated())
				}
				return text + " (read it from its sheet). In colder air the tub is used only after " + j.reconnected() + "; else " + j.unheated() + "."
			},
			Tells: []Act{ReconnectFirst}, For: Fitter | Owner, Source: common,
		},
		{
			Name:  "unit-and-another-source",
			When:  func(j *Job) bool { return j.Unit != nil && !j.Cold && len(j.Others) > 0 && j.MayFreeze() },
			Names: func(j *Job) []string { return j.Others },
			Say: func(j *Job) quantity.Text {
				least := quantity.Text(" (read it from its sheet)")
				switch {
				case j.several():
					least = ": " + j.leastAirs()
				case j.Unit.LeastAir.Known:
					least = quantity.Say(", %s", quantity.Temperature.Of(j.Unit.LeastAir.C))
				}
				return j.ofUnits("The unit heats not below its least air", "The units heat not below the least air of each") + least +
					". In colder air the other source has to, by " + and(j.Others...) + ": whether it does is tried before the winter; where it does not, " + j.unheated() + "."
			},
			For: Fitter | Owner, Source: common,
		},
		{
			Name: "no-heat-in-frost-protection",
			When: func(j *Job) bool { return j.elementOff() && j.unitComesOrGoes() && j.MayFreeze() && !j.Cold },
			Say:  always("The controller's freeze protection runs the pump, but it has no heat without its element: it buys hours, not days."),
			For:  Fitter | Owner, Source: common,
		},
		{
			Name:  "first-hour",
			When:  func(j *Job) bool { return j.Unit != nil && j.MayFreeze() },
			Tells: []Act{UseVacuum},
			Names: func(j *Job) []string {
				return slices.Concat(j.Isolators(), j.Bypass, j.Drains, j.Bleeds)
			},
			Say: func(j *Job) quantity.Text {
				text := quantity.Say("The first hour of a frost without power: cover on and clipped; look whether only the tub's own breaker fell, and don't reset one twice. %s and the outside pipes freeze first, in an hour or two: ", quantity.Capital(j.theUnit()))
				text += emptyBranch(j) + " While there is power, leave the pump running."
				if j.WarmRoom {
					return text + " The tub itself stands in a room: its water cools to that."
				}
				return text + quantity.Say(" If the power stays away until the water falls below %s, empty the tub.", warm(5))
			},
			For: Owner | Fitter, Source: common,
		},
	}
}

// emptyBranch says how this job's branch to the unit is emptied.
func emptyBranch(j *Job) quantity.Text {
	var text quantity.Text
	if j.isolated() {
		text = j.off()
		if len(j.Bypass) > 0 { // or a pump that starts again has no way
			text += ", open " + and(j.Bypass...) + " fully"
		}
		text += ", shut " + and(j.Isolators()...) + ", then "
	} else {
		text = j.off() + "; no isolators stand in its pipes, so the tub is emptied below them first; then "
	}
	switch {
	case len(j.Drains) > 0:
		text += "open " + and(j.Drains...) + plugWords(j) + ", and to let air in " + airIn(j)
	case len(j.Bleeds) > 0:
		text += "open " + and(j.Bleeds...) + " to let air in and undo the unions at " + j.ofUnits("the unit", "each unit") + " (the lower one first)" + plugWords(j)
	default:
		text += "undo the unions at " + j.ofUnits("the unit", "each unit") + " (the lower one first)" + plugWords(j)
	}
	text += ". What stays in a low place is sucked out with a wet vacuum: no compressor on plastic pipe or on " + j.ofUnits("the unit", "a unit") + "."
	return text
}

// airIn says what is opened at the top, without which a shut branch does not run out below.
func airIn(j *Job) quantity.Text {
	if len(j.Bleeds) > 0 {
		return and(j.Bleeds...)
	}
	return "ease the higher union at " + j.ofUnits("the unit", "each unit")
}

func plugWords(j *Job) quantity.Text {
	switch {
	case j.several():
		return " and each unit's own drain plug, where its sheet shows one"
	case j.Unit == nil, j.Unit.DrainPlug != nil && !*j.Unit.DrainPlug:
		return ""
	case j.Unit.DrainPlug == nil:
		return " and the unit's own drain plug, if its sheet shows one"
	}
	return " and the unit's own drain plug"
}

// LayUp says what becomes of the branch in winter, and of the tub.
func LayUp() []Sentence {
	return []Sentence{
		{
			Name: "unit-laid-up-element-off",
			When: func(j *Job) bool { return j.Unit != nil && j.elementOff() && j.MayFreeze() },
			Say: func(j *Job) quantity.Text {
				return "The tub is used without the unit in frost only after " + j.reconnected() + "; else " + j.unheated() + "."
			},
			Tells: []Act{ReconnectFirst}, For: Fitter | Owner, Source: common,
		},
		{
			Name: "unit-laid-up-element-kept",
			When: func(j *Job) bool { return j.Unit != nil && j.elementTakesOver() != "" },
			Say: func(j *Job) quantity.Text {
				back := quantity.Text(". It is put back before ")
				if len(j.of((*Element).kept)) > 1 {
					back = ". Each is put back before "
				}
				return "While " + j.ofUnits("the unit is", "the units are") + " off for service or laid up, " + j.elementTakesOver() + back + j.theUnit() + " may heat again."
			},
			For: Fitter | Owner | Electrician, Source: common,
		},
		{
			Name:  "lay-up-branch",
			When:  hasUnit,
			Tells: []Act{UseVacuum},
			Names: func(j *Job) []string {
				return slices.Concat(j.Isolators(), j.Bypass, j.Drains, j.Bleeds)
			},
			Say: func(j *Job) quantity.Text {
				return "Laying the unit up: " + emptyBranch(j) + " Leave open what was opened, and cover open ends loosely against dirt and insects."
			},
			For: Fitter | Owner, Source: common,
		},
		{
			Name: "dead-leg",
			When: hasUnit,
			Say:  always("A branch that is shut off but full is a dead leg: empty it, or open it and circulate with disinfected water for a quarter of an hour every week."),
			For:  Fitter | Owner, Source: "HSG282 asks for weekly flushing (from memory); the quarter of an hour " + common,
		},
	}
}

// unitComesOrGoes reports whether the job has a unit or takes one out: where no work is done an element heats as
// it did.
func (j *Job) unitComesOrGoes() bool { return j.Unit != nil || len(j.Leaves) > 0 }
