package practice

import "dryfit/catalog/quantity"

// Controller says what the tub's own controller does to a unit.
func Controller() []Sentence {
	return []Sentence{
		{
			Name: "controller-mode",
			When: func(j *Job) bool { return j.Unit != nil && !j.Cold },
			Say: func(j *Job) quantity.Text {
				jets := quantity.Text("")
				if j.AnyJets {
					jets = ", for one that stops the heater pump while the jets run"
				}
				return "The controller: choose the mode that holds the temperature all day, not one that heats only in its filter hours; set the filter hours; look in its book for a time-out that ends heating after hours without a rise" + jets +
					", and for one that only tastes the water every half hour. In each of them " + j.ofUnits("the unit is", "the units are") + " without flow. Write the settings into the record."
			},
			For: Fitter | Electrician, Source: "controllers' manuals differ; " + common,
		},
		{
			Name: "display-without-element",
			When: func(j *Job) bool { return j.Unit != nil && j.elementOff() },
			Say:  always("Without its element the display may say that it heats, that heating is slow, or show a message of low flow or of a dry heater. Note what it shows. No sensor, switch or limit is bridged to silence it."),
			For:  Fitter | Electrician | Owner, Source: common,
		},
		{
			Name: "defrost",
			When: func(j *Job) bool { return j.Unit != nil && !j.Cold && !(j.SiteAir.Known && j.SiteAir.C >= 7) },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("Below about %s of air ", warm(7)) + j.ofUnits("the unit", "each unit") + " defrosts, 3 to 10 minutes at a time, and takes that heat from the tub: the pump keeps running, the water may fall a little, and steam and water at " + j.ofUnits("the unit", "it") + " are no fault."
			},
			For: Fitter | Owner, Source: memory,
		},
		{
			Name: "plug-in-box",
			When: func(j *Job) bool { return j.PlugIn && len(j.Elements) > 0 },
			Say: func(j *Job) quantity.Text {
				start := quantity.Text("The box of a plug-in tub is often sealed, and opening it ends its approval and the maker's warranty: ")
				if len(j.of((*Element).wired)) > 0 {
					return start + "where the interlock has to be wired into it, the owner agrees in writing first, or the box's own set point holds its heater below the unit instead."
				}
				if j.elementKept() {
					return start + "its own set point or setting is enough here, and it stays shut."
				}
				return start + "where the keypad can switch heating off, prefer that to taking leads off, and write it into the record."
			},
			For: Fitter | Electrician, Source: common,
		},
	}
}

func hasUnit(j *Job) bool { return j.Unit != nil }
