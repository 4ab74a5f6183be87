package practice

import (
	"cmp"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
)

// Ready says what is done at the tub before anything is opened.
func Ready() []Sentence {
	return []Sentence{
		{Name: "power-off", Say: always("Power off, locked off and proved dead by a qualified person."), For: Fitter | Electrician, Source: common},
		{Name: "photograph", Say: always("Photograph the pipework as it is; draw flow arrows on the old pipe."), Source: common},
		{Name: "empty-below", When: func(j *Job) bool { return j.Cuts || j.Removes || j.PlugIn }, Say: func(j *Job) quantity.Text {
			if j.PlugIn && !j.Cuts {
				return quantity.Say("Empty the tub below the hoses, or close its stoppers; %s to %s come out of hoses and box: bucket, rags.", litres(5), litres(15))
			}
			return quantity.Say("Empty below the work: about %s to %s come out of each low loop afterwards; wet vacuum, rags.", litres(5), litres(15))
		}, Source: common},
		{Name: "mark-cuts", When: func(j *Job) bool { return j.Cuts }, Tells: []Act{MarkCuts},
			Say: func(j *Job) quantity.Text {
				text := quantity.Text("Mark the cut lines and the insertion depths")
				switch {
				case j.MarkedOut:
					text = "Mark every cut line and its insertion depth as the section on marking out says"
				case j.Bands:
					text += " as the saw bands say"
				default:
					return unmeasuredCuts("old pipe")
				}
				if j.Bands {
					return text + "; wrap the saw bands round the pipe."
				}
				return text + "."
			}, Source: common},
		{Name: "mark-hose", When: func(j *Job) bool { return j.CutsHose }, Tells: []Act{MarkCuts},
			Say: func(j *Job) quantity.Text {
				if j.MarkedOut {
					return "Mark every cut line on the hose as the section on marking out says: hose shears or a sharp knife, square."
				}
				return unmeasuredCuts("hose") + " Hose shears or a sharp knife, square."
			}, Source: common},
		{Name: "nothing-cut", When: func(j *Job) bool { return !j.Cuts && !j.CutsHose }, Tells: []Act{LeaveOldPipe},
			Say: func(j *Job) quantity.Text {
				if j.GoneRigid {
					return "No old pipe that stays is cut in this job: undo what goes at its nuts and threads; cemented pipe does not come out of its socket, and goes with what it is in."
				}
				return "No old pipe is cut in this job: undo it at its joints, and keep what comes off."
			}, Source: common},
	}
}

// unmeasuredCuts is how cut lines are found of which the description does not say where they lie.
func unmeasuredCuts(what string) quantity.Text {
	return quantity.Say("Nobody measured where the cut lines on the %s lie: hold the new string beside it where it is to go, and mark at each of its ends how deep it takes the old end; those are the cut lines, and so far back from each its insertion mark.", what)
}

// Leave says how a unit is parted from its supply, emptied and carried off, before its pipes are
// cut.
func Leave() []Sentence {
	leaves := func(j *Job) bool { return len(j.Leaves) > 0 }
	return []Sentence{
		{Name: "supply-off", When: leaves, Say: func(j *Job) quantity.Text {
			return quantity.Say("The electrician isolates %s at the distribution board, proves it dead, takes its cable off, makes the end safe or takes it back to the board, labels the way and signs the record. No fitter opens its terminals.", j.leavesCalled())
		}, For: Fitter | Electrician, Source: electricStandards},
		{Name: "supply-of-heat", When: func(j *Job) bool { return len(j.Leaves) > 0 && j.Unit == nil }, Say: func(j *Job) quantity.Text {
			if len(j.Elements) > 0 {
				return quantity.Say("What heats the tub from then on is settled first: the electrician reconnects %s, takes out what held it back, and tries its high limit; the controller is set to the water's temperature again.", elements(j))
			}
			return "What heats the tub from then on is settled first; without a heater the tub is emptied before frost."
		}, For: Fitter | Electrician | Owner, Source: common},
		{Name: "stays-sealed", When: leaves, Say: func(j *Job) quantity.Text {
			text := quantity.Say("%s leaves with its refrigerant sealed in: no pipe of its cold circuit is cut or loosened. Where it is scrapped, or leaks, the refrigerant is taken out by the licensed trade, who signs for it.", j.leavesCalled())
			for _, u := range j.Leaves {
				if u.Flammable || u.Refrigerant == "" {
					return text + " Propane burns: read the plate; no flame or spark near it, upright and aired in the van."
				}
			}
			return text
		}, For: Fitter | Electrician, Source: "Regulation (EU) 2024/573, EPA section 608 (from memory)"},
		{Name: "unit-emptied", When: leaves, Say: func(j *Job) quantity.Text {
			return quantity.Say("Empty %s: its isolators shut where it has them, drains and drain plug open, then its own unions (the lower one first); bucket and wet vacuum, no compressor.", j.leavesCalled())
		}, Tells: []Act{UseVacuum}, Source: common},
		{Name: "carried-off", When: leaves, Say: func(j *Job) quantity.Text {
			return quantity.Say("Unbolt %s and carry it off upright, two people or a hoist, its ports capped against dirt and frost; take off its condensate hose. Nobody lifts it by its pipes.", j.leavesCalled())
		}, Source: "heat pump manuals; " + memory},
	}
}

