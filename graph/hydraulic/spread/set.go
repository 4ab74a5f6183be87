package spread

import (
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/catalog/tables"
	"dryfit/graph"
	"dryfit/graph/hydraulic"
)

// Setting is a hand valve in a unit's bypass of which only the Kv was worked out, so that it is set
// by a reading: in one mode until so much passes the unit.
type Setting struct {
	Valve, Mode string
	Flow        float64 // of the unit in that mode, m³/s
}

// Set is what the flows are once a valve is set by its reading. In each sample it has the Kv at
// which the unit's flow reads what it should, as well as that can be read; where it stands open or
// shut before that, it stays so, and where the flow jumps there (a check that falls shut), it is left
// on the side on which the unit gets less. What passes in other modes follows from it.
type Set struct {
	Setting
	Reading    tables.Span // how far the reading may be off
	Of         int         // samples
	Shut, Open int         // in how many the valve shut leaves the unit less than the reading; open, more
	Jumps      int         // in how many the unit's flow jumps past the reading while it is turned, and is left below
	Modes      []SetMode
}

// Reached is in how many samples the reading is come to.
func (s *Set) Reached() int { return s.Of - s.Shut - s.Open - s.Jumps }

// SetMode is a mode once the valve is set.
type SetMode struct {
	Mode string
	Unit Range // the unit's flow, m³/s
	Jets Range // change of today's flow through the jets, as a share
	Has  bool  // there are jets, and they run today
}

// setting holds the work in progress.
type setting struct {
	Set
	at   *spreadMode // the mode it is set in
	open float64     // ln of the factor on the valve's loss at which it stands fully open
	flow [][]sampled // by mode: the unit's flow
	jets [][]sampled // by mode: the jets' change
	// by mode: the unit's flow were the reading exact; in a mode it is not set in, as much of it more or
	// less as the reading is, which within a tenth or so is near enough to tell what breaks a promise
	exact [][]float64
	as    []*spreadStage // by mode: all flows of the stage after the work
	unit  [][]float64    // by mode and point of the sample: the unit's flow; NaN: no answer
	wide  tables.Span    // how far the loss of a valve fully open may be off
}

// shutAt is ln of the factor on the loss of a valve at which it counts as shut: a ten thousandth of
// its Kv.
const shutAt = 18

// setBy readies the setting of a valve; nil where there is none, or not of that kind.
func (s *spreader) setBy(by *Setting) *setting {
	if by == nil || s.unitPart == nil {
		return nil
	}
	out := &setting{Set: Set{Setting: *by}, flow: make([][]sampled, len(s.modes)), jets: make([][]sampled, len(s.modes)),
		exact: make([][]float64, len(s.modes)), as: make([]*spreadStage, len(s.modes)), unit: make([][]float64, len(s.modes))}
	out.Reading = tables.Spread(tables.SpreadReading, "measured")
	for n, m := range s.modes {
		out.as[n] = m.after.again()
	}
	for _, m := range s.modes {
		if m.name == by.Mode && m.unit >= 0 {
			out.at = m
		}
	}
	if out.at == nil {
		return nil
	}
	model := out.at.after.model
	i, ok := model.PartAt[by.Valve]
	if !ok {
		return nil
	}
	full, ok := model.Parts[i].FullyOpen()
	if !ok {
		return nil
	}
	out.wide = model.Parts[i].Set.Loss.Span
	out.open = math.Log(full)
	return out
}

// set finds how the valve stands at point i of the sample, and takes up what every mode gives then;
// jetsToday is what the jets got before the work in each, as it was answered.
func (s *spreader) set(i int, values []float64, jetsToday []sampled) {
	g := s.setting
	if g == nil {
		return
	}
	reads := 1 + g.Reading.Middle + steps(s.own(i, readSlot), g.Reading.Middle-g.Reading.Low, g.Reading.High-g.Reading.Middle)
	want := g.Flow * reads
	valve := s.turn(g.at.after, values)
	// above is ln of the unit's flow over the flow wanted, with the valve's loss times e to the x: it rises with x.
	above := func(x float64) (float64, bool) {
		a := valve.to(x)
		if a.sol == nil {
			return 0, false
		}
		return math.Log(max(g.at.unitOf(a.sol), 1e-9) / want), true
	}
	open := g.open + math.Log(factorAt(s.own(i, openSlot), g.wide))
	x, state, ok := reach(above, open)
	if !ok {
		for n := range g.unit {
			g.unit[n] = append(g.unit[n], math.NaN())
		}
		return
	}
	g.Of++
	if state != within {
		reads = 1
	}
	switch state {
	case atShut:
		g.Shut++
	case atOpen:
		g.Open++
	case jumping:
		g.Jumps++
	}
	graph.SideBySide(len(s.modes), func(n int) {
		m, turned := s.modes[n], valve
		if m != g.at {
			turned = s.turn(m.after, values)
		}
		a := turned.to(x)
		if g.unit[n] = append(g.unit[n], m.unitOf(a.sol)); a.sol == nil || m.unit < 0 {
			return
		}
		g.as[n].keep(a)
		g.flow[n] = append(g.flow[n], sampled{m.unitOf(a.sol), a.past})
		g.exact[n] = append(g.exact[n], m.unitOf(a.sol)/reads)
		if then := jetsToday[n]; then.value > 0 {
			g.jets[n] = append(g.jets[n], sampled{jetsFlow(a.sol)/then.value - 1, a.past || then.past})
		}
	})
}

