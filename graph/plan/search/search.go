package search

import (
	"cmp"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
	"dryfit/graph/settle"
)

// search looks for the place and the bypass of a job.
type search struct {
	asked    *graph.Circuit
	settled  *settle.Stage // asked, every value settled, for what is judged of each place
	before   *stage.Stage
	site     *retrofit.Site
	segments *segments
	trials   []*trial // in rank order once ranked
	refused  []graph.Diagnostic
	force    bool                   // the description names the place: it is built whatever the rules say
	judged   map[segment]runVerdict // what the rules on the circuit say
	judging  int                    // how many runs were judged so
	moved    int                    // how many places were tried elsewhere on their legs so
	tries    int                    // changes tried to find what would make a place possible
	others   int                    // other pairs of pipes looked for in trying them
	bound    *int                   // where those are counted by what tries one of the changes; nil otherwise
	todays   []*stage.Stage         // before the work, as those changes left it
	changed  []*graph.Run           // runs as they changed them
	tell     graph.Tell             // what is being done
	spring   string                 // catalogue row that the first place solved came to; "" before
	instead  quantity.Text          // what was worked out where the pump gives the unit too little; ""
}

func newSearch(c *graph.Circuit, before *stage.Stage) *search {
	site := retrofit.NewSite(c, before.Layout)
	return &search{asked: c, settled: before.Layout.Stage.With(c), before: before, site: site, segments: newSegments(before.Circuit),
		judged: map[segment]runVerdict{}}
}

// first is the bypass a place is measured for.
func (s *search) first(place retrofit.Place) retrofit.Choice { return s.site.FirstChoice(place.Run) }

