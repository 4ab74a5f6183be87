package laying

import (
	"iter"
	"math"
	"slices"
	"strings"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// newLoop is a loop with new pipe in it, and by how much it misses itself; by nothing where it closes.
type newLoop struct {
	steps   []step
	miss    graph.Vec
	closure int // its place among the closures of the layout
}

// legKey names a leg (from 0) of a path.
type legKey struct{ path, leg int }

// shortPiece is a piece of new pipe that is too short for its two sockets, or for the bead between them.
type shortPiece struct {
	key      legKey
	run      *graph.Run
	mm       float64 // to be longer by
	severity graph.Severity
	message  quantity.Text
}

// mending is a leg as it has to be for a loop to close.
type mending struct {
	pos graph.Pos
	key legKey
	change
}

// change is what has to be changed for a loop to close or a piece to go in, with the ids of the runs
// it names: of a run the tool drew along legs the user wrote it names those.
type change struct {
	text  quantity.Text
	names []string
}

// and is two changes together.
func (c change) and(by quantity.Text, o change) change {
	return change{c.text + by + o.text, append(slices.Clone(c.names), o.names...)}
}

// reportNewLoops words what of the new work does not close or is too short for its sockets. Both are
// said of lengths, and a leg that is made longer opens the loop it is in: so the two are told together.
func (l *work) reportNewLoops(w *web) {
	named := map[legKey]change{}
	for i := range l.loops {
		if l.loops[i].miss.Len() > 0 {
			l.missedLoop(w, &l.loops[i], named)
		}
	}
	for _, p := range l.short {
		hint, ok := named[p.key]
		if !ok {
			hint = l.longer(w, &p)
		}
		l.found(legPos(p.run, p.key.leg+1), p.severity, p.message, hint)
	}
}

// missedLoop words a loop that does not close.
func (l *work) missedLoop(w *web, n *newLoop, named map[legKey]change) {
	loop := n.steps
	message := graph.Say("the loop through %s does not close: it misses by %s", w.loopWords(loop), graph.DistanceWords(n.miss))
	pos, mend := l.mendLoop(w, n, named)
	l.lay.Closures[n.closure].Mend = mend.text
	if !pos.IsValid() {
		for _, s := range loop {
			if t := &w.ties[s.tie]; t.isNew() && !pos.IsValid() {
				pos = t.pos()
			}
		}
	}
	hint := mend
	if hint.text == "" {
		hint.text = "no leg of the new work runs that way: add one, or measure the old pipe again"
		if short := l.shortLeg(w, loop, n.miss); short.text != "" {
			hint = short
		}
	}
	for _, s := range loop {
		if t := w.ties[s.tie]; t.gone {
			hint.text += graph.Say(" (%s was taken out, and says how far apart its ends stand)", t.run.ID)
		}
	}
	severity := graph.Error
	for _, s := range loop {
		if t := w.ties[s.tie]; t.run != nil && t.run.Spec.Flexible() {
			severity = graph.Warning
			hint.text += graph.Say(" (or let the hose of %s take it up)", t.run.ID)
			break
		}
	}
	l.found(pos, severity, message, hint)
}

// loopWords names the runs of a loop as its reader knows them: what is left of an old run by
// the run that was cut, the pieces of pipe the tool drew from the legs to the unit together.
func (w *web) loopWords(loop []step) string {
	var names []string
	for _, s := range loop {
		t := &w.ties[s.tie]
		if t.run == nil {
			continue
		}
		name := t.run.Said()
		if t.made() {
			name = "the pipes to the unit"
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return route.ListWords(names)
}

// made reports whether the tool drew the run, so that nobody finds its name in the description:
// one that was read has keys.
func (t *tie) made() bool {
	return t.run != nil && t.isNew() && !t.run.Named && t.run.KeyPos == nil
}

func (t *tie) pos() graph.Pos {
	if t.run != nil {
		return t.run.Pos
	}
	return t.part.Pos
}

// mendLoop finds, for each axis along which the loop misses, a leg of new pipe along that
// axis whose length would close it, and words it. The position is that of the first leg. What is
// said of a leg that is too short and becomes long enough is noted in named.
func (l *work) mendLoop(w *web, n *newLoop, named map[legKey]change) (graph.Pos, change) {
	var pos graph.Pos
	var out change
	for _, axis := range axesOf(n.miss) {
		m := l.mendLeg(w, n.steps, axis, nil)
		if m.text == "" {
			return pos, change{}
		}
		if !pos.IsValid() {
			pos = m.pos
		}
		if spare, known := l.spare[m.key]; known && spare < settle.BeadMM && spare+axis.Len() >= settle.BeadMM-closureLimitMM {
			named[m.key] = m.and(": so the loop closes too", change{})
		}
		if out.text == "" {
			out = m.change
		} else {
			out = out.and(", and ", m.change)
		}
	}
	return pos, out
}

// axesOf are the parts of a miss along the three axes, those that count.
func axesOf(miss graph.Vec) []graph.Vec {
	return slices.DeleteFunc([]graph.Vec{{X: miss.X}, {Y: miss.Y}, {Z: miss.Z}}, func(v graph.Vec) bool { return v.Len() <= closureLimitMM/2. })
}

// alongLeg is a leg of new pipe on a loop that runs along an axis: the leg of a tie, and how far it goes.
type alongLeg struct {
	step step
	tie  *tie
	leg  int // from 0
	by   graph.Vec
}

// closes is how long the leg has to be for its loop no longer to miss, mm.
func (a *alongLeg) closes(miss graph.Vec) float64 {
	if a.step.back {
		miss = miss.Scale(-1)
	}
	return a.by.Len() + a.by.Unit().Dot(miss)
}

// How well a leg takes up what a loop misses by, the best first.
const (
	nowLongEnough = iota // it is too short for its sockets, and is not once it does
	stillLong
	stillGoesIn // without room for the bead of cement
	stillShort  // it becomes longer, and not long enough
	tooShort
)

// takes tells how well a leg takes up a change of its length.
func (l *work) takes(key legKey, change float64) int {
	spare, known := l.spare[key]
	after := spare + change
	switch {
	case known && change > 0 && spare < settle.BeadMM-beadPlayMM && after >= settle.BeadMM-closureLimitMM:
		return nowLongEnough
	case !known || after >= settle.BeadMM-beadPlayMM:
		return stillLong
	case after >= -0.05:
		return stillGoesIn
	case change > 0:
		return stillShort
	}
	return tooShort
}

// along yields the legs of new pipe on a loop that run along an axis.
func (l *work) along(w *web, loop []step, axis graph.Vec) iter.Seq[alongLeg] {
	return func(yield func(alongLeg) bool) {
		for _, s := range loop {
			t := &w.ties[s.tie]
			if t.path < 0 || !t.isNew() {
				continue
			}
			for k, by := range l.lines[t.path].legs {
				if math.Abs(by.Unit().Dot(axis.Unit())) >= math.Cos(straightDeg*math.Pi/180) && !yield(alongLeg{s, t, k, by}) {
					return
				}
			}
		}
	}
}

// mendLeg finds the leg along the axis that takes up best what a loop misses by there: one that is
// too short as it is, else the longest that has room for it. Those that but says are left out.
func (l *work) mendLeg(w *web, loop []step, miss graph.Vec, but func(t *tie) bool) mending {
	var out mending
	longest, best := 0.0, tooShort
	for a := range l.along(w, loop, miss) {
		t, length := a.tie, a.by.Len()
		mended, key := a.closes(miss), legKey{a.tie.path, a.leg}
		how := l.takes(key, mended-length)
		if how > best || how == best && length <= longest || how == tooShort || mended < 1 || but != nil && but(t) {
			continue
		}
		longest, best = length, how
		out = mending{pos: legPos(t.run, a.leg+1), key: key, change: t.longer(a.leg, a.by, mended-length)}
	}
	return out
}

// longer asks for a leg to be as long as its piece needs, and names what else of its loops has to
// follow for them to close.
func (l *work) longer(w *web, p *shortPiece) change {
	legs := l.lines[p.key.path].legs
	base := change{graph.Say("make %s at least %s longer", asWritten(p.run, p.key.leg+1), mm(p.mm)), []string{p.run.ID}}
	if p.key.leg >= len(p.run.Legs) || p.key.leg >= len(legs) {
		return base
	}
	by, mine := legs[p.key.leg], l.loopsOf(w, p.key.path)
	var with []quantity.Text
	var names []string
	for _, k := range mine {
		loop := &l.loops[k]
		if slices.ContainsFunc(loop.steps, func(s step) bool { t := w.ties[s.tie].run; return t != nil && t.Spec.Flexible() }) {
			continue // the hose takes it up
		}
		at := slices.IndexFunc(loop.steps, func(s step) bool { return w.ties[s.tie].path == p.key.path })
		change := by.Unit().Scale(-p.mm)
		if loop.steps[at].back {
			change = change.Scale(-1)
		}
		miss := by.Unit().Scale(loop.miss.Dot(by.Unit())).Add(change)
		if miss.Len() <= closureLimitMM {
			continue
		}
		m := l.mendLeg(w, loop.steps, miss, func(t *tie) bool {
			others := l.loopsOf(w, t.path)
			return t.path == p.key.path || !slices.Equal(others, mine) && len(others) > 1
		})
		switch {
		case m.text == "":
			base.text += "; none other of the new work on its loop takes that up: cut more out of the old pipe, or lead the new pipe there anew"
			return base
		case !slices.Contains(with, m.text):
			with, names = append(with, m.text), append(names, m.names...)
		}
		if slices.Equal(l.loopsOf(w, m.key.path), mine) {
			break // it is on all of them
		}
	}
	if len(with) == 0 {
		return base
	}
	for i, text := range with {
		with[i] = quantity.Text(strings.TrimPrefix(string(text), "make "))
	}
	return (&tie{run: p.run}).longer(p.key.leg, by, p.mm).and(", and with it, or the loop does not close, ", change{quantity.Join(with, ", and "), names})
}

// loopsOf are the loops with new pipe that a path is on.
func (l *work) loopsOf(w *web, path int) []int {
	var out []int
	for k := range l.loops {
		if slices.ContainsFunc(l.loops[k].steps, func(s step) bool { return w.ties[s.tie].path == path }) {
			out = append(out, k)
		}
	}
	return out
}

// shortLeg says of the longest leg of new pipe along an axis by which the loop misses that it is too
// short to take it up; "" where none runs that way, or one is long enough.
func (l *work) shortLeg(w *web, loop []step, miss graph.Vec) change {
	for _, axis := range axesOf(miss) {
		if m := l.mendLeg(w, loop, axis, nil); m.text != "" {
			continue
		}
		var out change
		longest := 0.0
		for a := range l.along(w, loop, axis) {
			if a.by.Len() <= longest {
				continue
			}
			t := a.tie
			name, names := graph.Say("%s", route.LegWords(t.run, a.leg+1)), []string{t.run.ID}
			if t.drawnAlong(a.leg) {
				name, names = graph.Say("your leg %s", t.run.Legs[a.leg].Quoted()), nil
			}
			longest = a.by.Len()
			out.names, out.text = names, graph.Say("%s runs that way and is too short to be %s shorter: lead the pipe there anew, or measure the old pipe again", name, mm(axis.Len()))
		}
		return out
	}
	return change{}
}

// drawnAlong reports whether the tool drew the run of a leg along legs the user wrote.
func (t *tie) drawnAlong(leg int) bool { return t.made() && leg < len(t.run.Legs) }

// longer asks for a leg, from 0, to be longer or, below nothing, shorter: one the tool took from the
// description, and may have cut at a valve, under the name its writer gave it.
func (t *tie) longer(leg int, is graph.Vec, by float64) change {
	if !t.drawnAlong(leg) {
		return change{graph.Say("make %s %s %s instead of %s", route.LegWords(t.run, leg+1), graph.WayWords(is), mm(is.Len()+by), mm(is.Len())), []string{t.run.ID}}
	}
	how := "longer"
	if by < 0 {
		how = "shorter"
	}
	return change{text: graph.Say("make your leg %s %s %s", t.run.Legs[leg].Quoted(), mm(math.Abs(by)), how)}
}

// found adds a finding whose hint is a change.
func (l *work) found(pos graph.Pos, severity graph.Severity, message quantity.Text, hint change) {
	l.find(pos, severity, message, hint.text)
	l.lay.Findings[len(l.lay.Findings)-1].Alters = hint.names
}
