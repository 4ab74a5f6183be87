package search

import (
	"reflect"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
)

// How many changes are tried, of one place and of all, and how many ways out are printed of
// one. Each is the circuit built and judged again: in one of more than a hundred runs as many
// fewer are tried.
const (
	triesOfPlace = 36
	triesOfAll   = 108
	triedRuns    = 100 * triesOfAll
	mostMends    = 3
	mostAnew     = 2 * mostMends // of those that do, searched for once more as a description that is read anew is
	mostTogether = 3
)

// mend says what would make a ruled-out place possible: changes that were applied to the
// circuit and tried, with what they cost. Where one does not do, those that speak to what is
// still wrong are tried with it; lines that are needed together are said together. A place
// that stands wrong in the way of the water has none.
func (s *search) mend(t *trial) []quantity.Text {
	if t.place.Leg == 0 || t.place.MeasureFirst || t.unjudged || !t.parallel() && s.barred(t) {
		return nil
	}
	type attempt struct {
		some []help
		with *trial
	}
	left, chosen, anew := triesOfPlace, false, mostAnew
	var out, second []quantity.Text // second: the unit moved to where it may stand in something else
	best := func() []quantity.Text {
		if len(out) == 0 && len(second) > 0 {
			return second[:1]
		}
		return out
	}
	open := []attempt{{with: t}}
	var done [][]string
	for size := 1; size <= mostTogether && !chosen; size++ {
		var next []attempt
		for _, a := range open {
			for _, h := range s.helps(a.with) {
				if slices.ContainsFunc(a.some, h.overlaps) || chosen && h.dear {
					continue
				}
				if left == 0 || s.tries >= min(triesOfAll, triedRuns/len(s.asked.Runs)) || len(out) >= mostMends {
					return best()
				}
				some := append(slices.Clone(a.some), h)
				kinds := kindsOf(some)
				if slices.ContainsFunc(done, func(less []string) bool { return holds(kinds, less) }) {
					continue // less of it does
				}
				left--
				s.tries++
				with := s.with(t, some)
				switch {
				case with == nil:
				case with.standing() == 0 && !with.untried && s.site.Shortened() && !s.doesAnew(t, some, &anew):
					// a longer search comes to other pipes, and those will not do
				case with.standing() == 0 && !with.untried && slices.Contains(h.kinds, "at") && with.unitMayHit():
					second = append(second, s.said(some, with))
				case with.standing() == 0 && !with.untried:
					out = append(out, s.said(some, with))
					done = append(done, kinds)
					chosen = chosen || !slices.ContainsFunc(some, func(o help) bool { return o.fact })
				default:
					next = append(next, attempt{some, with})
				}
			}
		}
		slices.SortStableFunc(next, func(a, b attempt) int { return byMerit(a.with, b.with) }) // what helped somewhat before what did not
		open = next
	}
	return best()
}

// unitMayHit reports whether the unit, as large as it is taken to be, stands in something.
func (t *trial) unitMayHit() bool {
	return slices.ContainsFunc(t.findings, func(d graph.Diagnostic) bool {
		return d.Rule == "clash" && slices.Contains(d.Of, t.unit)
	})
}

// betters reports whether what was tried instead does, all of it looked at, and is warned of less; false of nil.
func (t *trial) betters(best *trial) bool {
	return t != nil && t.standing() == 0 && !t.untried && t.warnings() < best.warnings()
}

// overlaps reports whether two changes change the same thing.
func (h help) overlaps(o help) bool {
	return slices.ContainsFunc(h.kinds, func(kind string) bool { return slices.Contains(o.kinds, kind) })
}

// kindsOf names what is changed, whatever it is changed to.
func kindsOf(some []help) []string {
	var names []string
	for _, h := range some {
		names = append(names, h.kinds...)
	}
	return names
}

// holds reports whether names hold all of fewer.
func holds(names, fewer []string) bool {
	return !slices.ContainsFunc(fewer, func(name string) bool { return !slices.Contains(names, name) })
}

// barred reports whether a place stands wrong in the way of the water, whatever is built there.
func (s *search) barred(t *trial) bool {
	run := s.asked.Run(t.place.Run)
	return run == nil || s.judged[s.segments.of(run)].barred
}

