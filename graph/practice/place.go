package practice

import "dryfit/catalog/quantity"

// Place says where the unit stands and on what; the last of it is the step that sets it down.
func Place() []Sentence {
	list := []Sentence{
		{
			Name: "base",
			Say: func(j *Job) quantity.Text {
				on := map[string]string{
					"slab": "a level slab", "feet": "feet on firm ground or slabs", "brackets": "wall brackets, on a wall that carries it",
					"deck": "a deck that its maker or a builder says carries it", "roof": "a roof that a builder says carries it",
				}[j.Unit.StandsOn]
				if on == "" {
					on = "a level base that does not sink"
				}
				over := "the ground"
				if j.Unit.StandsOn == "roof" || j.Unit.StandsOn == "deck" {
					over = "it"
				}
				return quantity.Say("%s stands on %s, %s to %s above %s (higher where snow lies), level or falling less than 2 %% to its drain, on rubber mounts, bolted.", capital(j.thisUnit()), on, far(100), far(150), over)
			},
		},
		{
			Name: "clearances",
			Say: always(quantity.Say("Room as its sheet says; where it is silent: %s to %s behind at the air inlet, %s at the service side, %s to %s free before a fan that blows sideways, %s above one that blows up. Never in a closed shed, under a deck or in a corner where it breathes its own cold air.",
				far(300), far(500), far(600), far(1500), far(2500), far(1500))),
		},
		{
			Name: "snow",
			When: func(j *Job) bool { return j.mayFreeze() && !j.Unit.Inside },
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
				if j.mayFreeze() {
					text += " that does not freeze, and never across a path"
				}
				return text + ". A puddle there is water from the air: test it for chlorine before calling it a leak."
			},
		},
		{
			Name: "set-down",
			Say: func(j *Job) quantity.Text {
				return "Set " + j.thisUnit() + " down, two people or a hoist, level it, bolt it, and open no pipe to it before it stands: its ports carry no weight. A unit that was tipped stands upright for as long as its sheet says before it is switched on."
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
