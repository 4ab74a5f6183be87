package spread

import (
	"cmp"
	"math"
	"slices"

	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/route"
	"dryfit/graph/sample"
)

// Of solves a circuit again over a fixed sample of what is not known exactly: the same
// sample before and after the work, so that the two can be compared point by point; of a very
// large circuit fewer of its points (worthSolving). before
// may be nil; where it is after itself there is nothing to compare. unit is the id of the
// unit whose flow is the promise; "" where there is none; by is how the valve in its bypass is set,
// nil where none is set by a reading. Modes that have no likely answer are left out. tell, if there is one, is told which point of how many is solved, from 0.
func Of(before, after *route.Layout, unit string, by *Setting, tell func(done, of int)) *Ranges {
	s := newSpread(before, after, unit)
	s.setting = s.setBy(by)
	s.tell = tell
	return s.answer(s.fitting(sample.Some(worthSolving(s.runs()))))
}

// Sample solves the modes over the few points of the sample that stand for all, or so many of what
// fits what was read, and keeps the unit's flow at each: no promises, and nothing of what moves it.
func Sample(before, after *route.Layout, unit string, by *Setting) *Ranges {
	s := newSpread(before, after, unit)
	s.setting = s.setBy(by)
	points := sample.Few()
	if len(s.readStages()) > 0 {
		points = s.fitting(sample.Some(worthSolving(s.runs())))
		points = (&Ranges{Points: points, Tried: s.tried, Unfit: s.unfit}).Few()
	}
	out := s.over(points)
	s.asSet()
	out.Modes = s.ranges()
	return out
}

// atOnce is how many points are solved before what they gave is taken up: their solutions are
// kept so long.
const atOnce = 4

// over works through points of the sample. Every stage of every mode has a model of its own, so
// they are solved side by side; what they give is taken up point by point, in order.
func (s *spreader) over(points []int) *Ranges {
	for done := 0; done < len(points); done += atOnce {
		some := points[done:min(done+atOnce, len(points))]
		stages, values := s.stages(), make([][]float64, len(some))
		for k, i := range some {
			values[k] = s.values(i)
		}
		graph.SideBySide(len(stages), func(n int) {
			stages[n].answers = stages[n].answers[:0]
			for k := range some {
				stages[n].answers = append(stages[n].answers, s.solve(stages[n], values[k], k))
			}
		})
		for k := range some {
			if s.tell != nil {
				s.tell(done+k, len(points))
			}
			s.point(k, some[k])
			s.set(some[k], values[k], s.jetsToday(k))
		}
	}
	out := &Ranges{Samples: len(points), Points: points, Unknowns: len(s.all), Unsolved: s.unsolved, Tried: s.tried, Coarser: s.coarser, Unfit: s.unfit, Fitted: s.fitted}
	for _, r := range s.read {
		out.Read = append(out.Read, r.Read)
	}
	return out
}

// stages lists the stages of all modes.
func (s *spreader) stages() (out []*spreadStage) {
	for _, m := range s.modes {
		if out = append(out, m.after); m.before != nil {
			out = append(out, m.before)
		}
	}
	return out
}

// Coarse is Of over so many points of the sample only, those that stand for all of it: quicker. Of 64 the
// ends are the fourth from either side, so that of random values 88 of 100 lie between them, not 90.
func Coarse(before, after *route.Layout, unit string, points int) *Ranges {
	s := newSpread(before, after, unit)
	return s.answer(s.fitting(sample.Some(points)))
}

// answer makes everything that is told of some points of the sample.
func (s *spreader) answer(points []int) *Ranges {
	out := s.over(points)
	out.AsItStands = s.asItStands
	if len(s.others) > 0 {
		out.Unit = s.unitPart.ID
	}
	for _, m := range s.modes {
		out.Promises = append(out.Promises, m.promises(s.unitPart, s.others)...)
	}
	s.asSet()
	out.Modes = s.ranges()
	for i := range out.Promises {
		s.keptSet(&out.Promises[i])
	}
	out.Set = s.settled()
	moved := s.worthMoving(s.mostMoved())
	out.Moved, out.Moves = len(moved), s.influences(moved)
	out.MeasureFirst = slices.DeleteFunc(worth(out.Moves), func(f Influence) bool { return f.ToBeSet || out.BySetting(f) })
	return out
}