func (j *Job) leavesCalled() quantity.Text {
	var names []string
	for _, u := range j.Leaves {
		names = append(names, u.ID)
	}
	return and(names...)
}

// TakeOut says what comes out whole: where pipe is cut, once it is cut.
func TakeOut() []Sentence {
	return []Sentence{
		{Name: "take-out", When: func(j *Job) bool { return len(j.Gone) > 0 }, Say: func(j *Job) quantity.Text {
			text := quantity.Say("Take out %s: dashed and crossed on the schematic.", and(j.Gone...))
			switch len(j.Tails) {
			case 0:
			case 1:
				text += quantity.Say(" Undo the nut of %s for it: the tail that is cemented to what goes leaves with it, and the new pipe goes into the tail of a new union of the same make; nuts and threads of another don't fit.", j.Tails[0])
			default:
				text += quantity.Say(" Undo the nuts of %s for it: the tails that are cemented to what goes leave with it, and the new pipe goes into the tails of new unions of the same make; nuts and threads of another don't fit.", and(j.Tails...))
			}
			return text
		}, Source: common},
	}
}

// Commissioning is the order in which the line gets water and power: the electrician before
// the water, the old swarf past the unit, the unit last.
func Commissioning() []Sentence {
	return slices.Concat(filling(), flushing(), bleeding(), proving())
}

// filling are the sentences up to a full line that holds: the electrician first, the pump with water in it.
func filling() []Sentence {
	return []Sentence{
		{
			Name: "electrician-first",
			When: hasUnit,
			Say:  (*Job).madeFirst,
			For:  Fitter | Electrician, Source: common,
		},
		{
			Name:   "fill",
			Tells:  []Act{FlushPastUnit},
			Names:  func(j *Job) []string { return slices.Concat(j.Isolators(), j.Bypass) },
			Say:    (*Job).filled,
			Source: common,
		},
		{
			Name: "prime-above",
			When: func(j *Job) bool { return j.Pump.Above || len(j.Dry) > 0 },
			Say: func(j *Job) quantity.Text {
				dry := j.Dry
				if len(dry) == 0 {
					dry = []string{j.Pump.ID}
				}
				if len(dry) > 1 {
					return "Pumps " + and(dry...) + " stand above the water: fill the strainer pot and the suction of each by hand and close the lid before it is started; none may run dry for longer than its sheet allows."
				}
				return quantity.Say("Pump %s stands above the water: fill its strainer pot and the suction by hand and close the lid before it is started; it must not run dry for longer than its sheet allows.", dry[0])
			},
			Source: common,
		},
		{
			Name: "air-at-pump",
			When: func(j *Job) bool { return j.Pump.ID != "" && !j.Pump.Above },
			Say: func(j *Job) quantity.Text {
				text := quantity.Say("Pulse pump %s for 10 to 15 s", j.Pump.ID)
				if j.TwoSpeeds {
					text += " at " + j.slow()
				}
				if j.PlugIn {
					return text + "; if it moves no water, switch it off and ease the hose at the box's outlet until water comes. It does not run dry."
				}
				if j.HoseAtPump {
					return text + "; if it moves no water, switch it off and ease the hose at its outlet until water comes, then do its clips up again. It does not run dry."
				}
				return text + "; if it moves no water, switch it off and ease the union at its outlet, or the next one after it, until water comes. It does not run dry."
			},
			Source: common,
		},
		{
			Name:   "static-test",
			Say:    always("Full tub, pump off, 30 minutes: a dry tissue on every joint."),
			Source: common,
		},
	}
}

