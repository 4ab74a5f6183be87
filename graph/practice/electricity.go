package practice

import (
	"slices"
	"strings"

	"dryfit/catalog/quantity"
)

// Distances and protection are quoted from memory of the standards named; the electrician
// decides by the edition that is in force where the tub stands.
const electricStandards = "IEC 60364-7-702, BS 7671 section 702, NEC article 680 (from memory)"

// What saves a person who touches a live part. The types of residual current devices are
// those of IEC 60755; North America's ground-fault circuit-interrupters of class A trip at 4 to
// 6 mA (UL 943, NEC articles 100 and 680, from memory), and 30 mA would not do there.
const (
	residualCurrent quantity.Text = "Residual current protection of 30 mA, of type A at least"
	groundFault     quantity.Text = "ground-fault protection for persons, class A (it trips at 4 to 6 mA)"
)

// FaultProtection names the device that saves a person, and what it has to be, for the
// electrician's form.
func (j *Job) FaultProtection() (device, wanted string) {
	if j.Region == "us" {
		return "Ground-fault protection", "for persons, class A (4 to 6 mA), as the code asks"
	}
	return "Residual current device", "30 mA, type A at least; F or B where " + j.OfUnits("the unit's", "a unit's") + " sheet asks"
}

// pme reports whether the earth comes with the neutral as protective multiple earthing has it.
// North America's service earth is made so too, but grounding there goes by the NEC alone.
func (j *Job) pme() bool { return j.Earthing == "tn-c-s" && j.Region != "us" }

// fiveFeet is the distance of NEC article 680, mm (from memory).
const fiveFeet = 5 * 304.8

// Electricity is what the electrician decides, on his own sheet.
func Electricity() []Sentence {
	list := slices.Concat([]Sentence{
		{
			Name: "electrician-only",
			When: hasUnit,
			Say:  always("A qualified electrician only, by the local code, decides on everything in this section."),
		},
		{
			Name: "own-circuit",
			When: hasUnit,
			Say:  (*Job).circuits,
		},
		{
			Name: "residual-current",
			When: hasUnit,
			Say:  (*Job).residual,
		},
		{
			Name: "earthing-pme",
			When: func(j *Job) bool { return j.Unit != nil && j.pme() },
			Say:  always("The supply's earth is combined with its neutral (TN-C-S, protective multiple earthing): the electrician decides whether an electrode of its own, an earth mat or a separate TT earth is wanted before bathers and the unit's metal case share that earth."),
		},
		{
			Name: "earthing-unknown",
			When: func(j *Job) bool { return j.Unit != nil && j.Earthing == "" },
			Say:  always("Which earthing the supply has is not written: the electrician finds it. With protective multiple earthing (TN-C-S) he decides on an electrode or an earth mat."),
		},
		{
			Name: "earthing-other",
			When: func(j *Job) bool { return j.Unit != nil && j.Earthing != "" && !j.pme() },
			Say: func(j *Job) quantity.Text {
				return "Earthing as described, " + earthingWords(j.Earthing) + ": the electrician proves it and bonds the metal parts the code names."
			},
		},
	}, distances(), []Sentence{
		{
			Name:   "propane-zone",
			When:   func(j *Job) bool { return len(j.burning())+len(j.unread()) > 0 },
			Say:    (*Job).clearZone,
			Source: "IEC 60335-2-40 (from memory); R290 units' manuals",
		},
		{
			Name: "record-tests",
			When: hasUnit,
			Say: func(j *Job) quantity.Text {
				with := quantity.Text("the unit connected")
				if j.several() {
					with = "each unit connected, " + j.unitsCalled() + " one by one"
				}
				device, _ := j.FaultProtection()
				return "The electrician tests insulation, earth, " + quantity.Text(strings.ToLower(device)) + " and high limit with " + with + ", and signs the record."
			},
		},
	})
	for i := range list {
		list[i].For = Electrician | Fitter
		if list[i].Source == "" {
			list[i].Source = electricStandards
		}
	}
	return list
}

