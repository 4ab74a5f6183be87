package practice

import (
	"slices"

	"dryfit/catalog/quantity"
)

// setDown is the one unit the work sets down, else the one the job is about.
func setDown(j *Job) *Unit {
	if list := j.newUnits(); len(list) > 0 {
		return list[0]
	}
	return j.Unit
}

// standing says on what each unit of the work stands, those on the same together.
func standing(j *Job) quantity.Text {
	list := j.newUnits()
	if len(list) == 0 {
		list = []*Unit{setDown(j)}
	}
	var text quantity.Text
	done := map[string]bool{}
	for _, u := range list {
		if done[u.StandsOn] {
			continue
		}
		done[u.StandsOn] = true
		var same []*Unit
		for _, v := range list {
			if v.StandsOn == u.StandsOn {
				same = append(same, v)
			}
		}
		if text != "" {
			text += ", "
		}
		verb := quantity.Text(" stands on ")
		if len(same) > 1 {
			verb = " each stand on "
		}
		text += j.called(same) + verb + base(u.StandsOn)
	}
	return text
}

// base is what a unit stands on, in words.
func base(on string) quantity.Text {
	switch on {
	case "slab":
		return "a level slab"
	case "feet":
		return "feet on firm ground or slabs"
	case "brackets":
		return "wall brackets, on a wall that carries it"
	case "deck":
		return "a deck that its maker or a builder says carries it"
	case "roof":
		return "a roof that a builder says carries it"
	}
	return "a level base that does not sink"
}

// Place says where the unit stands and on what; the last of it is the step that sets it down.
func Place() []Sentence {
	list := []Sentence{
		{
			Name: "base",
			Say:  howItStands,
		},
		{
			Name: "clearances",
			Say: always(quantity.Say("Room as its sheet says; where it is silent: %s to %s behind at the air inlet, %s at the service side, %s to %s free before a fan that blows sideways, %s above one that blows up. Never in a closed shed, under a deck or in a corner where it breathes its own cold air.",
				far(300), far(500), far(600), far(1500), far(2500), far(1500))),
		},
		{
			Name: "snow",
			When: func(j *Job) bool { return j.MayFreeze() && !j.Unit.Inside },
			Say:  always("Snow and roof water: not below eaves, the inlet clear of drifting snow, and somewhere for the ice of the defrosts to go."),
		},
		{
			Name: "inside",
			When: func(j *Job) bool { return j.Unit.Inside },
			Say:  always("It is described as standing inside: air in and out need ducts of their maker's size, or it cools the room and itself; with a flammable refrigerant it may not stand there at all unless its manual says so."),
		},
		{
			Name: "noise",
			Say:  always("Noise: the fan points away from bedrooms and neighbours; each wall beside it makes it 3 dB louder, each doubling of the distance 6 dB quieter. Look up the local planning rules before it is bolted down."),
		},
		{
			Name: "condensate",
			Say: func(j *Job) quantity.Text {
				text := quantity.Say("Condensate: %s hose with a continuous fall and no point above the outlet, to a gully or soakaway", far(19))
				if j.MayFreeze() {
					text += " that does not freeze, and never across a path"
				}
				return text + ". A puddle there is water from the air: test it for chlorine before calling it a leak."
			},
		},
		{
			Name: "set-down",
			Say: func(j *Job) quantity.Text {
				called, many := j.SetDown()
				one := quantity.Text(" down, two people or a hoist, level it, bolt it, and open no pipe to it before it stands: its ports carry no weight.")
				if many {
					one = " down one by one, two people or a hoist each, level and bolt them, and open no pipe to one before it stands: their ports carry no weight."
				}
				return "Set " + called + one + " A unit that was tipped stands upright for as long as its sheet says before it is switched on."
			},
		},
	}
	for i := range list {
		when := list[i].When
		list[i].When = func(j *Job) bool { return j.Unit != nil && (when == nil || when(j)) }
		list[i].Source = "heat pump manuals; " + memory
	}
	return list
}

// howItStands says what the units that are set down stand on, and how they lie on it.
func howItStands(j *Job) quantity.Text {
	drain, over := quantity.Text("its drain"), quantity.Text("the ground")
	high := func(u *Unit) bool { return u.StandsOn == "roof" || u.StandsOn == "deck" }
	_, many := j.SetDown()
	switch {
	case many && slices.ContainsFunc(j.newUnits(), high):
		over = "the ground, the deck or the roof"
	case !many && high(setDown(j)):
		over = "it"
	}
	if many {
		drain = "the drain of each"
	}
	return quantity.Capital(standing(j)) + quantity.Say(", %s to %s above %s (higher where snow lies), level or falling less than 2 %% to %s, on rubber mounts, bolted.", far(100), far(150), over, drain)
}
