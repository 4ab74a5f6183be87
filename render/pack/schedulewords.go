package pack

import (
	"fmt"
	"strings"

	"dryfit/graph"
	"dryfit/graph/practice"
	"dryfit/graph/stream"
)

// scheduleWords says what the schedule lacks, and what must never be.
func scheduleWords(branches []*stream.UnitBranch, valves []valve, j jobIn) (notes, never []string) {
	isolators, byHand := false, false
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
		byHand = byHand || v.duty == bypasses
		if v.duty == sucks {
			suctions = append(suctions, v.name)
		}
	}
	notes = append(notes, j.said(practice.ShutOff())...)
	if isolators {
		never = append(never, "an isolator shut with "+j.OfUnits("the unit", "a unit")+" on, but for the one try of its flow switch")
	}
	switch {
	case isolators && byHand:
		never = append(never, "the bypass shut and an isolator shut with the pump on")
	case isolators && len(branches) > 0 && branches[0].TeeIn == nil:
		never = append(never, "an isolator shut with the pump on")
	}
	for _, v := range valves {
		if v.duty == serves {
			never = append(never, v.name+" open with "+j.OfUnits("the unit on: the water passes it by", "a unit on: the water passes them by"))
		}
	}
	if len(suctions) > 0 {
		never = append(never, strings.Join(suctions, ", ")+" shut while a pump can start: a bather can be held at the other suction, and the pump runs dry")
	}
	return append(notes, "A position that is not found as written here is put right before the pump is switched on."), never
}