// distances are how far what is electric stands from the water, by region.
func distances() []Sentence {
	return []Sentence{
		{
			Name: "distance-uk",
			When: func(j *Job) bool { return j.Unit != nil && j.Region == "uk" },
			Say:  always(quantity.Say("United Kingdom: zone 1 reaches %s from the rim, zone 2 to %s. No isolator, socket or junction box within %s; the unit itself at %s or more.", far(2000), far(3500), far(2000), far(2000))),
		},
		{
			Name: "distance-eu",
			When: func(j *Job) bool { return j.Unit != nil && j.Region == "eu" },
			Say:  always(quantity.Say("IEC 60364-7-702: zone 1 reaches %s from the rim, zone 2 to %s. Isolator and unit outside zone 1; some countries ask for %s or %s.", far(2000), far(3500), far(3000), far(3500))),
		},
		{
			Name: "distance-us",
			When: func(j *Job) bool { return j.Unit != nil && j.Region == "us" },
			Say:  always(quantity.Say("North America: the disconnect stands in sight of the equipment and at least %s from the water; metal within %s is bonded with 8 AWG solid copper.", far(fiveFeet), far(fiveFeet))),
		},
		{
			Name: "distance-unknown",
			When: func(j *Job) bool { return j.Unit != nil && j.Region == "" },
			Say:  always(quantity.Say("Isolator and unit out of reach of bathers: by IEC 60364-7-702 and BS 7671 outside zone 1, %s from the rim; by NEC 680 the disconnect at least %s from the water and in sight. The local code counts.", far(2000), far(fiveFeet))),
		},
	}
}

// residual says which residual current protection the region asks for.
func (j *Job) residual() quantity.Text {
	switch j.Region {
	case "us":
		return "Ground" + groundFault[len("ground"):] + ", where the code asks for it at the tub and at " + j.ofUnits("the unit's", "each unit's") + " circuit; the sheet of " + j.theUnit() + " may ask for more."
	case "":
		return residualCurrent + "; of type F or B where " + j.ofUnits("the unit's", "a unit's") + " sheet asks for it (inverters often do); never type AC. In North America: " + groundFault + "."
	}
	return residualCurrent + "; of type F or B where " + j.ofUnits("the unit's", "a unit's") + " sheet asks for it (inverters often do); never type AC."
}

// clearZone is what has to stay out of the zone round a unit whose refrigerant burns, or may.
func (j *Job) clearZone() quantity.Text {
	start := "Read the refrigerant on " + j.ofUnits("the unit's", "each unit's") + " plate. If it is R290 (propane): "
	if burn := j.burning(); len(burn) > 0 {
		holds := quantity.Text(" holds")
		if len(burn) > 1 {
			holds = " hold"
		}
		var what []string
		for _, u := range burn {
			if !slices.Contains(what, u.Refrigerant) {
				what = append(what, u.Refrigerant)
			}
		}
		start = quantity.Capital(j.called(burn)) + holds + quantity.Text(" propane or the like ("+strings.Join(what, ", ")+")")
		if list := j.unread(); len(list) > 0 {
			start += ", and " + j.called(list) + " may, which stands on the plate"
		}
		start += ": "
	}
	vent := "cabinet vent"
	if j.PlugIn || j.NoCabinet {
		vent = "vent"
	}
	return start + quantity.Say("inside the clear zone of its manual, about %s all round and down to the ground, there is no drain or gully, no %s, no window or door, no pit or stair, no switch or socket, and nothing that sparks or burns. The tub's own drain, vents and pump switches count.", far(1000), vent)
}

func earthingWords(e string) quantity.Text {
	switch e {
	case "tt":
		return "TT (an electrode at the house)"
	case "tn-c-s":
		return "TN-C-S (earth and neutral are one as far as the service)"
	}
	return "TN-S (a separate earth from the supply)"
}
