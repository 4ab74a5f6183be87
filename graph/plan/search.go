package plan

import (
	"cmp"
	"slices"

	"dryfit/graph"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
)

// search looks for the place and the bypass of a job.
type search struct {
	asked   *graph.Circuit
	before  *Stage
	trials  []*trial // in rank order once ranked
	refused []graph.Diagnostic
	force   bool            // the description names the place: it is built whatever the rules say
	first   retrofit.Choice // what the places are measured for
}

// forced tries the places a description names: a leg and offset, or every leg of a run.
func (s *search) forced(cut graph.Cut) {
	s.force = true
	s.first = retrofit.FirstChoice(s.asked, s.before.Layout)
	var places []retrofit.Place
	if cut.Leg > 0 {
		if place, ok := retrofit.PlaceAt(s.asked, s.before.Layout, cut, s.first); ok {
			places = append(places, place)
		}
	} else {
		for _, place := range retrofit.Places(s.asked, s.before.Layout) {
			if place.Run == cut.Run {
				places = append(places, place)
			}
		}
	}
	if len(places) == 0 {
		places = append(places, retrofit.Place{Run: cut.Run, Leg: cut.Leg, MeasureFirst: true})
	}
	s.try(places, s.first)
}

// places tries every place.
func (s *search) places() {
	s.first = retrofit.FirstChoice(s.asked, s.before.Layout)
	s.try(retrofit.Places(s.asked, s.before.Layout), s.first)
}

// try sends the places through the house, the cheap steps first: what a rule on the circuit
// bars is not laid out, and what cannot be built is not solved. All legs of a run stand
// alike to the rules that read the circuit alone, so those judge the first of them; the room,
// reach and measure of the cut are each leg's own.
func (s *search) try(places []retrofit.Place, choice retrofit.Choice) {
	byRun := map[string][]graph.Diagnostic{}
	var built []*trial
	for _, place := range places {
		t := &trial{place: place}
		s.trials = append(s.trials, t)
		if place.MeasureFirst || !t.build(s.asked, s.before, place, choice) {
			if place.MeasureFirst && s.force {
				_, s.refused = retrofit.Build(s.asked, s.before.Layout, place, choice)
			}
			continue
		}
		ds, ok := byRun[place.Run]
		if !ok {
			ds = t.judgeCircuit(s.before)
			byRun[place.Run] = ds
		} else {
			t.stage = &Stage{Circuit: t.proposal.Circuit.At(graph.After)}
		}
		t.findings = slices.Concat(t.built, ds, rule.ApplyCut(t.input(s.before)))
		if s.force || len(t.errors()) == 0 {
			built = append(built, t)
		}
	}
	var fit []*trial
	for _, t := range built {
		t.judgeLayout(s.before)
		if s.force || len(t.errors()) == 0 {
			fit = append(fit, t)
		}
	}
	if len(fit) == 0 {
		return
	}
	s.before.solve(graph.Before)
	slices.SortStableFunc(fit, byMerit)
	for i, t := range fit {
		if i < mostSolved {
			s.fitBypass(t, choice)
		}
	}
}

// mostSolved is how many places are solved: the best by all that needs no flows. More would
// cost time and tell nothing, for they differ by a few mm of the same pipe.
const mostSolved = 12

// rank puts the trials in order: possible before ruled out, better before worse.
func (s *search) rank() {
	slices.SortStableFunc(s.trials, byMerit)
}

// byMerit orders two trials as a fitter would: what the rules bar comes last; then what the
// unit's flow is, what the rules warn of, room to spare, the jets, the way to the unit, and
// the order of the description.
func byMerit(a, b *trial) int {
	return cmp.Or(
		cmp.Compare(a.standing(), b.standing()),
		cmp.Compare(len(a.errors()), len(b.errors())),
		cmp.Compare(a.missed(), b.missed()),
		cmp.Compare(a.warnings(), b.warnings()),
		cmp.Compare(b.spare(), a.spare()),
		cmp.Compare(a.detours(), b.detours()),
	)
}

// standing is 0 for a place that is possible, 1 for one to measure first, 2 for one ruled out.
func (t *trial) standing() int {
	switch {
	case t.place.MeasureFirst:
		return 1
	case t.proposal == nil || len(t.errors()) > 0:
		return 2
	}
	return 0
}

// spare is the room to spare in steps of 100 mm, up to three: more makes a place no better.
func (t *trial) spare() int {
	return int(min(3, max(-1, (t.place.RoomMM-t.place.NeededMM)/100)))
}

// detours counts the legs that had to be put before those asked for, and what was assumed.
func (t *trial) detours() int { return len(t.built) }

// chosen returns the trial to build: the best possible one; where the place was named, that
// one whatever is said of it.
func (s *search) chosen() *trial {
	if len(s.trials) == 0 {
		return nil
	}
	t := s.trials[0]
	if t.proposal != nil && (s.force || t.standing() == 0) {
		return t
	}
	for _, t := range s.trials {
		if s.force && t.proposal != nil {
			return t
		}
	}
	return nil
}
