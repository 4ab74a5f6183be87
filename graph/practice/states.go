package practice

import "dryfit/catalog/quantity"

// State is a state of the tub in which a fitter sets the valves himself. Positions are
// common practice, no source.
type State struct {
	Name     string
	Note     quantity.Text
	UnitOn   bool
	Isolated bool // the unit is shut off
	Emptied  bool // the drains are open
}

// States lists those that this job has.
func States(j *Job) []State {
	if j.Unit == nil {
		return nil
	}
	var out []State
	needsElement := quantity.Text("")
	if j.elementOff() && j.MayFreeze() && !j.Cold {
		needsElement = "only after " + j.reconnected() + "; else empty the tub"
		if j.WarmRoom {
			needsElement = "only after " + j.reconnected() + "; else " + j.unheated()
		}
	}
	if len(j.of((*Element).heldBack)) > 0 {
		needsElement = j.elementTakesOver()
	}
	if j.isolated() {
		out = append(out, State{Name: "First flush", Isolated: true, Note: "10 to 30 minutes past " + j.theUnit() + ", then " + j.cleanFilter()})
		service := quantity.Text("shut off is a dead leg: empty the branch, or flush it weekly")
		if needsElement != "" {
			if j.elementOff() {
				service += "; in frost"
			} else {
				service += ";"
			}
			service += " " + needsElement
		}
		out = append(out, State{Name: string(j.ofUnits("Unit being serviced", "Units shut off for service")), Isolated: true, Note: service})
	}
	if j.MayFreeze() {
		note := quantity.Text("as in heating; the pump must not stop")
		if j.Cold {
			note = "as in cooling; the pump must not stop"
		}
		if j.unitAlone() {
			note += "; not below the unit's least air"
			if j.several() {
				note = "as in heating; the pump must not stop; not below the least air of each: " + j.leastAirs()
			} else if j.Unit.LeastAir.Known {
				note += quantity.Say(", %s", quantity.Temperature.Of(j.Unit.LeastAir.C))
			}
		}
		out = append(out, State{Name: "Winter, tub in use", UnitOn: true, Note: note})
		if j.isolated() {
			note := quantity.Text("empty the branch as the section on frost says")
			if needsElement != "" {
				note = needsElement + "; " + note
			}
			out = append(out, State{Name: string(j.ofUnits("Winter, unit laid up, tub in use", "Winter, units laid up, tub in use")), Isolated: true, Emptied: true, Note: note})
		}
	}
	return append(out, State{Name: "Whole tub laid up", Emptied: true, Note: "empty tub, branch and " + j.ofUnits("unit", "units") + "; suck out what stays, no compressor"})
}

// ShutOff says what passes while the unit is shut off, and what to do where that is too
// little.
func ShutOff() []Sentence {
	spring := func(j *Job) bool { return j.Unit != nil && j.Check != "" && !j.Aside && len(j.Passing) > 0 }
	return []Sentence{
		{
			Name: "poppet-stays", When: spring, Tells: []Act{LeavePoppetIn},
			Names: func(j *Job) []string { return []string{j.Check} },
			Say: func(j *Job) quantity.Text {
				text := quantity.Say("%s stays whole: its poppet is not taken out, for nothing shuts it off from the tub", j.Check)
				if j.CheckAt.Below() {
					text += ", and opened below the water line it empties the tub " + j.whereItRuns()
				}
				return text + quantity.Say(". With %s shut off the water lifts its spring: %s.", j.theUnit(), passingWords(j))
			},
			Source: "solved from this job's curves",
		},
		{
			Name: "too-little-past-the-check",
			When: func(j *Job) bool {
				if !spring(j) {
					return false
				}
				for _, p := range j.Passing {
					if p.TooLittle() {
						return true
					}
				}
				return false
			},
			Say: func(j *Job) quantity.Text {
				text := quantity.Text("")
				for _, p := range j.Passing {
					if p.TooLittle() {
						text += quantity.Capital(quantity.Say("%s %s with the unit shut off is too little, the line wants %s. ", p.Mode, quantity.Flow.Of(p.Flow), quantity.Flow.Limit(p.Least)))
					}
				}
				if j.Planned {
					return text + quantity.Say("Have a valve planned in parallel to %s, shut in use and open whenever the unit is shut off.", j.Check)
				}
				return text + quantity.Say("Fit a ball valve in parallel to %s, shut in use and open whenever the unit is shut off.", j.Check)
			},
			Source: "solved from this job's curves; the valve " + common,
		},
		{
			Name:  "beside-the-check",
			When:  func(j *Job) bool { return j.Unit != nil && j.Check != "" && len(j.Beside) > 0 },
			Names: func(j *Job) []string { return append([]string{j.Check}, j.Beside...) },
			Tells: []Act{LeavePoppetIn},
			Say: func(j *Job) quantity.Text {
				text := quantity.Say("%s: shut in use, or the water passes the unit by; open whenever the unit is shut off, and shut again before it is switched on. %s stays whole.", and(j.Beside...), j.Check)
				if len(j.Passing) > 0 {
					text += quantity.Say(" Open with the unit shut off: %s.", passingWords(j))
				}
				return text
			},
			Source: "solved from this job's curves; " + common,
		},
	}
}
