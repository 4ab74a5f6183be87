package spread

import (
	"math"
	"slices"

	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
	"dryfit/graph/sample"
	"dryfit/graph/stream"
)

// Read is what became of one number that was read on the tub as it stands.
type Read struct {
	graph.Met
	Was Range // of what it would read, before that was known
}

// reading is one number read, with where it stands in the models.
type reading struct {
	Read
	at        *spreadStage
	part, run int // index; -1
	was       []sampled
	times     float64 // how often one instrument read this water, this time too: its error is the same each time
	scatter   float64 // what it lies off their mean adds to the squares of what its error is good for, beside that of the mean
}

// How many points are tried for those that fit what was read, and how many are enough. The least
// that ranges are made of is few: below it what was read is taken as less exact, step by step.
const (
	mostRounds = 12
	enoughFit  = 400
	fewFit     = 64
	// unfit is how likely the reading is, against the likeliest it could be, in the nearest of the points:
	// three times its error off, where nine in ten lie within it.
	unfit = 5e-6
)

// readings readies what was read; of what stands today, so of the stage before the work, where
// there is one.
func (s *spreader) readings(all []graph.Reading) {
	for _, r := range all {
		if r.Flow > 0 {
			q := r
			q.Pressure, q.PressureSet = 0, false
			s.read = append(s.read, s.readingOf(q))
		}
		if r.PressureSet {
			q := r
			q.Flow = 0
			s.read = append(s.read, s.readingOf(q))
		}
	}
	s.byOne()
}

// byOne counts how often each instrument read one water in one mode, a flow anywhere along pipe from which
// nothing branches, a pressure at one port: what is good for as much there is taken to be of one, whose error
// repeats itself.
func (s *spreader) byOne() {
	for _, r := range s.read {
		r.times = 0
		sum := 0.0
		for _, o := range s.read {
			if r.Mode == o.Mode && r.Pressed() == o.Pressed() && r.Off == o.Off && r.oneWater(o) {
				r.times++
				sum += o.Value()
			}
		}
		z := r.errors(sum / r.times)
		r.scatter = (1 - 1/r.times) * z * z
	}
}

// oneWater reports whether another of the same mode is of the same pressure, or of water that flows by both.
func (r *reading) oneWater(o *reading) bool {
	switch {
	case r.Part == o.Part && r.Run == o.Run:
		return !r.Pressed() || r.Port == o.Port
	case r.Pressed() || r.at == nil || o.at == nil:
		return false
	}
	net := r.at.model.Layout.Stage.Net()
	a, b := r.pipe(net), o.pipe(net)
	return a != nil && b != nil && net.Along(a)[b.ID]
}

// pipe is the run that all water of a flow that was read flows through; nil where it is read at a part that
// more than two join.
func (r *reading) pipe(net *stream.Net) *graph.Run {
	if r.Run != "" {
		return net.Run(r.Run)
	}
	p := net.Part(r.Part)
	if p == nil || p.Kind == graph.Tub {
		return nil
	}
	if at := net.WaterAt(p); len(at) == 1 || len(at) == 2 {
		return at[0]
	}
	return nil
}

func (s *spreader) readingOf(r graph.Reading) *reading {
	out := &reading{Read: Read{Met: graph.Met{Reading: r, Unanswered: true}}, part: -1, run: -1}
	out.Off = offOf(r)
	for _, m := range s.modes {
		if m.name != r.Mode {
			continue
		}
		if out.at = m.before; s.asItStands {
			out.at = m.after
		}
	}
	if out.at == nil {
		return out
	}
	if i, ok := out.at.model.PartAt[r.Part]; ok && r.Part != "" {
		out.part = i
	}
	out.run = slices.IndexFunc(out.at.model.Runs, func(m hydraulic.ModelRun) bool { return r.Run != "" && m.Run.ID == r.Run })
	if v, ok := out.value(answer{sol: out.at.likely}, level().Middle); ok {
		out.AsDescribed, out.Unanswered = v, false
	} else {
		out.at = nil
	}
	return out
}

// offOf is how far off a reading may be: as it says, else as such readings are; a pressure by a
// gauge is off by so much of its dial at least.
func offOf(r graph.Reading) float64 {
	usual := tables.Spread(tables.SpreadReading, "measured")
	dial := tables.Spread(tables.SpreadGauge, "measured")
	switch {
	case !r.PressureSet && r.Off > 0:
		return r.Off
	case !r.PressureSet:
		return usual.High
	case r.OffPa > 0:
		return r.OffPa
	case r.Off > 0:
		return r.Off * math.Abs(r.Pressure)
	}
	return dial.High * bar
}