// turned is a stage at a point of the sample whose valve is turned to one setting after another. Its
// answers are written where the first of those just solved stood, which has been taken up by then.
type turned struct {
	s      *spreader
	stage  *spreadStage
	p      *hydraulic.Perturb
	valve  int     // index of its part; -1: not in this stage
	times  float64 // of its loss, but for how it is turned
	solved bool
	at     float64 // where it was solved last
	answer answer
}

// turn readies a stage with the values of the unknowns for the valve to be turned, whatever its Kv was
// taken to be.
func (s *spreader) turn(st *spreadStage, values []float64) *turned {
	p := &hydraulic.Perturb{}
	for k := range s.all {
		if u := &s.all[k]; u.part != s.setting.Valve {
			u.set(st.model, p, values[k])
		}
	}
	p.Loss = list(p.Loss, len(st.model.Parts), 1)
	t := &turned{s: s, stage: st, p: p, valve: -1}
	if i, ok := st.model.PartAt[s.setting.Valve]; ok {
		t.valve, t.times = i, p.Loss[i]
	}
	return t
}

// to solves it with the loss of the valve times e to the x. The search for a setting ends where it
// looked last, so that is kept; and from one setting to the next only the valve's law changes.
func (t *turned) to(x float64) answer {
	if t.solved && (x == t.at || t.valve < 0) {
		return t.answer
	}
	if t.valve >= 0 {
		t.p.Loss[t.valve] = t.times * math.Exp(x)
	}
	if t.solved {
		t.stage.model.PerturbPart(t.p, t.valve)
	} else {
		t.stage.model.Perturb(t.p)
	}
	t.solved, t.at, t.answer = true, x, t.s.asPerturbed(t.stage, 0)
	return t.answer
}

// Where a search for a setting ends.
const (
	within = iota
	atOpen
	atShut
	jumping
)

// near is how near a setting comes to what is wanted, as a share: finer than a hand sets a valve.
const near = 0.003

// reach finds where a rising function is nought, from 0 outwards and between low and shutAt: by steps
// that double until it is passed, then by false position (Illinois); of one that jumps past nought, the
// side below. ok is false where a value can't be had.
func reach(f func(float64) (float64, bool), low float64) (x float64, state int, ok bool) {
	x = min(max(0, low), shutAt)
	y, ok := f(x)
	if !ok || math.Abs(y) < near {
		return x, within, ok
	}
	a, fa := x, y // the last on the side it began
	step := 0.5
	for {
		b := max(a-step, low)
		if y < 0 {
			b = min(a+step, shutAt)
		}
		fb, ok := f(b)
		if !ok || math.Abs(fb) < near {
			return b, within, ok
		}
		if (fb < 0) != (y < 0) {
			x, state, ok = between(f, a, fa, b, fb)
			return x, state, ok
		}
		if b == shutAt {
			return b, atShut, true
		}
		if b == low {
			return b, atOpen, true
		}
		a, fa, step = b, fb, 2*step
	}
}

// between finds the nought of a function between two places where it has two signs.
func between(f func(float64) (float64, bool), a, fa, b, fb float64) (x float64, state int, ok bool) {
	for range 40 {
		x = (a*fb - b*fa) / (fb - fa)
		y, ok := f(x)
		if !ok || math.Abs(y) < near {
			return x, within, ok
		}
		if (y < 0) == (fb < 0) {
			b, fb, fa = x, y, fa/2
		} else {
			a, fa, b, fb = b, fb, x, y
		}
	}
	if fb < 0 {
		return b, jumping, true
	}
	return a, jumping, true
}

