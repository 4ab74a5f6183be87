package pack

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/practice"
	"dryfit/graph/stream"
)

// scheduleWords says what the schedule lacks, and what must never be.
func scheduleWords(branches []stream.Branch, valves []valve, j jobIn) (notes, never []string) {
	isolators := false
	for _, b := range branches {
		to, from := b.Isolators()
		isolators = isolators || len(to)+len(from) > 0
		for _, side := range []struct {
			valves []*graph.Part
			words  string
		}{{to, "to"}, {from, "from"}} {
			if len(side.valves) == 0 {
				notes = append(notes, fmt.Sprintf("No isolator on the pipe %s the unit: where the schedule says that the unit is shut off, the line has to be emptied instead.", side.words))
			}
		}
		if b.TeeIn == nil {
			notes = append(notes, "The unit has no bypass: with an isolator shut the pump works against a shut line.")
		}
	}
	var suctions []string
	for _, v := range valves {
		if v.duty == sucks {
			suctions = append(suctions, v.name)
		}
	}
	notes = append(notes, j.said(practice.ShutOff())...)
	if isolators {
		never = append(never, practice.OneOf(j.Isolators())+" shut with "+j.OfUnits("the unit", "a unit")+" on, but for the one try of its flow switch")
	}
	for _, w := range waysPast(j) {
		never = append(never, fmt.Sprintf("%s shut while %s is shut and the pump can start", practice.OneOf(w.Past), practice.OneOf(w.Isolators)))
	}
	if isolators && len(branches) > 0 && branches[0].TeeIn == nil {
		never = append(never, "an isolator shut while the pump can start")
	}
	for _, v := range valves {
		if v.duty == serves {
			never = append(never, v.name+" open with "+j.OfUnits("the unit on: the water passes it by", "a unit on: the water passes them by"))
		}
	}
	if len(suctions) > 0 {
		never = append(never, practice.OneOf(suctions)+" shut while a pump can start: a bather can be held at the other suction, and the pump runs dry")
	}
	return append(notes, "A position that is not found as written here is put right before the pump is switched on."), never
}