// bar is the unit of the spread of gauges, Pa.
const bar = 1e5

// value is what would be read in an answer, where all of unknown level lies so far below the water, m.
func (r *reading) value(a answer, depth float64) (float64, bool) {
	switch {
	case a.sol == nil:
		return 0, false
	case r.Pressed() && r.part >= 0:
		pa, known, ok := r.at.model.Gauge(a.sol, r.part, r.Port)
		if ok && !known {
			pa += depth * r.at.model.Layout.Stage.Water.Metre()
		}
		return pa, ok
	case r.part >= 0:
		return math.Abs(a.sol.Parts[r.part].Flow), true
	case r.run >= 0:
		return math.Abs(a.sol.Runs[r.run].Flow), true
	}
	return 0, false
}

// deviation is how many standard deviations of its error the reading lies from a value: of a normal error
// nine in ten lie within Off. Of several by one instrument the squares add up to that of their mean, and of how
// far they scatter about it: each has its share.
func (r *reading) deviation(v float64) float64 { return r.errors(v) / math.Sqrt(r.times) }

// errors is how many standard deviations of its error the reading by itself lies from a value.
func (r *reading) errors(v float64) float64 {
	off := v - r.Value()
	if !r.Pressed() {
		off /= r.Flow
	}
	return bound * off / r.Off
}

// fitting returns the points that fit what was read, of those given and the same again further on:
// each is as likely to be among them as what was read is in it. They are an even sample of what is
// left, so all that is made of points holds of them. Without readings, or where nothing that may be off comes
// near them (graph.Fit), it returns the points as they are.
func (s *spreader) fitting(points []int) []int {
	stages := s.readStages()
	if len(stages) == 0 {
		return points
	}
	var all []int
	var logs []float64
	sum, most := 0.0, math.Inf(-1) // sum: of the weights against the greatest
	for round := 0; round < s.mostRounds(len(points), stages) && (round == 0 || sum < enoughFit); round++ {
		for _, p := range points {
			i := p + round*sample.Size
			w := s.weigh(stages, i, round == 0)
			all, logs = append(all, i), append(logs, w)
			if w > most {
				sum, most = sum*math.Exp(most-w), w
			}
			if w > math.Inf(-1) {
				sum += math.Exp(w - most)
			}
		}
	}
	s.tried = len(all)
	for _, r := range s.read {
		if len(r.was) > 0 {
			r.Was = rangeOf(r.was, r.AsDescribed)
			r.was = nil
		}
	}
	if s.unfit || math.IsInf(most, -1) {
		s.unfit = true
		return points
	}
	chosen := evenly(all, weights(logs, most))
	for len(chosen) < min(fewFit, len(points)) && s.coarser < 8 {
		s.coarser++
		for i := range logs {
			logs[i] /= 2
		}
		most /= 2
		chosen = evenly(all, weights(logs, most))
	}
	for _, m := range s.modes {
		m.narrowed, m.beside = true, !s.fitted
	}
	return chosen
}

// weights are those of points against the greatest, by their logarithms.
func weights(logs []float64, most float64) []float64 {
	out := make([]float64, len(logs))
	for i, w := range logs {
		out[i] = math.Exp(w - most)
	}
	return out
}

// readStages are the stages that something was read in.
func (s *spreader) readStages() (out []*spreadStage) {
	for _, r := range s.read {
		if r.at != nil && !slices.Contains(out, r.at) {
			out = append(out, r.at)
		}
	}
	return out
}

// weigh is the logarithm of how likely all that was read is at a point, against the likeliest it could be;
// that of nothing where the point has no answer.
func (s *spreader) weigh(stages []*spreadStage, i int, keep bool) float64 {
	values, depth, w := s.values(i), s.depth(i), 0.0
	for _, st := range stages {
		a := s.solve(st, values, 0)
		for _, r := range s.read {
			if r.at != st {
				continue
			}
			v, ok := r.value(a, depth)
			if !ok {
				return math.Inf(-1)
			}
			z := r.deviation(v)
			w -= z * z / 2
			if keep {
				r.was = append(r.was, sampled{v, a.past})
			}
		}
	}
	return w
}

// evenly chooses points by their weights against the greatest: systematic sampling, so that none is
// taken twice and of equal ones every n-th.
//
// Source: W. G. Madow (1949), Annals of Mathematical Statistics 20, 333-354 (from memory).
func evenly(points []int, weights []float64) (out []int) {
	most, sum := slices.Max(weights), 0.5
	for k, i := range points {
		was := math.Floor(sum)
		if sum += weights[k] / most; math.Floor(sum) > was {
			out = append(out, i)
		}
	}
	return out
}