// asSet puts what the modes come to once the valve is set in the place of what they do with it put as
// reckoned, for the ranges and for what hangs on the unit's flow.
func (s *spreader) asSet() {
	g := s.setting
	if g == nil || g.Of == 0 {
		return
	}
	for n, m := range s.modes {
		if g.as[n].of == 0 {
			continue
		}
		m.ranged, m.unitFlow = g.as[n], g.unit[n]
		if len(g.jets[n]) > 0 {
			m.jetsRanged = g.jets[n]
		}
	}
}

// settled returns what the setting came to; nil where there is none.
func (s *spreader) settled() *Set {
	g := s.setting
	if g == nil || g.Of == 0 {
		return nil
	}
	for n, m := range s.modes {
		if m.unit < 0 || len(g.flow[n]) == 0 || m.runs(m.unit) <= hydraulic.Standing {
			continue
		}
		likely := m.unitOf(m.after.likely)
		if m == g.at {
			likely = g.Flow
		}
		out := SetMode{Mode: m.name, Unit: m.rangeOf(g.flow[n], likely), Has: len(g.jets[n]) > 0}
		if out.Has {
			out.Jets = m.rangeOf(g.jets[n], jetsFlow(m.after.likely)/jetsFlow(m.before.likely)-1)
		}
		g.Modes = append(g.Modes, out)
	}
	return &g.Set
}

// keptSet counts in how many samples a promise of the unit's flow or of the jets' is kept once the
// valve is set.
func (s *spreader) keptSet(p *Promise) {
	g, u := s.setting, s.unitPart
	if g == nil || u.Unit == nil {
		return
	}
	of := g.flow
	var holds func(v float64) bool
	switch p.Kind {
	case LeastFlow, RatedFlow, MostFlow:
		for _, o := range s.others {
			if o.ID == p.Part {
				kept := flowHolds(p.Kind, o.Unit)
				s.partSet(p, func(flow, _ float64) bool { return kept(flow) })
				return
			}
		}
		holds = flowHolds(p.Kind, u.Unit)
	case JetsTenth:
		of, holds = g.jets, lessThanATenth
	case CheckState:
		s.stateSet(p)
		return
	default:
		return
	}
	for n, m := range s.modes {
		if m.name != p.Mode {
			continue
		}
		for _, v := range of[n] {
			if p.SetOf++; holds(v.value) {
				p.SetKept++
			}
		}
		for i := 0; p.Kind != JetsTenth && i < len(g.exact[n]); i++ {
			if holds(g.exact[n][i]) {
				p.SetExact++
			}
		}
	}
}

// SetIn returns what a mode comes to once the throttle in the bypass of a unit is set by its reading;
// nil where none is, or nothing is promised of the unit's flow in the mode, or it is another unit than shows
// the reading: the range of that is among those of all parts.
func (r *Ranges) SetIn(mode, unit string) *SetMode {
	promised := func(p Promise) bool { return p.SetOf > 0 && p.Mode == mode && p.Part == unit }
	if r.Set == nil || r.Unit != "" && unit != r.Unit || !slices.ContainsFunc(r.Promises, promised) {
		return nil
	}
	for i := range r.Set.Modes {
		if r.Set.Modes[i].Mode == mode {
			return &r.Set.Modes[i]
		}
	}
	return nil
}

// BySetting reports whether nothing but the setting of a valve by its reading settles an unknown, for it
// is one of that valve, which comes to its reading in every sample: it is no guess to look into before
// the work, and nothing that could be measured then.
func (r *Ranges) BySetting(f Influence) bool {
	return r.Set != nil && f.Part == r.Set.Valve && r.Set.Of > 0 && r.Set.Reached() == r.Set.Of
}

// UntilSet is said behind what moves the unit's flow: so far it goes only until a throttle is set by
// its reading; "" where none is set so, or of another flow, or of another unit than shows it.
func (r *Ranges) UntilSet(flow Moved, unit string) quantity.Text {
	if r.Set == nil || flow != UnitsFlow || unit != r.Unit {
		return ""
	}
	return graph.Say(", until %q is set by its reading", r.Set.Valve)
}

// stateSet counts in how many samples a check stands as promised once the valve is set.
func (s *spreader) stateSet(p *Promise) {
	s.partSet(p, func(flow, described float64) bool { return (flow > 0) == (described > 0) })
}

// partSet counts in how many samples the flow of a part holds, against that of the case that is taken,
// once the valve is set.
func (s *spreader) partSet(p *Promise, holds func(flow, described float64) bool) {
	for n, m := range s.modes {
		st := s.setting.as[n]
		if m.name != p.Mode || st == nil {
			continue
		}
		i, ok := st.model.PartAt[p.Part]
		if !ok {
			continue
		}
		for _, v := range st.parts[i] {
			if p.SetOf++; holds(v.value, st.likely.Parts[i].Flow) {
				p.SetKept++
			}
		}
	}
}
