package laying

import (
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
)

// turned is a finding that pipe goes another way than the one that leads on, with the legs that meet there.
type turned struct {
	finding int // index into the layout's findings
	legs    []legKey
	back    bool // into what it comes from: where the pipe beyond it lies is then anybody's guess
	fold    bool // two legs of one run
}

// turnedAt notes that an error told since there were so many findings is of legs that meet so.
func (l *work) turnedAt(before int, turnDeg float64, fold bool, legs ...legKey) {
	if n := len(l.lay.Findings); n > before && l.lay.Findings[n-1].Severity == graph.Error {
		l.turns = append(l.turns, turned{n - 1, legs, turnDeg > 180-graph.StraightDeg, fold})
	}
}

// mostRemedies bounds how often the circuit is laid out once more to find the leg that is to blame.
const mostRemedies = 12

// remedy is one leg written otherwise.
type remedy struct {
	turn int // index into turns
	leg  legKey
	out  bool // it is left out; else the other way round
}

// oneLeg seeks the one leg that is to blame for loops that do not close and for pipe that turns where
// none can: written the wrong way round, or folded back. It is told once, where it turns, and what goes with
// it follows from that: the circuit laid out with it written otherwise says what does.
func (l *work) oneLeg(w *web, loopAt map[*newLoop]int) {
	missed := l.missedLoops(w)
	if len(l.turns) == 0 || len(missed) == 0 && len(l.turns) == 1 {
		return
	}
	all := l.remedies()
	var best *remedy
	fewest := len(missed) + len(l.turns) - 1
	for i := range all[:min(len(all), mostRemedies)] {
		if loops, turns := l.left(all[i]); loops == 0 && turns < len(l.turns) && loops+turns < fewest {
			best, fewest = &all[i], loops+turns
		}
	}
	if best == nil {
		return
	}
	root := &l.lay.Findings[l.turns[best.turn].finding]
	root.Tried = true
	root.Hint, root.Alters = l.remedyWords(*best), []string{l.c.Runs[best.leg.path].ID}
	if len(missed) > 0 {
		root.Hint += ": the loop closes then too"
	}
	for i, t := range l.turns {
		if d := &l.lay.Findings[t.finding]; i != best.turn && slices.Contains(t.legs, best.leg) {
			d.Behind = append(d.Behind, root.Pos)
		}
	}
	for _, n := range missed {
		d := &l.lay.Findings[loopAt[n]]
		d.Behind = append(d.Behind, root.Pos)
	}
}

// missedLoops are the new loops that do not close, and that no hose takes up.
func (l *work) missedLoops(w *web) []*newLoop {
	var out []*newLoop
	for i := range l.loops {
		if n := &l.loops[i]; n.miss.Len() > 0 && w.missedSeverity(n) == graph.Error {
			out = append(out, n)
		}
	}
	return out
}

// remedies are what one leg might have been meant to be where the pipe turns as none can: those first
// that meet most of such turns.
func (l *work) remedies() []remedy {
	var out []remedy
	meets := func(key legKey) (n int) {
		for _, t := range l.turns {
			if slices.Contains(t.legs, key) {
				n++
			}
		}
		return n
	}
	for i, t := range l.turns {
		for _, key := range t.legs {
			asked := func(r remedy) bool { return r.leg == key && r.out == t.fold }
			if t.back && key.leg >= 0 && key.leg < len(l.lines[key.path].legs) && l.c.Runs[key.path].New() && !slices.ContainsFunc(out, asked) {
				out = append(out, remedy{i, key, t.fold})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b remedy) int { return meets(b.leg) - meets(a.leg) })
	return out
}

// remedyWords asks for a leg to be written otherwise.
func (l *work) remedyWords(r remedy) quantity.Text {
	if r.out {
		return graph.Say("leave %s out", l.legName(r.leg))
	}
	turned := graph.Leg{By: l.c.Runs[r.leg.path].Legs[r.leg.leg].By.Scale(-1)}
	return graph.Say("write %s the other way round: \"%s\"", l.legName(r.leg), turned.Words())
}

// legName is what a leg is called in a hint: one of to-unit or from-unit as its writer wrote it.
func (l *work) legName(key legKey) quantity.Text {
	r := l.c.Runs[key.path]
	t := tie{run: r, path: key.path}
	if t.drawnAlong(key.leg) {
		return graph.Say("your leg %s", r.Legs[key.leg].Quoted())
	}
	return graph.Say("%s", route.LegWords(r, key.leg+1))
}

// left lays the circuit out with a leg written as a remedy asks, and counts what it leaves: loops that
// miss, and pipe that turns where none can.
func (l *work) left(r remedy) (loops, turns int) {
	c := *l.c
	c.Runs = slices.Clone(l.c.Runs)
	run := *c.Runs[r.leg.path]
	if run.Legs = slices.Clone(run.Legs); r.out {
		run.Legs = slices.Delete(run.Legs, r.leg.leg, r.leg.leg+1)
	} else {
		run.Legs[r.leg.leg].By = run.Legs[r.leg.leg].By.Scale(-1)
	}
	c.Runs[r.leg.path] = &run
	t := newWork(l.set.With(&c))
	w := t.laid()
	return len(t.missedLoops(w)), len(t.turns)
}

// doubt says what of the new pipe stands nowhere for certain: beyond pipe that goes back into what it
// comes from, and on a loop that does not close, but for the legs that other loops confirm.
func (l *work) doubt(w *web, loopAt map[*newLoop]int) {
	leg := func(key legKey) route.DoubtLeg { return route.DoubtLeg{Run: l.c.Runs[key.path].ID, Leg: key.leg + 1} }
	for _, t := range l.turns {
		if !t.back {
			continue
		}
		d := route.Doubt{Pos: l.lay.Findings[t.finding].Pos}
		for _, key := range t.legs {
			if l.c.Runs[key.path].New() {
				d.Legs = append(d.Legs, leg(key))
			}
		}
		l.lay.Doubts = append(l.lay.Doubts, d)
	}
	sure := map[int]bool{} // paths
	for i := range l.loops {
		if n := &l.loops[i]; n.miss.Len() == 0 {
			for _, s := range n.steps {
				sure[w.ties[s.tie].path] = true
			}
		}
	}
	for _, n := range l.missedLoops(w) {
		d := route.Doubt{Pos: l.lay.Findings[loopAt[n]].Pos, Miss: n.miss}
		for _, s := range n.steps {
			t := &w.ties[s.tie]
			if t.path < 0 || t.run == nil || !t.isNew() || sure[t.path] {
				continue
			}
			for k := range max(1, len(t.run.Legs)) {
				d.Legs = append(d.Legs, leg(legKey{t.path, k}))
			}
		}
		l.lay.Doubts = append(l.lay.Doubts, d)
	}
}