// spreader holds the work in progress.
type spreader struct {
	modes      []*spreadMode
	all        []unknown
	unitPart   *graph.Part
	others     []*graph.Part       // the other units, with their limits as settled
	past       map[string][]string // by id of a part: the units, by theirs, that it leads past
	unsolved   int
	setting    *setting           // nil: no valve is set by a reading
	asItStands bool               // before and after the work are the same
	tell       func(done, of int) // nil: nobody
	read       []*reading         // what was read on the tub as it stands
	tried      int                // how many points were held against that; 0: nothing was read
	coarser    int                // how often its error was made √2 of itself, so that enough fit
	unfit      bool               // nothing that may be off comes near it
	fitted     bool               // the case that is taken is fitted to it
}

// spreadMode is one mode with its models and what the sample gave so far.
type spreadMode struct {
	name          string
	before, after *spreadStage // before may be nil
	untouched     bool         // the work has no place: the water passes the same pipe before and after
	unit          int          // index of the unit in after's parts; -1
	units         []int        // indices of the units whose flow is watched, that one first
	jetsChange    []sampled
	unitFlow      []float64 // by point of the sample; NaN: no answer
	twice         int       // in how many samples it would get more were its water moving already
	stands        stands
	unitMargin    []sampled // Pa by which the unit stands more than comes to it
	pipeMargin    []sampled // the same of the weakest pipe or fitting
	answered      []int     // the points at which moved was kept: where something was read
	moved         moved
	ranged        *spreadStage // what ranges are made of once a valve is set; nil: of after
	jetsRanged    []sampled    // the same of jetsChange
	narrowed      bool         // ranges are of points that fit what was read
	beside        bool         // and the case as described may lie beside them, for it was not fitted to it
}

// sampled is one value of the sample; past where a pump ran past its curve.
type sampled struct {
	value float64
	past  bool
}

// spreadStage is one stage in one mode.
type spreadStage struct {
	model              *hydraulic.Model
	likely             *hydraulic.Solution
	answers            []answer                    // at the points just solved
	room               [atOnce]*hydraulic.Solution // what they are written into, again and again
	parts, drops, runs [][]sampled                 // by index: every sample's value
	of, past           int                         // how many samples were kept, and how many of them past a pump's curve
}

// newSpread readies the circuit as it is taken by what was read (Fit, worked out here where nobody has asked
// for it yet).
func newSpread(before, after *route.Layout, unit string) *spreader {
	c, modes := after.Circuit, after.Circuit.AllModes()
	if c.Fit == nil && len(c.Readings) > 0 {
		fit := Fit(before, modes, c.Readings)
		as := func(l *route.Layout) *route.Layout {
			c := *l.Circuit
			c.Fit = fit
			return l.As(&c)
		}
		stands := before == after
		if after = as(after); stands {
			before = after
		} else if before != nil {
			before = as(before)
		}
	}
	s := spreaderOf(before, after, unit, modes)
	s.readings(c.Readings)
	if fit := after.Circuit.Fit; fit != nil {
		s.unfit, s.fitted = fit.Unfit, fit.Changes()
		for i, r := range s.read {
			if r.Met = fit.Read[i]; r.Unanswered {
				r.at = nil
			}
		}
	}
	return s
}

// spreaderOf readies a circuit without what was read.
func spreaderOf(before, after *route.Layout, unit string, modes []graph.Mode) *spreader {
	s := &spreader{unitPart: unitOf(after, unit), asItStands: before != nil && before == after, past: map[string][]string{}}
	for _, p := range after.Circuit.Units() {
		if p.ID != unit {
			s.others = append(s.others, unitOf(after, p.ID))
		}
	}
	for _, b := range after.Stage.Branches() {
		for _, p := range b.BypassParts {
			s.past[p.ID] = append(s.past[p.ID], b.Unit.ID)
		}
	}
	var models []*hydraulic.Model
	for _, mode := range modes {
		m := &spreadMode{name: mode.Name, unit: -1, after: newSpreadStage(after, mode, graph.After)}
		if m.after == nil {
			continue
		}
		models = append(models, m.after.model)
		if before != nil && before != after {
			if m.before = newSpreadStage(before, mode, graph.Before); m.before != nil {
				models = append(models, m.before.model)
			}
		}
		for i, p := range after.Circuit.Parts {
			if p.ID == unit && p.Kind == graph.HeatPump {
				m.unit = i
			}
		}
		m.units, m.untouched = s.watchedIn(m), before != nil && graph.SameWater(before.Circuit, after.Circuit)
		m.stands = standsOf(m.after.model, m.after.likely, after, m.unit)
		s.modes = append(s.modes, m)
	}
	s.all = unknowns(models)
	s.coordinates()
	return s
}

// newSpreadStage returns nil where the mode has no likely answer.
func newSpreadStage(lay *route.Layout, mode graph.Mode, stage graph.Stage) *spreadStage {
	model, err := Build(lay, mode, stage)
	if err != nil {
		return nil
	}
	likely, err := model.Solve(nil)
	if err != nil {
		return nil
	}
	return (&spreadStage{model: model, likely: likely}).again()
}