// forced tries the places a description names: a leg and offset, or every leg of a run.
func (s *search) forced(cut graph.Cut) {
	s.force = true
	var places []retrofit.Place
	if cut.Leg > 0 {
		if place, ok := s.site.PlaceAt(cut, s.site.FirstChoice(cut.Run)); ok {
			places = append(places, place)
		}
	} else {
		for _, place := range s.site.Places() {
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
func (s *search) places() { s.try(s.site.Places()) }

// try sends the places through the house, the cheap steps first: what the rules on the cut
// or on the circuit bar is not built, and what cannot be built is not solved. The order in
// which they are given decides nothing: what is found of one may be used for another (the
// findings of a segment, the spring one came to), so they are taken in that of the water.
func (s *search) try(places []retrofit.Place) {
	var some, left []*trial
	for _, place := range s.inOrder(places) {
		t := &trial{place: place, unit: s.asked.Retrofit.Unit, before: s.before.Layout.Stage, others: s.bound}
		if !place.MeasureFirst {
			t.findings = rule.ApplyCut(&rule.Input{Circuit: s.asked, Settled: s.settled, Cut: CutAt(s.asked, place, s.cutPos())})
		} else {
			t.findings = s.tooShortAnyhow(place)
		}
		some = append(some, t)
	}
	s.trials = append(s.trials, some...)
	s.judgeAll(some)
	for _, t := range some {
		if !t.place.MeasureFirst && !t.unjudged && len(t.errors()) == 0 && !t.place.TooShort() {
			t.untried = true
			left = append(left, t)
		}
	}
	slices.SortStableFunc(left, byMerit)
	for len(left) > 0 {
		var some []*trial
		some, left = s.layOut(left)
		if s.solveAll(some) {
			break
		}
	}
}

// tooShortAnyhow finds that a run known only by its length has no room for the work however it
// lies: not even if it is as long as such a length may be off.
func (s *search) tooShortAnyhow(place retrofit.Place) []graph.Diagnostic {
	run := s.before.Layout.Stage.Run(place.Run)
	switch {
	case run == nil:
		return nil
	case run.Length.Known && run.Length.V == 0:
		return []graph.Diagnostic{{Pos: run.Pos, Severity: graph.Error, Rule: "cut-room",
			Message: graph.Say("run %q is written with %s: what it joins touches, and there is no pipe to cut", run.Said(), s.length(0))}}
	case place.NeededMM <= 0:
		return nil
	}
	most := run.Length.V * (1 + max(0, run.Length.High))
	if most >= place.NeededMM {
		return nil
	}
	return []graph.Diagnostic{{Pos: run.Pos, Severity: graph.Error, Rule: "cut-room",
		Message: graph.Say("run %q is written with %s, and is hardly longer than %s: it has no straight stretch of %s, which the work needs", run.Said(), s.length(run.Length.V), s.length(most), s.length(place.NeededMM))}}
}

// inOrder returns the places as the water comes to them: by run, leg and place on it.
func (s *search) inOrder(places []retrofit.Place) []retrofit.Place {
	net := s.settled.Net()
	run, out := net.Order(), slices.Clone(places)
	slices.SortStableFunc(out, func(a, b retrofit.Place) int {
		along := cmp.Or(cmp.Compare(a.Leg, b.Leg), cmp.Compare(a.FromMM, b.FromMM))
		if r := net.Run(a.Run); r != nil && net.Against(r) {
			along = -along
		}
		return cmp.Or(cmp.Compare(run[a.Run], run[b.Run]), along)
	})
	return out
}

// layOut builds the next places and lays them out, until as many as are solved at a time can
// be built.
func (s *search) layOut(left []*trial) (fit, rest []*trial) {
	for i, t := range left {
		s.tell.Step("building the unit in at each place", i, len(left))
		if len(fit) == s.mostSolved() {
			return fit, left[i:]
		}
		t.untried = false
		if t.build(s.site, t.unit, t.place, s.first(t.place)); len(t.errors()) == 0 {
			t.judgeLayout(s.before)
		}
		if s.along(t); len(t.errors()) == 0 {
			fit = append(fit, t)
		}
	}
	return fit, nil
}

// solveAll fits the bypass of some places and solves them, the best first: that one with
// every spring, the others with the one it came to. It reports whether one of them does.
func (s *search) solveAll(some []*trial) bool {
	s.before.Solve(graph.Before)
	slices.SortStableFunc(some, byMerit)
	does := false
	for i, t := range some {
		s.tell.Step("fitting the bypass at each place", i, len(some))
		s.fitBypass(t, s.first(t.place))
		does = does || t.standing() == 0
	}
	return does
}

// mostSolved is how many places are solved at a time: all in a circuit of usual size, the
// best eight by all that needs no flows in one of many runs.
func (s *search) mostSolved() int { return max(8, 2000/max(1, len(s.asked.Runs))) }

// cutPos is where the description asks for the cut; zero where it leaves it open.
func (s *search) cutPos() graph.Pos {
	if s.asked.Retrofit.Cut != nil {
		return s.asked.Retrofit.Cut.Pos
	}
	return graph.Pos{}
}

// chosen returns the trial to build: the best possible one; where the place was named, that
// one whatever is said of it. Its bypass is the best of all there are.
func (s *search) chosen() *trial {
	for _, t := range s.trials {
		switch {
		case t.place.MeasureFirst:
			if s.force {
				s.refused = slices.Concat(s.unmeasured(t.place), t.findings)
			}
			continue
		case t.standing() > 0 && !s.force:
			return nil
		case t.proposal == nil && t.beside != "": // no tee has a place there
			continue
		case t.proposal == nil: // it was asked for: what bars it stands
			was := t.findings
			t.build(s.site, t.unit, t.place, s.first(t.place))
			t.findings = was
		}
		if !t.solved || t.inherited {
			s.before.Solve(graph.Before)
			s.spring = ""
			s.fitBypass(t, s.first(t.place))
		}
		return t
	}
	return nil
}

// unmeasured says why a place the description names can't be cut: what the rules on the cut
// say of a run known only by its length.
func (s *search) unmeasured(place retrofit.Place) []graph.Diagnostic {
	return rule.ApplyCut(&rule.Input{Circuit: s.asked, Settled: s.settled, Cut: CutAt(s.asked, place, s.cutPos())})
}
