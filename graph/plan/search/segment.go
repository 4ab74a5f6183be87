package search

import (
	"cmp"
	"slices"

	"dryfit/catalog"
	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/hydraulic/formula"
	"dryfit/graph/plan/stage"
	"dryfit/graph/retrofit"
	"dryfit/graph/rule"
)

// segment is what the rules that read the circuit alone cannot tell apart: old runs of one
// pipe in one line, with nothing but joints between them.
type segment struct {
	root    string // id of its first run
	spec    catalog.Spec
	size    catalog.Size
	boreMM  float64
	outside bool
	single  string // the run itself where it has to be judged alone; ""
}

// segments tells which line of joints a run lies in.
type segments struct{ root map[string]string }

// newSegments follows the lines of a circuit through its unions and couplings.
func newSegments(c *graph.Circuit) *segments {
	s := &segments{root: map[string]string{}}
	at := map[string][]string{} // runs at each joint
	joint := map[string]bool{}
	for _, p := range c.Parts {
		joint[p.ID] = p.Kind == graph.Union || p.Kind == graph.Coupling || p.Kind == graph.SlipCoupling
	}
	find := func(id string) string {
		for s.root[id] != id {
			id = s.root[id]
		}
		return id
	}
	for _, r := range c.Runs {
		s.root[r.ID] = r.ID
		for _, end := range []string{r.From.Part, r.To.Part} {
			if !joint[end] {
				continue
			}
			for _, other := range at[end] {
				s.root[find(r.ID)] = find(other)
			}
			at[end] = append(at[end], r.ID)
		}
	}
	for _, r := range c.Runs {
		s.root[r.ID] = find(r.ID)
	}
	return s
}

// of returns the segment of a run.
func (s *segments) of(r *graph.Run) segment {
	return segment{root: s.root[r.ID], spec: r.Spec, size: r.Size, boreMM: r.BoreMM, outside: r.Outside}
}

// runVerdict is what the rules that read the circuit alone say of a cut in a run.
type runVerdict struct {
	findings []graph.Diagnostic
	barred   bool // by where it stands in the water's way
}

// mostRunsJudged bounds the rules on the circuit: each segment judged is a circuit built and
// gone through, so in one of n runs at most mostRunsJudged/n are. All are in a circuit of usual
// size.
const mostRunsJudged = 12000

// judgeAll applies the rules on the circuit to the trials. In a circuit of very many runs those
// come first that the cut itself allows, nearest after the pump; the last are left unjudged.
func (s *search) judgeAll(trials []*trial) {
	order := trials
	if len(trials)*len(s.asked.Runs) > mostRunsJudged {
		far := s.fromPumps()
		order = slices.Clone(trials)
		slices.SortStableFunc(order, func(a, b *trial) int {
			return cmp.Or(cmp.Compare(len(a.errors()), len(b.errors())), quantity.CompareBool(a.place.MeasureFirst, b.place.MeasureFirst),
				cmp.Compare(far[a.place.Run], far[b.place.Run]), cmp.Compare(b.spare(), a.spare()))
		})
	}
	for i, t := range order {
		s.tell.Step("looking at the places to cut", i, len(order))
		v, ok := s.judge(t.place)
		if t.unjudged = !ok; ok {
			t.findings = append(t.findings, v.findings...)
			t.barred = v.barred
		}
	}
}

// fromPumps counts the runs from the outlet of a pump down the water to each run; those on no
// such way have more than all others.
func (s *search) fromPumps() map[string]int {
	net := s.before.Layout.Stage.Net()
	far := make(map[string]int, len(s.asked.Runs))
	for _, r := range s.asked.Runs {
		far[r.ID] = len(s.asked.Runs)
	}
	for _, p := range s.before.Circuit.Parts {
		if p.Kind != graph.Pump {
			continue
		}
		for i, r := range net.Downstream(p).Runs {
			far[r.ID] = min(far[r.ID], i)
		}
	}
	return far
}

// judge applies the rules that read the circuit alone, but for those on the cut itself, to a
// cut in a place's run. All legs of a run stand alike to them, and so do runs of one segment
// as far as where they stand in the water's way is concerned; what else an error may be about
// names the run, and is asked for each. It is false where enough were judged.
func (s *search) judge(place retrofit.Place) (runVerdict, bool) {
	run := s.asked.Run(place.Run)
	if run == nil {
		return runVerdict{}, true
	}
	key := s.segments.of(run)
	v, ok := s.judged[key]
	if ok && (v.barred || !graph.HasErrors(v.findings)) {
		return v, true
	}
	if ok {
		key.single = run.ID
		if v, ok = s.judged[key]; ok {
			return v, true
		}
	}
	if s.judging > mostRunsJudged {
		return runVerdict{}, false
	}
	s.judging += len(s.asked.Runs)
	v = s.judgeRun(place)
	s.judged[key] = v
	return v, true
}

func (s *search) judgeRun(place retrofit.Place) runVerdict {
	site, before := s.site, s.before
	if place.MeasureFirst { // the rules read what it leads to, not where it lies
		site, before = straightened(s.asked, place)
		place.Leg, place.MeasureFirst = 1, false
	}
	t := &trial{place: place, unit: s.asked.Retrofit.Unit, before: before.Layout.Stage}
	t.proposal, t.built = site.Sketch(place, s.first(place))
	t.stage = t.after()
	in := t.input(before)
	in.Cut, in.Settled = nil, t.before.With(t.stage.Circuit)
	ds, barred := rule.ApplyPlace(in)
	return runVerdict{findings: ds, barred: barred}
}

// straightened returns the circuit with a run known only by its length taken as one straight
// leg, laid out before the work: it carries the same water, and stands nowhere.
func straightened(c *graph.Circuit, place retrofit.Place) (*retrofit.Site, *stage.Stage) {
	out := Straight(c, place, 0)
	before := &stage.Stage{Circuit: out.At(graph.Before)}
	before.Lay()
	return retrofit.NewSite(out, before.Layout), before
}

// Straight returns the circuit with the run of a place, known only by its length, taken as one
// straight leg with room for the work. What its bends cost on its bore (mm) by the handbook is in it
// still.
func Straight(c *graph.Circuit, place retrofit.Place, boreMM float64) *graph.Circuit {
	out := *c
	out.Runs = slices.Clone(c.Runs)
	for i, r := range out.Runs {
		if r.ID != place.Run {
			continue
		}
		straight := *r
		straight.Legs = []graph.Leg{{By: graph.Vec{X: max(r.LengthMM, place.NeededMM)}, Surroundings: graph.NothingSaid(), Pos: r.Pos}}
		if boreMM > 0 {
			for _, f := range r.Fittings {
				straight.K += float64(f.Count) * formula.HandbookK(formula.LoverD(f.Kind), boreMM/1000)
			}
		}
		straight.LengthMM, straight.HasLength, straight.Fittings = 0, false, nil
		out.Runs[i] = &straight
	}
	return &out
}
