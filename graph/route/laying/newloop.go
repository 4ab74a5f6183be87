package laying

import (
	"iter"
	"math"
	"slices"

	"dryfit/catalog/quantity"
	"dryfit/graph"
	"dryfit/graph/route"
	"dryfit/graph/settle"
)

// newLoop is a loop with new pipe in it, and by how much it misses itself; by nothing where it closes.
type newLoop struct {
	steps []step
	miss  graph.Vec
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

// axesOf are the parts of a miss along the three axes, those that count.
func axesOf(miss graph.Vec) []graph.Vec {
	return slices.DeleteFunc([]graph.Vec{{X: miss.X}, {Y: miss.Y}, {Z: miss.Z}}, func(v graph.Vec) bool { return v.Len() <= closureLimitMM/2. })
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

// legsAlong yields the legs of new pipe on a loop along an axis, and by how much each would have to be
// longer for the loop to close along it.
func (l *work) legsAlong(w *web, n *newLoop, axis graph.Vec) iter.Seq2[mendLeg, float64] {
	return func(yield func(mendLeg, float64) bool) {
		for _, s := range n.steps {
			t := &w.ties[s.tie]
			if t.path < 0 || !t.isNew() {
				continue
			}
			for k, by := range l.lines[t.path].legs {
				more := by.Unit().Dot(axis)
				if s.back {
					more = -more
				}
				if alongWay(by, axis.Unit()) && !yield(mendLeg{key: legKey{t.path, k}, tie: t, by: by}, more) {
					return
				}
			}
		}
	}
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
