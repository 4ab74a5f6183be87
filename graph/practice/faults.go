package practice

import "dryfit/catalog/quantity"

// Fault is one line of the fault finder, in the order to look.
type Fault struct {
	Sign string
	Look quantity.Text
}

// Faults is common practice, no source; each line only where the job has what it speaks of.
func Faults(j *Job) []Fault {
	var out []Fault
	add := func(there bool, sign string, look quantity.Text) {
		if there {
			out = append(out, Fault{sign, look})
		}
	}
	unit := j.Unit != nil
	look := "1 filter dirty · 2 air at " + j.ofUnits("the unit", "that unit") + ": bleed it as in the order of work · 3 isolators not fully open"
	if j.Check != "" {
		look += " · 4 spring check seized or its arrow against the flow"
	}
	if j.Jets {
		look += " · jets shut"
	}
	if j.Diverter {
		look += " · diverter turned away"
	}
	if j.TwoSpeeds {
		look += " · " + j.slow() + " too slow: compare with the flows of this pack"
	}
	add(unit, string(j.ofUnits("Flow error at the unit", "Flow error at a unit")), look)
	keeps := quantity.Text("what keeps the pump running has stopped: the controller changed pumps, timed out, or only tastes the water now and then; see its set points and hours")
	add(unit, "Flow error now and then", keeps)
	add(unit && !j.Cold, "Water feels no warmer at the return", "that is right: the rise across "+j.ofUnits("the unit", "a unit")+" is only a few degrees; measure it")
	rise := quantity.Text("too little flow: filter, air, isolators")
	if set := j.throttles(); len(set) > 0 {
		rise += "; then shut " + and(set...) + " a little"
	}
	if len(j.Beside) > 0 {
		rise += "; " + and(j.Beside...) + " left open"
	}
	add(unit, string(j.ofUnits("Rise across the unit too large", "Rise across a unit too large")), rise)
	add(unit, string(j.ofUnits("Puddle under the unit", "Puddle under a unit")), "condensate is usual: switch the compressor off and see whether it stops")
	add(unit && j.MayFreeze() && !j.Cold, "Unit steams and drips in the cold, tub a little cooler", "a defrost: it lasts minutes; the pump must run on")
	add(unit && j.elementOff(), "Controller says heater, dry or slow heating", "its element is disconnected: look up the message in its book; bridge nothing")
	little := quantity.Text("the spring takes it: see the valve schedule for what should pass")
	if len(j.Beside) > 0 {
		little = "open " + and(j.Beside...) + "; see the valve schedule for what should pass"
	}
	add(unit && j.Check != "", string(j.ofUnits("Little flow with the unit shut off", "Little flow with the units shut off")), little)
	weak := quantity.Text("a valve part shut; filter")
	switch {
	case j.Check != "":
		weak = "spring check stuck shut, or its arrow against the flow; " + weak
	case len(j.throttles()) > 0 && !j.Shut:
		weak = and(j.throttles()...) + " too far shut; " + weak
	}
	add(j.Jets, "Jets feel weaker than this pack says", weak)
	return out
}