// again is the stage with nothing sampled yet.
func (st *spreadStage) again() *spreadStage {
	n, k := len(st.likely.Parts), len(st.likely.Runs)
	return &spreadStage{model: st.model, likely: st.likely, parts: make([][]sampled, n), drops: make([][]sampled, n), runs: make([][]sampled, k)}
}

// values are what the unknowns are at point i of the sample.
func (s *spreader) values(i int) []float64 {
	values := make([]float64, len(s.all))
	for k := range s.all {
		values[k] = s.all[k].value(sample.Point(i, s.all[k].coordinate))
	}
	return values
}

// depth is how far below the water at point i of the sample all that lies of which nothing says
// it, m.
func (s *spreader) depth(i int) float64 {
	at := level()
	return at.Middle + steps(s.own(i, depthSlot), at.Middle-at.Low, at.High-at.Middle)
}

// point takes up what every mode gave at point i of the sample, the k-th of those just solved.
func (s *spreader) point(k, i int) {
	depth := s.depth(i)
	for _, m := range s.modes {
		after := m.after.answers[k]
		m.unitFlow = append(m.unitFlow, m.unitOf(after.sol))
		if after.sol == nil {
			s.unsolved++
			continue
		}
		if m.before == nil {
			m.keep(after)
			m.press(after.sol, after.past, depth)
			s.follow(m, after, i)
			continue
		}
		before := m.before.answers[k]
		if before.sol == nil {
			s.unsolved++
			continue
		}
		m.keep(after)
		m.press(after.sol, after.past, depth)
		m.before.keep(before)
		s.follow(m, after, i)
		if then := jetsFlow(before.sol); then > 0 {
			m.jetsChange = append(m.jetsChange, sampled{jetsFlow(after.sol)/then - 1, after.past || before.past})
		}
	}
}

// jetsToday is what the jets got before the work in each mode, in the answers that are the k-th of
// those just solved; 0 where there is none.
func (s *spreader) jetsToday(k int) []sampled {
	out := make([]sampled, len(s.modes))
	for n, m := range s.modes {
		if m.before != nil && m.before.answers[k].sol != nil {
			out[n] = sampled{jetsFlow(m.before.answers[k].sol), m.before.answers[k].past}
		}
	}
	return out
}

// unitOf is the flow of the unit in a solution, m³/s; NaN where there is no answer or no unit.
func (m *spreadMode) unitOf(s *hydraulic.Solution) float64 {
	if s == nil || m.unit < 0 {
		return math.NaN()
	}
	return math.Abs(s.Parts[m.unit].Flow)
}

// answer is a solution, nil where there is none, and whether a pump is past its curve in it.
type answer struct {
	sol  *hydraulic.Solution
	past bool
}

// solve solves a stage with the values of the unknowns. The answer stands until the next one in
// the same room.
func (s *spreader) solve(st *spreadStage, values []float64, room int) answer {
	p := &hydraulic.Perturb{}
	for k := range s.all {
		s.all[k].set(st.model, p, values[k])
	}
	return s.sampled(st, p, room)
}

// sampled solves a stage with some factors.
func (s *spreader) sampled(st *spreadStage, p *hydraulic.Perturb, room int) answer {
	st.model.Perturb(p)
	return s.asPerturbed(st, room)
}

// asPerturbed solves a stage with the factors that its model has.
func (s *spreader) asPerturbed(st *spreadStage, room int) answer {
	sol, past, err := st.model.Sampled(st.room[room])
	if err != nil {
		return answer{}
	}
	st.room[room] = sol
	return answer{sol, past}
}

// keep takes up an answer of the mode after the work.
func (m *spreadMode) keep(a answer) {
	m.after.keep(a)
	if m.unit < 0 {
		return
	}
	if u := &a.sol.Parts[m.unit]; u.Moving != u.Flow {
		m.twice++
	}
}

func (st *spreadStage) keep(a answer) {
	sol, past := a.sol, a.past
	if st.of++; past {
		st.past++
	}
	for i := range sol.Parts {
		st.parts[i] = append(st.parts[i], sampled{sol.Parts[i].Flow, past})
		st.drops[i] = append(st.drops[i], sampled{sol.Parts[i].Drop, past})
	}
	for i := range sol.Runs {
		st.runs[i] = append(st.runs[i], sampled{sol.Runs[i].Flow, past})
	}
}

// ranges returns those of every mode.
func (s *spreader) ranges() []ModeRanges {
	of := make([][]ModeRanges, len(s.modes))
	graph.SideBySide(len(of), func(n int) { of[n] = s.modes[n].ranges() })
	return slices.Concat(of...)
}