// madeFirst is what the electrician has to have done before there is water in the line.
func (j *Job) madeFirst() quantity.Text {
	text := quantity.Text("First the electrician: the unit's supply, protection, isolator and bonding are made and the unit stays switched off")
	if j.several() {
		text = "First the electrician: supply, protection, isolator and bonding of " + j.unitsCalled() + " are made or proved, each by itself, and all of them stay switched off"
	}
	switch {
	case j.elementOff() && j.PlugIn:
		text += "; the element is disconnected and made safe, or its heating switched off at the keypad"
	case j.elementOff():
		text += "; the element is disconnected and made safe"
	case len(j.Elements) > 0:
		text += "; the element stays off, locked, until the line is full and has flow"
	}
	return text + "."
}

// filled says how the line is filled: with what shut, and where the water comes in.
func (j *Job) filled() quantity.Text {
	text := quantity.Text("Fill")
	if j.isolated() {
		text = "Shut " + and(j.Isolators()...)
		if len(j.Bypass) > 0 {
			text += " and open " + and(j.Bypass...)
		}
		text += ": " + j.theUnit() + " " + j.ofUnits("stays", "stay") + " shut off. Then fill"
	}
	if j.PlugIn {
		return text + " into the tub, so that the hoses fill from below; the filling hose's end stays above the water."
	}
	if j.Skimmer {
		return text + " at the skimmer or the filter well, so that the pipes fill from below; the hose's end stays above the water."
	}
	return text + " into the tub up to its usual level, so that what lies below it fills by itself; the hose's end stays above the water."
}

// flushing are those that keep the swarf out of the unit, and let it in to clean water.
func flushing() []Sentence {
	return []Sentence{
		{
			Name:  "flush-past",
			Tells: []Act{FlushPastUnit},
			When:  func(j *Job) bool { return j.Unit != nil && j.isolated() },
			Say: func(j *Job) quantity.Text {
				text := "Flush past " + j.theUnit()
				if j.Check != "" && !j.Aside {
					text += quantity.Say(": the water lifts %s, whose poppet stays in (%s)", j.Check, passingWords(j))
				}
				text += ", 10 to 30 minutes"
				if j.TwoSpeeds {
					text += ", at " + j.slow() + " and then at " + j.fast()
				}
				return text + "; pump off; " + j.cleanFilter() + ". Swarf and beads of cement go there and not into " + j.theUnit() + "."
			},
			Names: func(j *Job) []string {
				if j.Check != "" && !j.Aside {
					return []string{j.Check}
				}
				return nil
			},
			Source: common,
		},
		{
			Name: "flush-no-isolators",
			When: func(j *Job) bool { return j.Unit == nil || !j.isolated() },
			Say: func(j *Job) quantity.Text {
				if j.Unit != nil {
					return "No isolators shut the unit off: flush the new pipe into a bucket before the unions at the unit are made, then run 10 to 30 minutes and " + j.cleanFilter() + "."
				}
				return "Flush 10 to 30 minutes; pump off; " + j.cleanFilter() + "."
			},
			Source: common,
		},
		{
			Name:  "open-outlet-first",
			When:  func(j *Job) bool { return j.Unit != nil && j.isolated() },
			Names: func(j *Job) []string { return j.Isolators() },
			Say: func(j *Job) quantity.Text {
				fills := "the unit fills with clean water"
				if j.several() {
					fills = j.unitsCalled().String() + " fill with clean water"
				} else if j.Unit.Level == AboveWater {
					fills = "the unit stands above the water and fills with clean water when the pump runs"
				}
				text := quantity.Say("Pump off, open the outlet %s %s, then the inlet %s %s: %s.",
					isolators(j.From), and(j.From...), isolators(j.To), and(j.To...), fills)
				if shut := j.shutInUse(); len(shut) > 0 {
					text += quantity.Say(" Then shut %s again.", and(shut...))
				}
				return text
			},
			Source: common,
		},
	}
}