// with tries the place in the circuit with the changes applied; nil where it is not there.
func (s *search) with(t *trial, some []help) *trial {
	c := forked(s.asked)
	for _, h := range some {
		h.apply(c)
	}
	before := s.today(c)
	other := newSearch(c, before)
	other.bound = &s.others
	other.site.TriedBeside(s.site)
	return other.again(t.renumbered(some))
}

// renumbered is a trial whose leg has the number it has with changes applied.
func (t *trial) renumbered(some []help) *trial {
	out := *t
	for _, h := range some {
		if h.leg > 0 {
			out.place.Leg = h.leg
		}
	}
	return &out
}

// again tries the place of a trial in the circuit that is searched; nil where it is not there.
func (s *search) again(t *trial) *trial {
	c, before := s.asked, s.before
	if t.parallel() {
		for _, branch := range retrofit.BesideUnits(c, before.Layout) {
			if branch.Unit.ID == t.beside {
				return s.inParallel(branch)
			}
		}
		return nil
	}
	cut := graph.Cut{Run: t.place.Run, Leg: t.place.Leg, AtMM: -1}
	if asked := c.Retrofit.Cut; asked != nil && asked.Leg == t.place.Leg && asked.Run == t.place.Run {
		cut.AtMM = asked.AtMM
	}
	place, ok := s.site.PlaceAt(cut, s.first(t.place))
	if !ok {
		return nil
	}
	s.try([]retrofit.Place{place})
	return s.trials[0]
}

// doesAnew reports whether changes that do with few steps left for the pipes do so too once the file
// says them, when these are looked for in all the steps there are. left counts how often that is asked.
func (s *search) doesAnew(t *trial, some []help, left *int) bool {
	if *left == 0 {
		return false
	}
	*left--
	c := forked(s.asked)
	for _, h := range some {
		h.apply(c)
	}
	anew := newSearch(c, s.today(c))
	anew.site.FittedAs(s.site)
	with := anew.again(t.renumbered(some))
	return with != nil && with.standing() == 0 && !with.untried
}

// today is the stage before the work of the circuit with changes applied, laid out: one there
// is already, where its runs are the same, for what is asked for moves no pipe and no water.
func (s *search) today(c *graph.Circuit) *stage.Stage {
	s.known(c.Runs)
	now := c.At(graph.Before)
	alike := *c
	alike.Retrofit, alike.Runs = s.asked.Retrofit, s.asked.Runs
	if !reflect.DeepEqual(&alike, s.asked) {
		before := &stage.Stage{Circuit: now, Like: s.before.Layout.Stage}
		before.Lay()
		return before
	}
	for _, before := range append(s.todays[:len(s.todays):len(s.todays)], s.before) {
		if slices.Equal(now.Parts, before.Circuit.Parts) && slices.Equal(now.Runs, before.Circuit.Runs) {
			return before.As(now)
		}
	}
	before := &stage.Stage{Circuit: now, Like: s.before.Layout.Stage}
	before.Lay()
	s.todays = append(s.todays, before)
	return before
}

// known puts runs that were changed alike before in the place of changed ones.
func (s *search) known(runs []*graph.Run) {
	for i, r := range runs {
		if r == s.asked.Runs[i] {
			continue
		}
		k := slices.IndexFunc(s.changed, func(o *graph.Run) bool { return reflect.DeepEqual(o, r) })
		if k < 0 {
			k, s.changed = len(s.changed), append(s.changed, r)
		}
		runs[i] = s.changed[k]
	}
}

// said words changes that work together, what they cost, and what the unit then gets. What was led
// with few steps left may be led otherwise once the file says so, with other flows: those are then
// left out.
func (s *search) said(some []help, with *trial) quantity.Text {
	flows := s.summary(with)
	if s.site.Shortened() {
		flows = ""
	}
	return wordMend(some, flows, with.place.OnlyIf())
}

// wordMend joins what is changed, what it costs, and what comes of it where there is something to say.
func wordMend(some []help, flows, condition quantity.Text) quantity.Text {
	var say, cost []quantity.Text
	for _, h := range some {
		say, cost = append(say, h.say), append(cost, h.cost)
	}
	text := quantity.Join(say, ", together with ") + "; it costs " + quantity.Join(cost, ", and ")
	for _, more := range []quantity.Text{flows, condition} {
		if more != "" {
			text += "; " + more
		}
	}
	return text
}
