package search

import (
	"cmp"
	"math"
	"slices"

	"dryfit/catalog"
	"dryfit/graph"
	"dryfit/graph/plan/advice"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// fitBypass gives a trial its bypass element and solves it. What the request names is taken;
// else the unit's flow decides, in the order of promise.order; a throttle valve is set by
// throttle.setting.
func (s *search) fitBypass(t *trial, choice retrofit.Choice) {
	switch choice.Bypass {
	case "spring":
		s.fitSpring(t, choice)
	case "valve":
		s.fitThrottle(t, choice)
	default:
		s.settle(t, nil)
	}
}

// fitSpring tries the spring that another place came to, and where that does not give the
// unit its rated flow, or none was chosen yet, the one asked for or all of them.
func (s *search) fitSpring(t *trial, choice retrofit.Choice) {
	if s.spring != "" {
		choice.Spring = s.spring
		if next := s.solve(t.place, choice, nil); next.promise().Keeps(next.outcome()) && next.promise().KeepsRated(next.outcome()) {
			next.inherited = true
			s.settle(t, next)
			return
		}
	}
	var best, last *trial
	for _, row := range s.springs() {
		choice.Spring = row.Name
		next := s.solveLike(t, choice, last)
		last = next
		if best == nil || next.promise().Order(next.outcome(), best.outcome(), false) < 0 {
			best = next
		}
	}
	if best != nil {
		s.spring = best.proposal.Choice.Spring
	}
	s.settle(t, s.full(best))
}

// solve builds a trial at a place and solves it, from the flows of one much like it if there is one;
// nothing is judged.
func (s *search) solve(place retrofit.Place, choice retrofit.Choice, near *trial) *trial {
	t := s.layOutOnly(place, choice)
	t.solve(s.before, near)
	return t
}

// full is a trial built and laid out in its own right, where it was only sketched.
func (s *search) full(t *trial) *trial {
	if t == nil || !t.sketched {
		return t
	}
	return s.solve(t.place, t.proposal.Choice, t)
}

// layOutOnly builds a trial at a place and lays it out.
func (s *search) layOutOnly(place retrofit.Place, choice retrofit.Choice) *trial {
	t := &trial{before: s.before.Layout.Stage}
	t.build(s.site, s.asked.Retrofit.Unit, place, choice)
	if t.stage == nil {
		t.stage = t.after()
	}
	t.stage.Lay()
	return t
}

func (t *trial) solve(before *stage.Stage, near *trial) {
	if near != nil {
		t.stage.Near = near.stage
	}
	t.unsolved = t.stage.Solve(graph.After)
	t.solved = true
	t.unitFlows = unitFlows(t.stage, before.Solutions)
	t.besides = besideFlows(t.stage, t.unit, before.Solutions)
}

// settle puts the chosen trial in t's place, judged in full. Of a place without the room for
// the work what was found before stands: what the geometry there comes to says nothing.
func (s *search) settle(t, chosen *trial) {
	was := t.findings
	if chosen != nil {
		*t = *chosen
	}
	if t.place.TooShort() {
		t.findings = was
		return
	}
	t.judgeFlow(s.before)
}

// springs returns the springs to try, the weakest first: the one asked for, else all.
func (s *search) springs() []catalog.Row {
	all := s.asked.Catalog.Springs()
	r := s.asked.Retrofit
	if r.Spring != "" && r.Spring != "auto" {
		if row, ok := s.asked.Catalog.Row(r.Spring); ok {
			return []catalog.Row{row}
		}
	}
	if r.SpringPa > 0 {
		slices.SortStableFunc(all, func(a, b catalog.Row) int {
			return cmp.Compare(math.Abs(a.CrackingPa-r.SpringPa), math.Abs(b.CrackingPa-r.SpringPa))
		})
		return all[:min(1, len(all))]
	}
	return all
}

// outcome is what the trial's bypass element comes to.
func (t *trial) outcome() advice.Outcome {
	o := advice.Outcome{Failed: len(graph.Errors(t.unsolved))}
	for _, f := range t.unitFlows {
		if f.wanted && f.chatters {
			o.Chatters++
		}
		if f.wanted {
			o.Unit, o.Pump, o.JetsShare = append(o.Unit, f.flow), append(o.Pump, f.pumpFlow), append(o.JetsShare, f.jets)
		}
	}
	return o
}

// promise is what the trial's unit asks for.
func (t *trial) promise() advice.Promise {
	if t.proposal == nil {
		return advice.Promise{}
	}
	if t.stage != nil && t.stage.Layout != nil {
		return advice.PromiseOf(t.stage.Layout.Stage.Part(t.unit))
	}
	return advice.Promise{}
}

// fitThrottle sets the bypass valve (throttle.setting); where the unit gets no more than its
// rated flow with the bypass shut, in the mode in which it gets least, the valve stays shut; so
// it does while nothing is known of what the unit asks for: open, it would let no water to it.
func (s *search) fitThrottle(t *trial, choice retrofit.Choice) {
	choice.Shut = true
	trial := s.solveLike(t, choice, nil)
	want := trial.promise().Wanted()
	if len(trial.outcome().Unit) == 0 || want == 0 || trial.outcome().Low() <= want {
		s.settle(t, s.full(trial))
		return
	}
	choice.Shut, choice.ThrottleKv = false, 1 // any: it is set below
	open := s.sketch(t, choice)
	branch, _ := open.stage.Layout.Stage.Branch()
	if branch == nil {
		s.settle(t, s.full(trial))
		return
	}
	choice.ThrottleKv = advice.NewThrottle(open.stage.Layout, branch, open.proposal.Element).Setting(open.promise())
	s.settle(t, s.solve(t.place, choice, nil))
}
