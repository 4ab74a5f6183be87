package search

import (
	"cmp"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/rule"
)

// rank puts the trials in order: possible before ruled out, better before worse.
func (s *search) rank() {
	slices.SortStableFunc(s.trials, byMerit)
}

// byMerit orders two trials as a fitter would: what the rules bar comes last, nearest to
// possible first, and behind that what stands wrong in the way of the water and what nobody
// looked at; then what the unit's flow is, what it takes from another that is there, what the rules warn of, room to spare, the way to the
// unit, and the order in which the water comes to them.
func byMerit(a, b *trial) int {
	return cmp.Or(
		cmp.Compare(a.rankedAs(), b.rankedAs()),
		quantity.CompareBool(a.unjudged, b.unjudged),
		quantity.CompareBool(a.barred, b.barred),
		quantity.CompareBool(a.aside(), b.aside()),
		quantity.CompareBool(a.unbuilt(), b.unbuilt()),
		-quantity.CompareBool(a.solved, b.solved),
		cmp.Compare(len(a.errors()), len(b.errors())),
		cmp.Compare(b.lacks(), a.lacks()),
		a.promise().OrderPlaces(a.outcome(), b.outcome()),
		cmp.Compare(a.taking(), b.taking()),
		quantity.CompareBool(a.doubtful(), b.doubtful()),
		cmp.Compare(a.warnings(), b.warnings()),
		cmp.Compare(b.spare(), a.spare()),
		cmp.Compare(a.detours(), b.detours()),
	)
}

// standing is 0 for a place that is possible, 1 for one to measure or to look at first, 2 for
// one ruled out.
func (t *trial) standing() int {
	switch {
	case len(t.errors()) > 0:
		return 2
	case t.place.MeasureFirst, t.unjudged && !t.place.TooShort():
		return 1
	case t.proposal == nil && !t.untried:
		return 2
	}
	return 0
}

// rankedAs is its standing, but that a place beside the line of all the water is not measured before
// one on that line is made possible: the side branch of a waterfall or of one inlet.
func (t *trial) rankedAs() int {
	if t.aside() {
		return 2
	}
	return t.standing()
}

// aside reports whether the place is not possible as it is, and not on all of its pump's water.
func (t *trial) aside() bool {
	return t.standing() > 0 && slices.ContainsFunc(t.findings, func(d graph.Diagnostic) bool { return d.Rule == rule.OnWholeLine })
}

// unbuilt reports whether the place stands right in the way of the water and has not the room:
// nothing was built there, so that it has none of the findings of one that was.
func (t *trial) unbuilt() bool { return !t.barred && t.place.TooShort() }

// taking counts the modes in which the work takes the rated flow from a unit that is there and had it.
func (t *trial) taking() int {
	n := 0
	for i := range t.besides {
		if t.besides[i].taken(t.besides[i].rated) {
			n++
		}
	}
	return n
}

// doubtful reports whether the place is possible only if a part is as short as it is taken.
func (t *trial) doubtful() bool {
	_, ok := t.place.Deciding()
	return ok
}

// errors returns the error findings of the trial that rule the place out; not those on what is the
// same wherever the unit is let in.
func (t *trial) errors() []graph.Diagnostic {
	return slices.DeleteFunc(graph.Errors(t.findings), func(d graph.Diagnostic) bool { return rule.SaysAnywhere(d.Rule) })
}

// warnings counts the warnings on new work.
func (t *trial) warnings() int {
	n := 0
	for _, d := range t.findings {
		if d.Severity == graph.Warning && !rule.SaysAnywhere(d.Rule) {
			n++
		}
	}
	return n
}

// lacks is what a place that stands right lacks of the length for the work, mm below nothing; 0 elsewhere.
// Nothing was built there, so that this alone says how near to possible it is.
func (t *trial) lacks() int {
	if !t.unbuilt() {
		return 0
	}
	return int(t.place.RoomMM-t.place.NeededMM) - 1
}

// spare is the room to spare in steps of 100 mm, up to three: more makes a place no better.
// Where it lacks room it is by how much, in mm.
func (t *trial) spare() int {
	if t.place.TooShort() {
		return int(t.place.RoomMM-t.place.NeededMM) - 1
	}
	return int(min(3, (t.place.RoomMM-t.place.NeededMM)/100))
}

// detours counts the legs that had to be put before those asked for, and what was assumed.
func (t *trial) detours() int { return len(t.built) }