// bleeding are those that let the air out, by where the unit stands.
func bleeding() []Sentence {
	return []Sentence{
		{
			Name:  "bleed-valve",
			When:  func(j *Job) bool { return j.Unit != nil && len(j.Bleeds) > 0 },
			Names: func(j *Job) []string { return j.Bleeds },
			Tells: []Act{BleedRunning},
			Say: func(j *Job) quantity.Text {
				text := quantity.Say("Bleed at %s, pump running%s, until water without air comes.", and(j.Bleeds...), onLow(j))
				if j.Unit.Level != BelowWater {
					text += " Where it draws air in instead, shut it at once: there the water is under less than the air's pressure, and the flow carries the air out."
				}
				return text
			},
			Source: common,
		},
		{
			Name:  "bleed-above",
			When:  func(j *Job) bool { return len(j.Bleeds) == 0 && len(j.at(AboveWater)) > 0 },
			Tells: []Act{BleedRunning},
			Say: func(j *Job) quantity.Text {
				return quantity.Say("%s above the water: run the pump%s and let the flow carry the air out; %s own bleed may be opened only while water is pushed out of it, never where air would be drawn in. No union up there is eased with the pump off: it would draw air in and empty %s.",
					j.stand(AboveWater), onLow(j), oneOrEach(j.at(AboveWater), "its", "a unit's"), oneOrEach(j.at(AboveWater), "it", "them"))
			},
			Source: common,
		},
		{
			Name: "bleed-below",
			When: func(j *Job) bool { return len(j.Bleeds) == 0 && len(j.at(BelowWater)) > 0 },
			Say: func(j *Job) quantity.Text {
				return j.stand(BelowWater) + " below the water: with the pump off and its supply isolated ease the union at " + oneOrEach(j.at(BelowWater), "its outlet", "the outlet of each") + " until water without air comes, and close it."
			},
			Source: common,
		},
		{
			Name: "bleed-unknown",
			When: func(j *Job) bool { return len(j.Bleeds) == 0 && len(j.at(LevelUnknown)) > 0 },
			Say: func(j *Job) quantity.Text {
				return quantity.Say("Run the pump%s and let the flow carry the air out of %s; %s own bleed may be opened only while water is pushed out of it, never where air would be drawn in.", onLow(j), j.called(j.at(LevelUnknown)), oneOrEach(j.at(LevelUnknown), "its", "a unit's"))
			},
			Tells: []Act{BleedRunning}, Source: common,
		},
	}
}

// proving are those that try the line under pressure and hot, then the element and the flow switch.
func proving() []Sentence {
	return []Sentence{
		{
			Name: "pressure-test",
			When: func(j *Job) bool { return j.GreatestPa > 0 },
			Names: func(j *Job) []string {
				if j.unitValvedOff() {
					return j.Isolators()
				}
				return nil
			},
			Say:    (*Job).heldAt,
			Source: "the pump's curve; " + common,
		},
		{
			Name:   "low-high-hot",
			Say:    (*Job).dryAt,
			Source: common,
		},
		{
			Name: "element-on",
			When: func(j *Job) bool { return j.Unit != nil && !j.elementOff() && len(j.Elements) > 0 },
			Say: func(j *Job) quantity.Text {
				in := j.of(func(e *Element) bool { return !e.off() })
				if len(in) > 1 {
					return quantity.Say("Only now, with flow proved, the electrician releases %s and tries the interlock of each with %s on and off.", withPower(in), j.theUnit())
				}
				return "Only now, with flow proved, the electrician releases the element and tries its interlock with " + j.theUnit() + " on and off."
			},
			For: Fitter | Electrician, Source: common,
		},
		{
			Name: "flow-switch",
			When: func(j *Job) bool { return j.Unit != nil && len(j.To) > 0 },
			Names: func(j *Job) []string {
				names := j.To
				if j.several() && len(j.Switches) > 0 {
					names = nil
					for _, s := range j.Switches {
						names = append(names, s.Valves...)
					}
				}
				if j.Shut {
					return slices.Concat(names, j.Bypass)
				}
				return names
			},
			Say: func(j *Job) quantity.Text {
				if j.several() && len(j.Switches) > 0 {
					return j.switchesOneByOne()
				}
				if j.Shut && len(j.Bypass) > 0 {
					return quantity.Say("Try the unit's flow switch: open %s, then shut %s slowly, the unit must stop; open it again at once, and shut %s after it.", and(j.Bypass...), and(j.To...), and(j.Bypass...))
				}
				return quantity.Say("Try the unit's flow switch: shut %s slowly, the unit must stop; open it again at once.", and(j.To...))
			},
			Source: common,
		},
	}
}

