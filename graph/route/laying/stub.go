package laying

import (
	"math"

	"dryfit/graph"
)

// judgeStub finds what is left of a cut old run too short for the sockets at its two ends:
// the one that holds it already, and the new one.
func (l *work) judgeStub(i int) {
	r, legs := l.c.Runs[i], l.lines[i].legs
	if r.RemainsOf == "" {
		return
	}
	for k := range legs {
		from, known := l.at(i, k)
		to, alsoKnown := l.at(i, k+1)
		if !known || !alsoKnown || !isFresh(from) && !isFresh(to) {
			continue
		}
		have, need := legs[k].Len()-from.takeOff-to.takeOff, from.depth+to.depth
		if have > need-0.05 {
			continue
		}
		l.find(legPos(r, k+1), graph.Error,
			graph.Say("what is left of %s between %s and %s is %s of pipe; its two sockets need %s (%s and %s)",
				r.RemainsOf, from.words, to.words, mm(math.Max(have, 0)), mm(need), mm(from.depth), mm(to.depth)),
			graph.Say("cut at least %s farther from %s", mm(math.Ceil(need-have)), oldEnd(from, to)))
	}
}

// isFresh reports whether a station is a new part, put on the end of the old pipe.
func isFresh(s station) bool { return s.part != nil && s.part.New() }

// oldEnd names the end that was there before.
func oldEnd(from, to station) string {
	if isFresh(from) {
		return to.words
	}
	return from.words
}
