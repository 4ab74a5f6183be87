package laying

import (
	"iter"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// closureLimitMM is by how much a loop may miss itself and still close: less than the
// width of a saw cut. Common practice, no source.
const closureLimitMM = 1

// closeLoops walks every loop of known distances and says by how much it misses itself. New work
// on a loop of old pipe that does not close may go by either side of that loop: where it closes
// by one of them, what is wrong is in the old pipe, and is said of that alone.
func (l *work) closeLoops(w *web) {
	var old []oldLoop // that miss
	for k := range w.ties {
		t := &w.ties[k]
		if t.tree || t.from == t.to {
			continue
		}
		// the tie itself, then back through the tree from its end to its start
		loop := append([]step{{tie: k}}, w.chain(t.to, t.from)...)
		sum := graph.Vec{}
		var runs []string
		isNew := false
		for _, s := range loop {
			u := &w.ties[s.tie]
			isNew = isNew || u.isNew()
			if s.back {
				sum = sum.Sub(u.by)
			} else {
				sum = sum.Add(u.by)
			}
			if u.run != nil {
				runs = append(runs, u.run.ID)
			}
		}
		if runs == nil {
			continue
		}
		c := route.Closure{Runs: runs, ErrorMM: sum.Scale(-1)}
		if isNew {
			c.ErrorMM = lessOld(loop, c.ErrorMM, old)
		}
		c.Closed = c.ErrorMM.Len() <= closureLimitMM
		if !c.Closed && !isNew {
			old = append(old, oldLoop{loop, c.ErrorMM})
		}
		if !c.Closed {
			l.missedLoop(w, loop, &c, isNew)
		}
		l.lay.Closures = append(l.lay.Closures, c)
	}
}

// oldLoop is a loop of old pipe and by how much it misses itself.
type oldLoop struct {
	steps []step
	miss  graph.Vec
}

// lessOld is by how much a loop with new pipe in it misses itself when it goes by the better side
// of each loop of old pipe it shares something with.
func lessOld(loop []step, miss graph.Vec, old []oldLoop) graph.Vec {
	for _, o := range old {
		if !slices.ContainsFunc(loop, func(s step) bool {
			return slices.ContainsFunc(o.steps, func(t step) bool { return t.tie == s.tie })
		}) {
			continue
		}
		for _, other := range []graph.Vec{miss.Add(o.miss), miss.Sub(o.miss)} {
			if other.Len() <= closureLimitMM {
				miss = other
			}
		}
	}
	return miss
}

// missedLoop words a loop that does not close.
func (l *work) missedLoop(w *web, loop []step, c *route.Closure, isNew bool) {
	if !isNew {
		l.missedOldLoop(w, loop, c.ErrorMM)
		return
	}
	message := graph.Say("the loop through %s does not close: it misses by %s", w.loopWords(loop), graph.DistanceWords(c.ErrorMM))
	pos, mend := l.mendLoop(w, loop, c.ErrorMM)
	c.Mend = mend
	if !pos.IsValid() {
		for _, s := range loop {
			if t := &w.ties[s.tie]; t.isNew() && !pos.IsValid() {
				pos = t.pos()
			}
		}
	}
	hint := mend
	if hint == "" {
		hint = "no leg of the new work runs that way: add one, or measure the old pipe again"
		if short := l.shortLeg(w, loop, c.ErrorMM); short != "" {
			hint = short
		}
	}
	for _, s := range loop {
		if t := w.ties[s.tie]; t.gone {
			hint += graph.Say(" (%s was taken out, and says how far apart its ends stand)", t.run.ID)
		}
	}
	severity := graph.Error
	for _, s := range loop {
		if t := w.ties[s.tie]; t.run != nil && t.run.Spec.Flexible() {
			severity = graph.Warning
			hint += graph.Say(" (or let the hose of %s take it up)", t.run.ID)
			break
		}
	}
	l.find(pos, severity, message, hint)
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
// axis whose length would close it, and words it. The position is that of the first leg.
func (l *work) mendLoop(w *web, loop []step, miss graph.Vec) (graph.Pos, quantity.Text) {
	var pos graph.Pos
	var out []quantity.Text
	for _, axis := range []graph.Vec{{X: miss.X}, {Y: miss.Y}, {Z: miss.Z}} {
		if axis.Len() <= closureLimitMM/2. {
			continue
		}
		legPos, text := l.mendLeg(w, loop, axis)
		if text == "" {
			return pos, ""
		}
		if !pos.IsValid() {
			pos = legPos
		}
		out = append(out, text)
	}
	return pos, quantity.Join(out, ", and ")
}

// alongLeg is a leg of new pipe on a loop that runs along an axis: the leg of a tie, and how far it goes.
type alongLeg struct {
	step step
	tie  *tie
	leg  int // from 0
	by   graph.Vec
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

// mendLeg finds the longest leg along the axis that stays a leg once mended.
func (l *work) mendLeg(w *web, loop []step, miss graph.Vec) (graph.Pos, quantity.Text) {
	var pos graph.Pos
	var text quantity.Text
	longest := 0.0
	for a := range l.along(w, loop, miss) {
		t, length := a.tie, a.by.Len()
		mended := length + a.by.Unit().Dot(miss)
		if a.step.back {
			mended = length - a.by.Unit().Dot(miss)
		}
		if length <= longest || mended < 1 {
			continue
		}
		longest, pos = length, legPos(t.run, a.leg+1)
		if t.made() && a.leg < len(t.run.Legs) {
			text = longerWords(t.run.Legs[a.leg], mended-length)
			continue
		}
		text = graph.Say("make %s %s %s instead of %s", route.LegWords(t.run, a.leg+1), graph.WayWords(a.by), mm(mended), mm(length))
	}
	return pos, text
}

// shortLeg says of the longest leg of new pipe along an axis by which the loop misses that it is too
// short to take it up; "" where none runs that way, or one is long enough.
func (l *work) shortLeg(w *web, loop []step, miss graph.Vec) quantity.Text {
	for _, axis := range []graph.Vec{{X: miss.X}, {Y: miss.Y}, {Z: miss.Z}} {
		if axis.Len() <= closureLimitMM/2. {
			continue
		}
		if _, mend := l.mendLeg(w, loop, axis); mend != "" {
			continue
		}
		var text quantity.Text
		longest := 0.0
		for a := range l.along(w, loop, axis) {
			if a.by.Len() <= longest {
				continue
			}
			t := a.tie
			name := graph.Say("%s", route.LegWords(t.run, a.leg+1))
			if t.made() && a.leg < len(t.run.Legs) {
				name = graph.Say("your leg %s", t.run.Legs[a.leg].Quoted())
			}
			longest = a.by.Len()
			text = graph.Say("%s runs that way and is too short to be %s shorter: lead the pipe there anew, or measure the old pipe again", name, mm(axis.Len()))
		}
		return text
	}
	return ""
}

// longerWords asks for a leg the tool took from the description, and may have cut at a valve,
// to be longer or shorter, under the name its writer gave it.
func longerWords(leg graph.Leg, by float64) quantity.Text {
	how := "longer"
	if by < 0 {
		how = "shorter"
	}
	return graph.Say("make your leg %s %s %s", leg.Quoted(), mm(math.Abs(by)), how)
}