// heldAt says what the line can see, and how it is tried at that.
func (j *Job) heldAt() quantity.Text {
	text := quantity.Say("Running test: the most the line can see is %s, the pump's shut-off and the water above it.", quantity.Pressure.Of(j.GreatestPa))
	switch {
	case j.unitValvedOff() && j.UnitPa > 0:
		text += quantity.Say(" %s %s at the most, which is less: %s shut for this test.", j.ofUnits("The unit may see", "The weakest of the units may see"), quantity.Pressure.Of(j.UnitPa), and(j.Isolators()...))
	case j.Unit != nil && j.UnitPa > 0:
		text += quantity.Say(" %s %s at the most.", j.ofUnits("The unit may see", "The weakest of the units may see"), quantity.Pressure.Of(j.UnitPa))
	}
	return text + " Test it by the pump itself" + highAndDown(j) + ", 15 minutes, with its way to the tub open: never against a line that is shut. Water only, never compressed air."
}

// dryAt says at which stages the joints are looked at.
func (j *Job) dryAt() quantity.Text {
	text := quantity.Text("A dry tissue on every joint at each stage: ")
	if j.TwoSpeeds {
		text += "at " + j.slow() + ", then at " + j.fast()
	} else {
		text += "pump running"
	}
	if j.Jets {
		text += ", then with the jets turned down"
	}
	switch {
	case j.several():
		text += "; then " + j.unitsCalled() + " on, one after the other, each at its set point, and again when the line is hot"
	case j.Unit != nil:
		text += "; then the unit on, at its set point, and again when the line is hot"
	default:
		text += ", and again when the line is hot"
	}
	return text + "."
}

// shutInUse names the valves past the unit that stand shut while it works.
func (j *Job) shutInUse() []string {
	if j.Check == "" && j.Shut {
		return j.Bypass
	}
	return j.Beside
}

// throttles names the valves past the unit by which its flow is set.
func (j *Job) throttles() []string {
	return slices.DeleteFunc(slices.Clone(j.Bypass), func(tag string) bool { return slices.Contains(j.Beside, tag) })
}

func isolators(tags []string) string {
	if len(tags) == 1 {
		return "isolator"
	}
	return "isolators"
}

// cleanFilter says how the filter is cleaned: sand and glass by washing it backwards, all else out
// of its vessel; nothing where none is described.
func (j *Job) cleanFilter() quantity.Text {
	switch j.Filter {
	case "sand":
		return "backwash the filter and rinse it, the pump off whenever its valve is turned"
	case "":
		return "clean the filter, where there is one"
	}
	return "clean the filter"
}

// cleanWord is what a filter is that was just cleaned.
func (j *Job) cleanWord() quantity.Text {
	if j.Filter == "sand" {
		return "Filter backwashed"
	}
	return "Clean filter"
}

// slow and fast are what the pump's speeds are called in a sentence.
func (j *Job) slow() quantity.Text { return quantity.Text(graph.SpeedWords(cmp.Or(j.Slow, "low"))) }
func (j *Job) fast() quantity.Text { return quantity.Text(graph.SpeedWords(cmp.Or(j.Fast, "high"))) }

// unitValvedOff reports whether the unit has to be shut off for the running test.
func (j *Job) unitValvedOff() bool {
	return j.Unit != nil && j.isolated() && (j.UnitPa == 0 || j.UnitPa < j.GreatestPa)
}

func onLow(j *Job) quantity.Text {
	if j.TwoSpeeds {
		return " at " + j.slow()
	}
	return ""
}

func highAndDown(j *Job) quantity.Text {
	text := quantity.Text("")
	if j.TwoSpeeds {
		text += " at " + j.fast()
	}
	if j.Jets {
		text += " with the jets turned down"
	}
	return text
}

// mostPassing is how many modes are told one by one of what passes a check with the unit shut off: of more
// only that in which least passes and that in which most does. Judgement, no source.
const mostPassing = 4

// passingWords says what passes a check with the unit shut off.
func passingWords(j *Job) quantity.Text {
	if len(j.Passing) == 0 {
		return "less passes than with the unit open"
	}
	told, between, behind := j.Passing, ", ", " "
	if len(told) > mostPassing {
		by := func(a, b Passing) int { return cmp.Compare(a.Flow, b.Flow) }
		told = []Passing{slices.MinFunc(told, by), slices.MaxFunc(told, by)}
	}
	if slices.ContainsFunc(told, func(p Passing) bool { return strings.Contains(p.Mode, ",") }) {
		between, behind = "; ", ", "
	}
	text := quantity.Text("")
	for i, p := range told {
		if i > 0 {
			text += quantity.Text(between)
		}
		text += quantity.Say("%s%s%s passes", p.Mode, behind, quantity.Flow.Of(p.Flow))
	}
	if more := len(j.Passing) - len(told); more > 0 {
		text += quantity.Say("; in %d further modes what lies between", more)
	}
	return text
}

