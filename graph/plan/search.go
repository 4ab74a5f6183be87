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
	onRun   map[string]runTrial
	spring  string // catalogue row that the first place solved came to; "" before
}

// runTrial is what holds of every leg of a run alike.
type runTrial struct {
	place    retrofit.Place
	proposal *retrofit.Proposal
	built    []graph.Diagnostic
	findings []graph.Diagnostic // of the rules that read the circuit alone, but for those on the cut
}

func newSearch(c *graph.Circuit, before *Stage) *search {
	return &search{asked: c, before: before, first: retrofit.FirstChoice(c, before.Layout), onRun: map[string]runTrial{}}
}

// forced tries the places a description names: a leg and offset, or every leg of a run.
func (s *search) forced(cut graph.Cut) {
	s.force = true
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
	s.try(places)
}

// places tries every place.
func (s *search) places() { s.try(retrofit.Places(s.asked, s.before.Layout)) }

// try sends the places through the house, the cheap steps first: what the rules on the cut
// or on the circuit bar is not laid out, and what cannot be built is not solved. All legs of
// a run stand alike to the rules that read the circuit alone, so those judge one of them.
func (s *search) try(places []retrofit.Place) {
	var fit []*trial
	for _, place := range places {
		t := &trial{place: place}
		s.trials = append(s.trials, t)
		run := s.judgeRun(place)
		if place.MeasureFirst {
			t.findings = run.findings
			continue
		}
		t.findings = slices.Concat(rule.ApplyCut(&rule.Input{Circuit: s.asked, Cut: cutAt(s.asked, place, s.cutPos())}), run.findings)
		if len(t.errors()) > 0 || place.TooShort() {
			continue
		}
		if run.place.Leg == place.Leg {
			t.proposal, t.built = run.proposal, run.built
		} else {
			t.build(s.asked, s.before, place, s.first)
		}
		t.findings = slices.Concat(t.built, t.findings)
		if t.proposal == nil || len(t.errors()) > 0 {
			continue
		}
		t.judgeLayout(s.before)
		if len(t.errors()) == 0 {
			fit = append(fit, t)
		}
	}
	s.solveBest(fit)
}

// judgeRun applies the rules that read the circuit alone to a cut in a run, once.
func (s *search) judgeRun(place retrofit.Place) runTrial {
	if run, ok := s.onRun[place.Run]; ok {
		return run
	}
	t := &trial{}
	run := runTrial{place: place}
	c, before := s.asked, s.before
	if place.MeasureFirst { // the rules read what it leads to, not where it lies
		c, before = straightened(s.asked, place)
		place.Leg, place.MeasureFirst = 1, false
	}
	if t.build(c, before, place, s.first) {
		run.findings = t.judgeCircuit(s.before)
	} else {
		run.findings = t.built
	}
	run.proposal, run.built = t.proposal, t.built
	s.onRun[place.Run] = run
	return run
}

// straightened returns the circuit with a run known only by its length taken as one straight
// leg, laid out before the work: it carries the same water, and stands nowhere.
func straightened(c *graph.Circuit, place retrofit.Place) (*graph.Circuit, *Stage) {
	out := *c
	out.Runs = slices.Clone(c.Runs)
	for i, r := range out.Runs {
		if r.ID == place.Run {
			straight := *r
			straight.Legs = []graph.Leg{{By: graph.Vec{X: max(r.LengthMM, place.NeededMM)}, Place: graph.NoPlace(), Pos: r.Pos}}
			straight.LengthMM, straight.HasLength, straight.Fittings = 0, false, nil
			out.Runs[i] = &straight
		}
	}
	before := &Stage{Circuit: out.At(graph.Before)}
	before.lay()
	return &out, before
}

// cutPos is where the description asks for the cut; zero where it leaves it open.
func (s *search) cutPos() graph.Pos {
	if s.asked.Retrofit.Cut != nil {
		return s.asked.Retrofit.Cut.Pos
	}
	return graph.Pos{}
}

// solveBest fits the bypass of the best places and solves them. The first is tried with every
// spring, the others with the one it came to; they are tried with all where that does not do.
func (s *search) solveBest(fit []*trial) {
	if len(fit) == 0 {
		return
	}
	s.before.solve(graph.Before)
	slices.SortStableFunc(fit, byMerit)
	for i, t := range fit {
		if i < s.mostSolved() {
			s.fitBypass(t, s.first)
		}
	}
}

// mostSolved is how many places are solved: all in a circuit of usual size, the best dozen by
// all that needs no flows in one of many runs.
func (s *search) mostSolved() int { return max(12, 2000/max(1, len(s.asked.Runs))) }

// rank puts the trials in order: possible before ruled out, better before worse.
func (s *search) rank() {
	slices.SortStableFunc(s.trials, byMerit)
}

// byMerit orders two trials as a fitter would: what the rules bar comes last, nearest to
// possible first; then what the unit's flow is, what the rules warn of, room to spare, the
// way to the unit, and the order of the description.
func byMerit(a, b *trial) int {
	return cmp.Or(
		cmp.Compare(a.standing(), b.standing()),
		cmp.Compare(len(a.errors()), len(b.errors())),
		-compareBool(a.solved, b.solved),
		a.promise().orderPlaces(a.outcome(), b.outcome()),
		cmp.Compare(a.warnings(), b.warnings()),
		cmp.Compare(b.spare(), a.spare()),
		cmp.Compare(a.detours(), b.detours()),
	)
}

// standing is 0 for a place that is possible, 1 for one to measure first, 2 for one ruled out.
func (t *trial) standing() int {
	switch {
	case len(t.errors()) > 0:
		return 2
	case t.place.MeasureFirst:
		return 1
	case t.proposal == nil:
		return 2
	}
	return 0
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

// chosen returns the trial to build: the best possible one; where the place was named, that
// one whatever is said of it. Its bypass is the best of all there are.
func (s *search) chosen() *trial {
	for _, t := range s.trials {
		switch {
		case t.place.MeasureFirst:
			if s.force {
				_, refused := retrofit.Build(s.asked, s.before.Layout, t.place, s.first)
				s.refused = slices.Concat(refused, t.findings)
			}
			continue
		case t.standing() > 0 && !s.force:
			return nil
		case t.proposal == nil && !t.build(s.asked, s.before, t.place, s.first):
			s.refused = t.built
			continue
		}
		if !t.solved || t.inherited {
			s.before.solve(graph.Before)
			s.spring = ""
			s.fitBypass(t, s.first)
		}
		return t
	}
	return nil
}
