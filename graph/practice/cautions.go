package practice

import (
	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Cautions says what can hurt somebody, and who must see to it. The name is the topic as it
// is printed.
func Cautions() []Sentence {
	list := []Sentence{
		{Name: "Electricity", Say: (*Job).current, For: Fitter | Electrician, Source: electricStandards},
		{Name: "Element heater", When: func(j *Job) bool { return len(j.Elements) > 0 }, Say: always("Its leads are disconnected by an electrician, or the interlock named in this pack is proved. No valve may trap water round an energised element, and no pipe is opened or left full of air with one live."), For: Fitter | Electrician, Source: common},
		{Name: "Bathing temperature", Say: func(j *Job) quantity.Text {
			if j.Cold {
				return quantity.Say("Water of %s takes breath and strength within minutes: nobody bathes alone, and the owner is told so. A unit that can heat as well is locked to cooling, or to %s at the most.", quantity.Temperature.Of(j.Water), warm(graph.HottestC))
			}
			text := quantity.Say("%s at the most. The tub's high limit stays active", warm(40))
			if j.Unit != nil {
				return text + "; it does not stop a unit on its own supply unless it is wired to."
			}
			return text + "."
		}, For: Fitter | Electrician | Owner, Source: "EN 17125, IEC 60335-2-60 (from memory)"},
		{Name: "Suction entrapment", Say: func(j *Job) quantity.Text {
			text := quantity.Text("Suction covers present, sound and in date; every suction stays open; no valve, check or throttle is added to a suction line; the flow through a cover must not rise above its rating, even with another one blocked.")
			if len(j.Suctions) > 0 {
				stands := quantity.Text(" stands in a suction line: it is")
				if len(j.Suctions) > 1 {
					stands = " stand in suction lines: they are"
				}
				text += " " + and(j.Suctions...) + stands + " never shut while a pump can start."
			}
			return text
		}, Names: func(j *Job) []string { return j.Suctions }, For: Fitter | Owner, Source: "EN 13451-3, ASME A112.19.8 (from memory)"},
		{Name: "Hot water and pressure", Say: func(j *Job) quantity.Text {
			text := quantity.Text("Relieve pressure and let hot water cool before any union is opened")
			if j.isolated() {
				text += ", with " + and(j.Isolators()...) + " shut"
			} else if j.Unit != nil {
				text += "; this unit has no isolators on both pipes, so the tub is emptied below it first"
			}
			return text + ". Plastic pipe is weaker when warm: the ratings in this pack are derated. Test with water only, never with compressed air."
		}, Names: func(j *Job) []string { return j.Isolators() }, Source: "ASTM and ISO derating tables; " + common},
		{Name: "Solvent cement", When: func(j *Job) bool { return j.Cement }, Say: always("Flammable, and the vapour collects in a cabinet, a box, a shed or a pit: ventilate, no flame or spark, gloves, keep power off until it has aired. Cure times on the tin decide."), Source: common + "; the cement maker's label is the authority"},
		{Name: "Refrigerant", When: func(j *Job) bool { return j.Unit != nil || len(j.Leaves) > 0 }, Say: (*Job).sealed, For: Fitter | Electrician, Source: "Regulation (EU) 2024/573, IEC 60335-2-40 (from memory)"},
		{Name: "Lifting", When: func(j *Job) bool { return j.Unit != nil || len(j.Leaves) > 0 }, Say: always("Two people, or a hoist."), Source: common},
		{Name: "Water hygiene", Say: func(j *Job) quantity.Text {
			text := quantity.Text("What was handled is disinfected before anybody bathes.")
			if j.Unit != nil {
				text += " No dead legs: a branch that is shut off is emptied, or flushed every week."
			}
			return text + " Let or commercial tubs fall under local law."
		}, For: Fitter | Owner, Source: "HSG282 (from memory)"},
		{Name: "Filling", Say: always("A filling hose never hangs in the tub's water: keep a gap, or fit the backflow protection the water regulations ask for (a double check valve at least); run the hose a minute first, out of the sun."), For: Fitter | Owner, Source: "EN 1717 (from memory); local water regulations"},
		{Name: "Frost", When: func(j *Job) bool { return j.Unit != nil && j.MayFreeze() }, Say: func(j *Job) quantity.Text {
			return quantity.Say("Without power below %s %s and ", warm(0), j.theUnit()) + j.ofUnits("its", "their") + " outside pipes freeze in an hour or two: the section on frost says what to do in the first hour."
		}, For: Fitter | Owner, Source: common},
		{Name: "Warranty", Say: func(j *Job) quantity.Text {
			if j.PlugIn {
				return "Opening the box of a plug-in tub, cutting its hoses or disconnecting its element may end approval and warranty: the owner agrees in writing first."
			}
			return "Cutting the tub's pipe or disconnecting its element may end the maker's warranty: the owner agrees in writing first."
		}, For: Fitter | Owner, Source: common},
	}
	return list
}

// current cautions about electricity, and says what a unit wants of its supply.
func (j *Job) current() quantity.Text {
	text := quantity.Text("A qualified electrician only. Power off, locked off and proved dead before the cabinet is opened.")
	switch {
	case j.NoCabinet:
		text = "A qualified electrician only. Power off, locked off and proved dead before the work begins."
	case j.PlugIn:
		text = "A qualified electrician only. The box unplugged, or its power off, locked off and proved dead, before a hose is undone or the box is opened."
	}
	if j.Unit != nil {
		has := j.ofUnits("The unit", "Each unit ("+j.unitsCalled()+")") + " wants"
		if j.ownCircuits() {
			has = j.ofUnits("The unit", "Each unit ("+j.unitsCalled()+")") + " has"
		}
		guard := quantity.Text("30 mA residual current protection of type A at least, never AC")
		if j.Region == "us" {
			guard = groundFault
		}
		text += " " + has + " a circuit of its own with " + guard + ", an isolator out of reach of bathers, and bonding as the code asks: see the electrician's section."
	}
	return text
}

// sealed cautions about what the circuits of the units hold.
func (j *Job) sealed() quantity.Text {
	text := j.ofUnits("The unit's", "A unit's") + quantity.Text(" sealed circuit is opened by a certified person only.")
	switch {
	case j.Unit == nil:
		text += " It leaves as it is, sealed and upright; its plate says what it holds."
	case len(j.burning()) == 0 && len(j.unread()) > 0:
		text += " Propane (R290) wants a clear zone free of drains, vents, windows, switches and ignition: read the plate."
	default:
		for _, u := range j.burning() {
			text += quantity.Say(" %s holds %s, which burns: keep the clear zone of its manual free of drains, vents, windows, switches and ignition.", j.ofUnits("It", quantity.Text(u.ID)), u.Refrigerant)
		}
		for _, u := range j.unread() {
			text += quantity.Say(" What %s holds stands on its plate: where that is propane (R290), it wants such a zone too.", u.ID)
		}
	}
	return text
}