// HandOver is what is left when the water is hot and clean.
func HandOver() []Sentence {
	return []Sentence{
		{Name: "labels", When: func(j *Job) bool { return j.Valves }, Say: always("Hang the labels on the valves and explain them to the owner."), For: Fitter, Source: common},
		{Name: "look-again", Say: func(j *Job) quantity.Text {
			text := quantity.Text("Look at every joint for drips the next day, after a week and after the first refill")
			switch {
			case j.UnionNuts && j.Barbs:
				text += "; a union nut or a hose clip that drips is tightened a little"
			case j.UnionNuts:
				text += "; a union nut that drips is tightened a little, by hand"
			case j.Barbs:
				text += "; a hose clip that drips is tightened a little"
			}
			return text + ". A glued joint that drips is cut out and made again."
		}, For: Fitter | Owner, Source: common},
	}
}

// Setting says how the bypass is set and proved. Source of the aim for the rise: the heat
// balance, 0.86 K for each kW in 1 m³/h; the rest is common practice, no source.
func Setting() []Sentence {
	hasBypass := func(j *Job) bool { return j.Unit != nil && (len(j.Bypass) > 0 || j.Check != "") }
	byHand := func(j *Job) bool { return j.Unit != nil && len(j.throttles()) > 0 }
	return []Sentence{
		{Name: "steady", When: hasBypass, Say: func(j *Job) quantity.Text {
			text := j.cleanWord()
			if j.Jets {
				text += ", jets as they are used"
			}
			if j.Cold {
				return text + ", cooling mode, " + j.ofUnits("unit", "units") + " on: wait 10 to 15 minutes, until it runs steadily."
			}
			return text + ", heating mode, " + j.ofUnits("unit", "units") + " on: wait 10 to 15 minutes, until it runs steadily."
		}, Source: common},
		{Name: "read-rise", When: hasBypass, Names: func(*Job) []string { return []string{"thermometer"} }, Say: func(j *Job) quantity.Text {
			where := quantity.Text("held under insulation on the pipe before and after it")
			if j.Pockets {
				where = "moved between the two pockets"
			}
			return "Read the water before and after " + j.ofUnits("the unit", "each unit") + " with one thermometer " + where + ", or with its own pair once checked against each other."
		}, Source: common},
		{Name: "aim", When: func(j *Job) bool { return hasBypass(j) && !j.Cold }, Say: always(quantity.Say("The rise to aim for is the heat output over what the rated flow carries for each degree, usually %s to %s; what each mode should show stands in the record.", kelvin(2), kelvin(3))), Source: "heat balance"},
		{Name: "aim-cold", When: func(j *Job) bool { return hasBypass(j) && j.Cold }, Say: always("The water leaves the unit colder than it comes: the fall to aim for is the cooling its sheet gives over what its rated flow carries for each degree. What is said of a rise holds of that fall."), Source: "heat balance"},
		{Name: "set-by-hand", When: byHand, Names: (*Job).throttles, Say: func(j *Job) quantity.Text {
			return quantity.Say("Rise too large: too little flow, so shut %s a little. Rise too small: open it a little, but never so far that %s below its least flow.", and(j.throttles()...), j.ofUnits("the unit falls", "a unit falls"))
		}, Source: common},
		{Name: "spring-not-set", When: func(j *Job) bool { return j.Unit != nil && j.Check != "" }, Names: func(j *Job) []string { return []string{j.Check} }, Say: func(j *Job) quantity.Text {
			left := ""
			if len(j.Beside) > 0 {
				left = ", " + and(j.Beside...).String() + " left open"
			}
			return quantity.Say("%s is not set by hand: where the rise is too large, look for dirt, air, an isolator not fully open%s, then compare the spring on its label with this pack.", j.Check, left)
		}, Source: common},
		{Name: "again", When: hasBypass, Say: func(j *Job) quantity.Text {
			text := "Do it again in every other mode in which " + j.ofUnits("the unit runs", "a unit runs")
			if j.Jets {
				text += ", and with the jets turned down"
			}
			return text + "."
		}, Source: common},
		{Name: "write-down", When: hasBypass, Say: always(quantity.Say("Write rise, air temperature and power into the record, and mark the handles. A rise of %s is too small to reckon a flow from: ±%s on the thermometer is ±30 %% on the flow. Use a flow meter.", kelvin(1), kelvin(0.3))), Source: "heat balance"},
	}
}
