package pack

import (
	"fmt"

	"dryfit/graph"
	"dryfit/graph/stream"
)

// asideOf reports whether the water can go past every bypass check by another way, so that
// its poppet may stay in when the unit is shut off.
func asideOf(branches []*stream.UnitBranch) bool {
	for _, b := range branches {
		if b.TeeIn == nil {
			continue
		}
		if e := b.Element(); e != nil && e.Kind == graph.CheckValve && !reaches(b, b.TeeIn.ID, e.ID, map[string]bool{}) {
			return false
		}
	}
	return true
}

// reaches reports whether the runs of a bypass lead from a part to the second tee without
// passing the part left out.
func reaches(b *stream.UnitBranch, from, without string, seen map[string]bool) bool {
	if from == b.TeeOut.ID {
		return true
	}
	seen[from] = true
	for _, r := range b.BypassRuns {
		next := ""
		switch from {
		case r.From.Part:
			next = r.To.Part
		case r.To.Part:
			next = r.From.Part
		}
		if next != "" && next != without && !seen[next] && reaches(b, next, without, seen) {
			return true
		}
	}
	return false
}

// scheduleWords says what the schedule lacks, and what must never be.
func scheduleWords(branches []*stream.UnitBranch, valves []valve) (notes, never []string) {
	isolators, byHand := false, false
	for _, b := range branches {
		unit := b.Unit.ID
		to, from := b.Isolators()
		isolators = isolators || len(to)+len(from) > 0
		if len(to) == 0 {
			notes = append(notes, fmt.Sprintf("No isolator on the pipe to %s: where the schedule says that the unit is shut off, the line has to be emptied instead.", unit))
		}
		if len(from) == 0 {
			notes = append(notes, fmt.Sprintf("No isolator on the pipe from %s: where the schedule says that the unit is shut off, the line has to be emptied instead.", unit))
		}
		if b.TeeIn == nil {
			notes = append(notes, fmt.Sprintf("%s has no bypass: with an isolator shut the pump works against a shut line.", unit))
		}
	}
	for _, v := range valves {
		if v.duty == checks && !asideOf(branches) {
			notes = append(notes, fmt.Sprintf("Poppet out of %s: with the unit shut off all the water has to lift the spring, and the controller may report too little flow. A true-union check is opened, pump off, and its poppet taken out meanwhile; note it on the valve's label.", v.name))
		}
		byHand = byHand || v.duty == bypasses
	}
	if isolators {
		never = append(never, "an isolator shut with the unit on")
	}
	switch {
	case isolators && byHand:
		never = append(never, "the bypass shut and an isolator shut with the pump on")
	case isolators && len(branches) > 0 && branches[0].TeeIn == nil:
		never = append(never, "an isolator shut with the pump on")
	}
	return append(notes, "A position that is not found as written here is put right before the pump is switched on."), never
}

// settingWords says how the bypass is set and proved. Source of the aim for the rise: the
// heat balance, 0.86 K for each kW in 1 m³/h; the rest is common practice, no source.
func settingWords(valves []valve) []string {
	byHand, check := false, false
	for _, v := range valves {
		byHand = byHand || v.duty == bypasses
		check = check || v.duty == checks
	}
	if !byHand && !check {
		return nil
	}
	out := []string{
		"Clean filter, jets as they are used, heating mode, unit on: wait 10 to 15 minutes, until it runs steadily.",
		"Read the water before and after the unit with one thermometer moved between two pockets, or with the unit's own pair once checked against each other.",
		"The rise to aim for is 0.86 times the heat output in kW over the rated flow in m3/h, usually 2 to 3 K; what each mode should show stands in the record.",
	}
	if byHand {
		out = append(out, "Rise too large: too little flow, so shut the bypass valve a little. Rise too small: open it a little, but never so far that the unit falls below its least flow.")
	}
	if check {
		out = append(out, "A spring check is not set: where the rise is too large, look for dirt, air, an isolator not fully open, then compare the spring on its label with this pack.")
	}
	return append(out,
		"Do it again in every other state of the schedule in which the unit runs, and with the jets turned down.",
		"Write rise, air temperature and power into the record, and mark the handles. A rise of 1 K is too small to reckon a flow from: ±0.3 K on the thermometer is ±30 % on the flow. Use a flow meter.")
}