// fewTimes is how many times the points of sample.Few there are of what fits what was read: those are
// chosen to lie evenly, these lie as if drawn by lot: were they no more, a year's range would come out
// a quarter narrower or wider by it.
const fewTimes = 4

// Few are the points that stand for all of them where each is dear: those of the sample, or of what
// fits what was read fewTimes as many.
func (r *Ranges) Few() []int {
	few := sample.Few()
	if !r.Narrowed() {
		return few
	}
	n := min(fewTimes*len(few), len(r.Points))
	out := make([]int, n)
	for k := range out {
		out[k] = r.Points[k*len(r.Points)/n]
	}
	return out
}

// All are the points that Few stand for: those of the sample, or of what fits what was read.
func (r *Ranges) All() []int {
	if !r.Narrowed() {
		return sample.All()
	}
	return r.Points
}

// Narrowed reports whether the ranges are of the points that fit what was read.
func (r *Ranges) Narrowed() bool { return r.Tried > 0 && !r.Unfit }

// Contradicted reports whether the case as described comes to what was not read, and the one that is taken
// is fitted to it. A nil Ranges is not.
func (r *Ranges) Contradicted() bool { return r != nil && r.Narrowed() && r.Fitted }

// Settled reports whether what was read leaves a promise of a unit's flow broken in as many ways as
// others have to be kept: no further reading is asked for it.
func (r *Ranges) Settled(p *Promise) bool {
	return r.Contradicted() && (p.Kind == LeastFlow || p.Kind == MostFlow) && p.Sure() < 1-WarnBelow
}

// moved are the flows that unknowns move, at the points that fit what was read.
type moved struct {
	values     [][]float64 // those that are watched
	jets, head []float64
}

// follow keeps them of a point, where something was read.
func (s *spreader) follow(m *spreadMode, a answer, point int) {
	if !m.narrowed {
		return
	}
	sol := a.sol
	m.answered = append(m.answered, point)
	values, _ := m.watched()
	if m.moved.values == nil {
		m.moved.values = make([][]float64, len(values))
	}
	for i, value := range values {
		m.moved.values[i] = append(m.moved.values[i], value(sol))
	}
	m.moved.jets = append(m.moved.jets, jetsFlow(sol))
	m.moved.head = append(m.moved.head, pumpHead(sol))
}

// left works out what each unknown still moves once something was read: how far the flow lies, times
// how closely it goes with the unknown over the points that fit. Of a sample of n points a
// correlation below 2.5/√n is none.
func (s *spreader) left(m *spreadMode) []effect {
	n := len(m.answered)
	if n < fewFit/2 || !slices.ContainsFunc(m.moved.values, func(flow []float64) bool { return half(flow) > 0 }) {
		return nil
	}
	out := make([]effect, len(s.all))
	x := make([]float64, n)
	for k := range s.all {
		for j, i := range m.answered {
			x[j] = s.all[k].value(sample.Point(i, s.all[k].coordinate))
		}
		goes := func(y []float64) float64 {
			if r := math.Abs(correlation(x, y)); r >= 2.5/math.Sqrt(float64(n)) {
				return r * half(y)
			}
			return 0
		}
		out[k] = effect{known: true, jets: goes(m.moved.jets), head: goes(m.moved.head)}
		for _, flow := range m.moved.values {
			out[k].moves(goes(flow), len(m.units) > 0)
		}
	}
	return out
}

// half is half the width of the middle nine tenths of some values, as a share of their middle; 0
// where that is 0.
func half(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	at := func(share float64) float64 { return sorted[int(math.Round(share*float64(len(sorted)-1)))] }
	if middle := math.Abs(at(0.5)); middle > 0 {
		return (at(0.95) - at(0.05)) / 2 / middle
	}
	return 0
}

// correlation is that of two lists of equal length; 0 where one of them stands still.
func correlation(x, y []float64) float64 {
	mx, my := mean(x), mean(y)
	var xx, yy, xy float64
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		xx, yy, xy = xx+dx*dx, yy+dy*dy, xy+dx*dy
	}
	if xx == 0 || yy == 0 {
		return 0
	}
	return xy / math.Sqrt(xx*yy)
}

func mean(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}

// CoarserTimes is how many times less exact what was read was taken, so that enough points fit.
func (r *Ranges) CoarserTimes() float64 { return math.Pow(math.Sqrt2, float64(r.Coarser)) }