// ranges returns the ranges of the mode's stages, before first.
func (m *spreadMode) ranges() []ModeRanges {
	var out []ModeRanges
	after := m.after
	if m.ranged != nil {
		after = m.ranged
	}
	jets := m.jetsChange
	if m.jetsRanged != nil {
		jets = m.jetsRanged
	}
	for _, st := range []*spreadStage{m.before, after} {
		if st == nil {
			continue
		}
		r := ModeRanges{Mode: m.name, Stage: st.model.Stage, Of: st.of, Past: st.past}
		for i := range st.parts {
			r.Parts = append(r.Parts, m.rangeOf(st.parts[i], st.likely.Parts[i].Flow))
			r.Drops = append(r.Drops, m.rangeOf(st.drops[i], st.likely.Parts[i].Drop))
		}
		for i := range st.runs {
			r.Runs = append(r.Runs, m.rangeOf(st.runs[i], st.likely.Runs[i].Flow))
		}
		if st == after {
			r.UnitFlow = m.unitFlow
		}
		if st == after && len(jets) > 0 {
			r.HasJets = true
			r.JetsChange = m.rangeOf(jets, jetsFlow(m.after.likely)/jetsFlow(m.before.likely)-1)
		}
		out = append(out, r)
	}
	return out
}

// rangeOf returns the range of a value: it holds the case that is taken, but where that is the one described
// and something was read.
func (m *spreadMode) rangeOf(values []sampled, likely float64) Range {
	if m.beside {
		return lies(values, likely)
	}
	return rangeOf(values, likely)
}

// rangeOf is lies of a range that holds the case that is taken too: nobody knows that it is not so.
func rangeOf(values []sampled, likely float64) Range {
	r := lies(values, likely)
	r.Low, r.High = min(r.Low, likely), max(r.High, likely)
	return r
}

// lies returns the twentieth below and above, and the middle of the sample.
func lies(values []sampled, likely float64) Range {
	n := len(values)
	if n == 0 {
		return Range{Low: likely, Likely: likely, Middle: likely, High: likely}
	}
	sorted := inOrder(values)
	at := func(share float64) int { return int(math.Round(share * float64(n-1))) }
	low, high := at(0.05), at(0.95)
	r := Range{Likely: likely, Middle: sorted[at(0.5)].value, Of: n}
	for _, v := range sorted {
		switch {
		case !v.past:
		case v.value < r.Middle:
			r.PastLow++
		default:
			r.PastHigh++
		}
	}
	r.OpenLow, r.OpenHigh = mostlyPast(sorted[:at(0.1)+1]), mostlyPast(sorted[at(0.9):])
	for ; r.OpenLow && low < n-1 && sorted[low].past; low++ {
	}
	for ; r.OpenHigh && high > low && sorted[high].past; high-- {
	}
	r.Low, r.High = sorted[low].value, sorted[high].value
	return r
}

// inOrder returns samples by value, those of one value as they came. There are so many lists of
// them that it is felt how they are sorted: by their values alone where nothing else tells them
// apart.
func inOrder(values []sampled) []sampled {
	if !slices.ContainsFunc(values, func(v sampled) bool { return v.past }) {
		alone := make([]float64, len(values))
		for i, v := range values {
			alone[i] = v.value
		}
		slices.Sort(alone)
		out := make([]sampled, len(values))
		for i, v := range alone {
			out[i].value = v
		}
		return out
	}
	at := make([]int32, len(values))
	for i := range at {
		at[i] = int32(i)
	}
	slices.SortFunc(at, func(a, b int32) int { return cmp.Or(cmp.Compare(values[a].value, values[b].value), cmp.Compare(a, b)) })
	out := make([]sampled, len(values))
	for i, k := range at {
		out[i] = values[k]
	}
	return out
}

// mostlyPast reports whether a half of some samples or more are past a pump's curve.
func mostlyPast(some []sampled) bool {
	past := 0
	for _, v := range some {
		if v.past {
			past++
		}
	}
	return 2*past >= len(some)
}

// runs is what passes a part in the case that is taken, or would were its water moving already, m³/s; 0 of
// a unit whose pump is off.
func (m *spreadMode) runs(part int) float64 {
	p := &m.after.likely.Parts[part]
	if p.Idle() {
		return 0
	}
	return max(math.Abs(p.Flow), math.Abs(p.Moving))
}

// jetsFlow is the flow through all jet groups, m³/s; 0 where their water stands.
func jetsFlow(s *hydraulic.Solution) float64 {
	flow, _ := s.JetsFlow()
	return hydraulic.Passing(flow)
}
